import { checkObject, checkRange } from '@finial/units';

/** A load, and the impedance it is compared with. */
export interface LoadImpedance {
  /** Resistance of the load in ohms, 1e-6 to 1e9. */
  readonly resistanceOhm: number;
  /** Reactance of the load in ohms, -1e9 to 1e9: positive is inductive (an antenna that is too long), negative capacitive. */
  readonly reactanceOhm: number;
  /**
   * Reference impedance in ohms, 1e-3 to 1e6.
   *
   * @defaultValue 50
   */
  readonly referenceOhm?: number | undefined;
}

/** How a load reflects. */
export interface Reflection {
  /** Real part of the reflection coefficient, a plain ratio. */
  readonly reflectionReal: number;
  /** Imaginary part of the reflection coefficient, a plain ratio. */
  readonly reflectionImaginary: number;
  /** Magnitude of the reflection coefficient, 0 to 1. */
  readonly reflectionCoefficient: number;
  /** Angle of the reflection coefficient in degrees, -180 to 180; 0 for a perfect match. */
  readonly reflectionAngleDeg: number;
  /** Part of the power that is reflected, as a ratio. */
  readonly reflectedPowerRatio: number;
  /** Voltage standing wave ratio, 1 or more. */
  readonly vswr: number;
  /** Return loss in dB, positive. Left out for a perfect match, whose return loss is infinite. */
  readonly returnLossDb?: number | undefined;
  /** Loss by reflection in dB, for a matched generator. */
  readonly mismatchLossDb: number;
}

/**
 * Reflection of a load, from its impedance: reflection coefficient, VSWR, return loss and mismatch loss.
 *
 * @returns all forms of the same fact, each with a relative error below 1e-12
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source IEC 60050-726 (from memory), reflection coefficient; Γ = (Z − Z0)/(Z + Z0)
 * @example A thin half-wave dipole on a 50 Ω cable
 * ```ts
 * import { impedanceToReflection } from '@finial/radio';
 *
 * const dipole = impedanceToReflection({ resistanceOhm: 73.13, reactanceOhm: 42.54 });
 * dipole.vswr; // ≈ 2.183
 * dipole.returnLossDb; // ≈ 8.60
 * ```
 */
export function impedanceToReflection(load: LoadImpedance): Reflection {
  checkObject(load, 'load');
  const { referenceOhm = 50 } = load;
  const r = checkRange(load.resistanceOhm, 'resistanceOhm', { min: 1e-6, max: 1e9, unit: 'ohms' });
  const x = checkRange(load.reactanceOhm, 'reactanceOhm', { min: -1e9, max: 1e9, unit: 'ohms' });
  const r0 = checkRange(referenceOhm, 'referenceOhm', { min: 1e-3, max: 1e6, unit: 'ohms' });

  const denominator = (r + r0) ** 2 + x * x;
  const reflectionReal = ((r - r0) * (r + r0) + x * x) / denominator;
  const reflectionImaginary = (2 * x * r0) / denominator;
  const reflectedPowerRatio = ((r - r0) ** 2 + x * x) / denominator;
  // What is not reflected, as its own expression: near total reflection the difference 1 − |Γ|² would have no digits left.
  const acceptedRatio = (4 * r * r0) / denominator;
  const magnitude = Math.sqrt(reflectedPowerRatio);
  return {
    reflectionReal,
    reflectionImaginary,
    reflectionCoefficient: magnitude,
    reflectionAngleDeg: (Math.atan2(reflectionImaginary, reflectionReal) * 180) / Math.PI,
    reflectedPowerRatio,
    // (1 + Γ)/(1 − Γ), likewise without the difference, and never a rounding below 1.
    vswr: 1 + (2 * magnitude * (1 + magnitude)) / acceptedRatio,
    returnLossDb: returnLossDb(reflectedPowerRatio, acceptedRatio),
    mismatchLossDb: (10 * Math.log1p(reflectedPowerRatio / acceptedRatio)) / Math.LN10,
  };
}

function returnLossDb(reflectedRatio: number, acceptedRatio: number): number | undefined {
  if (reflectedRatio === 0) return undefined;
  if (reflectedRatio < 0.5) return 10 * Math.log10(1 / reflectedRatio);
  return (-10 * Math.log1p(-acceptedRatio)) / Math.LN10;
}
