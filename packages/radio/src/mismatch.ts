import { checkObject, checkRange, dbToAmplitudeRatio, InputError } from '@finial/units';

// VSWR, return loss and reflection coefficient say the same thing. A perfect match has an infinite return loss, a short an infinite
// VSWR: those ends are refused, since an Infinity would travel on unseen.

const greatestVswr = 1e6;
const returnLossBounds = {
  min: 1e-5,
  max: 300,
  unit: 'dB (a return loss is positive: S11 at -10 dB is a return loss of 10 dB)',
};

/**
 * Return loss in decibels of a voltage standing wave ratio. Positive; more is better.
 *
 * @param vswr - more than 1, up to 1e6; at 1 the return loss is infinite
 * @returns dB, relative error below 1e-14
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source IEC 60050-726 (from memory), return loss; |Γ| = (s − 1)/(s + 1), return loss −20 lg |Γ|
 * @example
 * ```ts
 * import { vswrToReturnLossDb } from '@finial/radio';
 *
 * vswrToReturnLossDb(1.5); // ≈ 13.98
 * ```
 */
export function vswrToReturnLossDb(vswr: number): number {
  if (checkVswr(vswr) === 1) {
    const expected = 'more than 1 (a perfect match has an infinite return loss)';
    throw new InputError({ code: 'out-of-range', argument: 'vswr', received: vswr, expected });
  }
  return (20 / Math.LN10) * Math.log1p(2 / (vswr - 1));
}

/**
 * Voltage standing wave ratio of a return loss.
 *
 * @param returnLossDb - 1e-5 to 300, positive
 * @returns VSWR, 1 or more, relative error below 1e-14
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source IEC 60050-726 (from memory), return loss; |Γ| = (s − 1)/(s + 1), return loss −20 lg |Γ|
 * @example
 * ```ts
 * import { returnLossToVswr } from '@finial/radio';
 *
 * returnLossToVswr(10); // ≈ 1.925
 * ```
 */
export function returnLossToVswr(returnLossDb: number): number {
  checkRange(returnLossDb, 'returnLossDb', returnLossBounds);
  // (1 + Γ)/(1 − Γ) with Γ = 10^(−a/20), written so that a small return loss keeps its digits.
  return 1 / Math.tanh((returnLossDb * Math.LN10) / 40);
}

/**
 * Magnitude of the reflection coefficient of a voltage standing wave ratio.
 *
 * @param vswr - 1 to 1e6
 * @returns magnitude, 0 to below 1, error below 1e-15
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source IEC 60050-726 (from memory), voltage standing wave ratio; |Γ| = (s − 1)/(s + 1)
 * @example
 * ```ts
 * import { vswrToReflectionCoefficient } from '@finial/radio';
 *
 * vswrToReflectionCoefficient(2); // ≈ 0.3333
 * ```
 */
export function vswrToReflectionCoefficient(vswr: number): number {
  return (checkVswr(vswr) - 1) / (vswr + 1);
}

/**
 * Voltage standing wave ratio of a reflection coefficient.
 *
 * A sweep that shows 1 or more was taken without calibration, or of a device that amplifies.
 *
 * @param reflectionCoefficient - magnitude, 0 to 0.999998
 * @returns VSWR, 1 to 1e6, relative error below 1e-9 near the upper end
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source IEC 60050-726 (from memory), voltage standing wave ratio; s = (1 + |Γ|)/(1 − |Γ|)
 * @example
 * ```ts
 * import { reflectionCoefficientToVswr } from '@finial/radio';
 *
 * reflectionCoefficientToVswr(0.2); // ≈ 1.5
 * ```
 */
export function reflectionCoefficientToVswr(reflectionCoefficient: number): number {
  const bounds = { min: 0, max: 0.999_998, unit: 'as the magnitude of a reflection coefficient' };
  checkRange(reflectionCoefficient, 'reflectionCoefficient', bounds);
  return (1 + reflectionCoefficient) / (1 - reflectionCoefficient);
}

/**
 * Loss in decibels because part of the power is reflected at a mismatched load. Positive means loss.
 *
 * True for a matched, lossless generator. A transmitter that is not matched itself may deliver more or less.
 *
 * @param vswr - 1 to 1e6
 * @returns dB, error below 1e-12 dB
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source IEC 60050-726 (from memory), mismatch loss; −10 lg(1 − |Γ|²)
 * @example
 * ```ts
 * import { vswrToMismatchLossDb } from '@finial/radio';
 *
 * vswrToMismatchLossDb(2); // ≈ 0.5115
 * ```
 */
export function vswrToMismatchLossDb(vswr: number): number {
  return mismatchLossDb(checkVswr(vswr));
}

/**
 * Loss in decibels because part of the power is reflected, of a return loss. Positive means loss.
 *
 * True for a matched, lossless generator.
 *
 * @param returnLossDb - 1e-5 to 300, positive
 * @returns dB, error below 1e-12 dB
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source IEC 60050-726 (from memory), mismatch loss; −10 lg(1 − |Γ|²)
 * @example
 * ```ts
 * import { returnLossToMismatchLossDb } from '@finial/radio';
 *
 * returnLossToMismatchLossDb(10); // ≈ 0.4576
 * ```
 */
export function returnLossToMismatchLossDb(returnLossDb: number): number {
  return mismatchLossDb(returnLossToVswr(returnLossDb));
}

/** A load seen through a feedline. */
export interface LossyFeedline {
  /** VSWR at the far end of the feedline (at the antenna), 1 to 1e6. */
  readonly vswr: number;
  /** Loss of the feedline one way in dB, 0 to 200. */
  readonly lossDb: number;
}

/**
 * Voltage standing wave ratio at the near end of a lossy feedline: what an analyser in the attic shows of the antenna on the roof.
 *
 * The reflected wave passes the loss twice, so a long cable makes a bad antenna look good. Measure at the antenna. True for a
 * feedline whose impedance is the reference impedance of the VSWR.
 *
 * @returns VSWR, 1 or more, error below 1e-9
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source IEC 60050-726 (from memory), reflection coefficient; |Γ| falls by 10^(−2a/20) along a line of loss a
 * @example VSWR 3 behind 3 dB of cable
 * ```ts
 * import { vswrThroughLoss } from '@finial/radio';
 *
 * vswrThroughLoss({ vswr: 3, lossDb: 3 }); // ≈ 1.669
 * ```
 */
export function vswrThroughLoss(feedline: LossyFeedline): number {
  checkObject(feedline, 'feedline');
  const far = vswrToReflectionCoefficient(feedline.vswr);
  const lossDb = checkRange(feedline.lossDb, 'lossDb', { min: 0, max: 200, unit: 'dB (a loss is positive)' });
  const near = far / dbToAmplitudeRatio(2 * lossDb);
  return (1 + near) / (1 - near);
}

function checkVswr(vswr: number): number {
  return checkRange(vswr, 'vswr', { min: 1, max: greatestVswr, unit: 'as a VSWR (1 is a perfect match)' });
}

/** −10 lg(1 − |Γ|²), written without the difference. */
function mismatchLossDb(vswr: number): number {
  return 10 * Math.log10((vswr + 1) ** 2 / (4 * vswr));
}
