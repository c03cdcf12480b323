import { checkObject, checkRange } from '@finial/units';
import { elevationBounds, gainDbiOfRatio } from './PatternTable.js';

/** A direction from an antenna that is the same all around. */
export interface ElevationDirection {
  /** Elevation in degrees above the horizon, -90 to 90. */
  readonly elevationDeg: number;
}

/** Greatest gain of a thin half-wave dipole as a plain ratio: 4 over the entire cosine integral of 2π (2.437653). */
export const halfWaveDipoleRatio = 1.640_923;

/**
 * Gain of a thin, lossless, vertical half-wave dipole in dBi, from its closed form.
 *
 * True for a sinusoidal current, a thin rod and free space. A rod as thick as one builds for 868 MHz loses 0.02 dB of it; mast, roof and
 * ground change it by decibels, most of all near the axis. There the null is stated as {@link patternFloorDbi}.
 *
 * @returns gain in dBi, -60 to 2.151, error of the evaluation below 1e-5 dB
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Balanis, Antenna Theory, half-wavelength dipole (from memory): field cos(π/2 sin ε)/cos ε, directivity 1.643
 * @example Towards the horizon and 30° below it
 * ```ts
 * import { halfWaveDipoleGainDbi } from '@finial/antenna';
 *
 * halfWaveDipoleGainDbi({ elevationDeg: 0 }); // ≈ 2.151
 * halfWaveDipoleGainDbi({ elevationDeg: -30 }); // ≈ 0.39
 * ```
 */
export function halfWaveDipoleGainDbi(direction: ElevationDirection): number {
  checkObject(direction, 'direction');
  const elevationDeg = checkRange(direction.elevationDeg, 'elevationDeg', elevationBounds);
  return gainDbiOfRatio(halfWaveDipoleRatio * halfWaveFactor(Math.sin((elevationDeg * Math.PI) / 180)));
}

/** Power pattern of a half-wave element over the sine of the elevation; 1 at the horizon, 0 on the axis. */
export function halfWaveFactor(sine: number): number {
  const cosineSquared = 1 - sine * sine;
  return cosineSquared < 1e-12 ? 0 : Math.cos((Math.PI / 2) * sine) ** 2 / cosineSquared;
}
