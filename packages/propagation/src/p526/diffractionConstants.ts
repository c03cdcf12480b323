import { speedOfLightMPerS } from '@finial/radio';

/**
 * Constants of the diffraction formulas for hertz and metres. Two editions of the same formulas differ in nothing but these: the
 * self-consistent form is exact, while Recommendations that print the formulas for gigahertz and kilometres round them.
 */
export interface DiffractionConstants {
  /** c, in wavelength = c/f. */
  readonly speedOfLightMPerS: number;
  /** In X = constant · β · (f/a²)^(1/3) · d. */
  readonly distanceFactor: number;
  /** In Y = constant · β · (f²/a)^(1/3) · h. */
  readonly heightFactor: number;
  /** In K = constant · (a f)^(-1/3) · (...). */
  readonly admittanceFactor: number;
  /** In the imaginary part of the ground's permittivity, constant · σ/f. */
  readonly conductivityFactor: number;
  /** In the clearance that spherical Earth needs for no loss, constant · sqrt(d1 d2 λ/d). */
  readonly clearanceFactor: number;
}

/**
 * Constants of P.526 in its self-consistent units, from memory: X = βd (π/λa²)^(1/3), Y = 2βh (π²/λ²a)^(1/3), K with (2πa/λ)^(-1/3)
 * and 60λσ.
 */
export function selfConsistentConstants(speedOfLight: number): DiffractionConstants {
  return {
    speedOfLightMPerS: speedOfLight,
    distanceFactor: Math.cbrt(Math.PI / speedOfLight),
    heightFactor: 2 * Math.cbrt((Math.PI / speedOfLight) ** 2),
    admittanceFactor: Math.cbrt(speedOfLight / (2 * Math.PI)),
    conductivityFactor: 60 * speedOfLight,
    // Printed as 0.552 in the one form and as 17.456 for kilometres in the other; both are the same rounded number.
    clearanceFactor: 0.552,
  };
}

/** With the exact speed of light: what every public function of P.526 uses. */
export const exactConstants: DiffractionConstants =
  /* @__PURE__ */ selfConsistentConstants(speedOfLightMPerS);

/** With c = 3e8 m/s, as the validation workbook of the delta-Bullington method has it. */
export const workbookConstants: DiffractionConstants = /* @__PURE__ */ selfConsistentConstants(3e8);
