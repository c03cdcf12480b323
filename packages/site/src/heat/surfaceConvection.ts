import { celsiusToKelvin, checkObject, checkRange } from '@finial/units';

/** A plate in air. */
export interface PlateInAir {
  /** Temperature of the surface in degrees C, -80 to 400. */
  readonly surfaceC: number;
  /** Temperature of the air in degrees C, -80 to 100. */
  readonly airC: number;
  /** Height of the plate in metres, along which the air rises, 0.001 to 10. */
  readonly heightM: number;
  /**
   * Wind along the plate in metres per second, 0 to 50.
   *
   * @defaultValue 0
   */
  readonly windMPerS?: number | undefined;
}

/**
 * Convective heat-transfer coefficient of an upright plate in air at sea level, in watts per square metre and kelvin: rising air, wind, or both.
 *
 * Wind is laminar along a plate of that length; gusty air on a small box carries off up to twice as much, so the figure is on the safe side. Both kinds
 * are joined as the cube root of the sum of cubes.
 *
 * @returns coefficient, ±20 % in still air, ±40 % in wind
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source S. W. Churchill and H. H. S. Chu, Int. J. Heat Mass Transfer 18 (1975) 1323 (upright plate); Pohlhausen's laminar plate and the blend of F. P. Incropera and D. P. DeWitt,
 * Fundamentals of Heat and Mass Transfer, 5th edition, chapters 7 and 9 (from memory); Sutherland's law for the air
 * @example A wall of a box 20 K above still air
 * ```ts
 * import { surfaceConvectionWPerM2K } from '@finial/site';
 *
 * surfaceConvectionWPerM2K({ surfaceC: 50, airC: 30, heightM: 0.2 }); // ≈ 4.5
 * ```
 */
export function surfaceConvectionWPerM2K(plate: PlateInAir): number {
  const { surfaceC, airC, heightM, windMPerS = 0 } = checkObject(plate, 'plate');
  checkRange(surfaceC, 'plate.surfaceC', { min: -80, max: 400, unit: 'degrees Celsius' });
  checkRange(airC, 'plate.airC', { min: -80, max: 100, unit: 'degrees Celsius' });
  checkRange(heightM, 'plate.heightM', { min: 1e-3, max: 10, unit: 'metres' });
  checkRange(windMPerS, 'plate.windMPerS', { min: 0, max: 50, unit: 'metres per second' });
  return convection(surfaceC, airC, heightM, windMPerS);
}

/** The same without checks, for loops over a day. */
export function convection(surfaceC: number, airC: number, heightM: number, windMPerS: number): number {
  const film = celsiusToKelvin((surfaceC + airC) / 2);
  const viscosity = (1.458e-6 * film ** 1.5) / (film + 110.4);
  const kinematic = (viscosity * 287.05 * film) / 101325;
  const conductivity = (0.0026481 * film ** 1.5) / (film + 245.4 * 10 ** (-12 / film));
  const prandtl = (viscosity * 1007) / conductivity;
  const rayleigh = ((9.80665 * Math.abs(surfaceC - airC) * heightM ** 3) / (film * kinematic ** 2)) * prandtl;
  const spread = (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27);
  const still = (0.825 + (0.387 * rayleigh ** (1 / 6)) / spread) ** 2;
  const blown = 0.664 * Math.sqrt((windMPerS * heightM) / kinematic) * Math.cbrt(prandtl);
  return (Math.cbrt(still ** 3 + blown ** 3) * conductivity) / heightM;
}
