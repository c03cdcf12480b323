import { checkRange, degreesToRadians } from '@finial/units';

/** Sunshine under a clear sky. */
export interface ClearSky {
  /** On a horizontal surface in watts per square metre, sun and sky together. */
  readonly globalWPerM2: number;
  /** From the sun's disc on a surface square to it, in watts per square metre. */
  readonly directNormalWPerM2: number;
  /** From the blue sky on a horizontal surface, in watts per square metre. */
  readonly diffuseWPerM2: number;
}

/**
 * Sunshine under a clear sky for one elevation of the sun: Haurwitz for the whole, Meinel for the beam, the sky takes the rest.
 *
 * The report prints 0.057 in the exponent of the Haurwitz model, its own programs and the original paper 0.059, which is used: 0.2 to 1 % less.
 *
 * Sea level and ordinary haze: high dry country gets up to 15 % more beam, humid or dusty air less, and broken cloud may for minutes throw
 * 10 to 20 % more than a clear sky. Night gives zero.
 *
 * @param elevationDeg - elevation of the sun's centre in degrees, -90 to 90
 * @returns irradiance within about 10 % under a clear sky (monthly mean error of the whole: about 5 to 10 %)
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source M. J. Reno, C. W. Hansen, J. S. Stein, SAND2012-2389 (2012), Haurwitz and Meinel models; air mass of F. Kasten and A. T. Young, Applied Optics 28 (1989) 4735
 * @example The sun half way up
 * ```ts
 * import { clearSky } from '@finial/site';
 *
 * clearSky(30).globalWPerM2; // ≈ 488
 * clearSky(-5); // → { globalWPerM2: 0, directNormalWPerM2: 0, diffuseWPerM2: 0 }
 * ```
 */
export function clearSky(elevationDeg: number): ClearSky {
  checkRange(elevationDeg, 'elevationDeg', { min: -90, max: 90, unit: 'degrees' });
  const sine = Math.sin(degreesToRadians(elevationDeg));
  if (sine <= 0) return { globalWPerM2: 0, directNormalWPerM2: 0, diffuseWPerM2: 0 };
  const globalWPerM2 = 1098 * sine * Math.exp(-0.059 / sine);
  const airMass = 1 / (sine + 0.50572 * (elevationDeg + 6.07995) ** -1.6364);
  const beam = 1353 * 0.7 ** (airMass ** 0.678);
  // Two models of different origin: within a degree of the horizon the beam alone would exceed the whole.
  const directNormalWPerM2 = Math.min(beam, globalWPerM2 / sine);
  return {
    globalWPerM2,
    directNormalWPerM2,
    diffuseWPerM2: Math.max(0, globalWPerM2 - directNormalWPerM2 * sine),
  };
}
