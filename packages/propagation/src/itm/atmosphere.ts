import { InputError } from '@finial/units';

/** The air along a path. */
export interface Atmosphere {
  readonly surfaceRefractivity: number;
  readonly effectiveEarthRadiusM: number;
}

/**
 * Refractivity at a height, and the radius of the Earth over which rays in that air can be drawn straight.
 *
 * @throws {@link InputError} `outside-validity`: the ground lies so high or so low that the refractivity leaves 150 to 400
 * @source NBS Technical Note 101 (1967), volume I, equations 4.3 and 4.4
 */
export function atmosphere(seaLevelRefractivity: number, groundHeightM: number): Atmosphere {
  const surfaceRefractivity = seaLevelRefractivity * Math.exp(-groundHeightM / 9460);
  if (surfaceRefractivity < 150 || surfaceRefractivity > 400) {
    throw new InputError({
      code: 'outside-validity',
      argument: 'path.heightM',
      received: groundHeightM,
      expected: `ground over which the surface refractivity lies within 150 to 400 N-units (here ${surfaceRefractivity.toFixed(1)})`,
    });
  }
  const curvaturePerM = 157e-9 * (1 - 0.04665 * Math.exp(surfaceRefractivity / 179.3));
  return { surfaceRefractivity, effectiveEarthRadiusM: 1 / curvaturePerM };
}
