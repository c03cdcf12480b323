import { vswrThroughLoss } from '@finial/radio';
import { checkObject, checkRange } from '@finial/units';

/** Loss of a line that ends in a load which does not match it. */
export interface MismatchedLineLoss {
  /** Heat in the line in dB: matched and added loss together. */
  readonly lossDb: number;
  /** What the standing wave adds to the matched loss in dB, 0 or more. */
  readonly addedLossDb: number;
  /** VSWR that a meter at the radio shows: less than at the antenna. */
  readonly vswrAtRadio: number;
}

/**
 * Loss of a line with a standing wave on it, which heats the line more than a travelling wave does.
 *
 * The ratio of the power that enters the line to the power that the load takes. What the radio itself loses into the VSWR it sees is not
 * in it. True for a line of many wavelengths or of even loss along it: on a piece much shorter than a quarter wave it depends on whether
 * current or voltage is greatest there.
 *
 * @param line - `matchedLossDb`: 0 to 200 dB; `loadVswr`: 1 to 1e6, at the antenna, against the impedance of the line
 * @returns dB, error below 1e-9 dB
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source power balance of two waves on a line of even loss: 10 lg((A² − ρ²)/(A(1 − ρ²))), A the matched loss as a ratio of powers, ρ the
 * reflection coefficient; textbook form, from memory
 * @example A bad antenna behind 3 dB of cable
 * ```ts
 * import { mismatchedLineLoss } from '@finial/feedline';
 *
 * const line = mismatchedLineLoss({ matchedLossDb: 3, loadVswr: 3 });
 * line.addedLossDb; // ≈ 0.968
 * line.vswrAtRadio; // ≈ 1.669
 * ```
 */
export function mismatchedLineLoss(line: {
  /** Loss of the line with a matched load in dB, 0 to 200. */
  readonly matchedLossDb: number;
  /** VSWR of the load against the impedance of the line, 1 to 1e6. */
  readonly loadVswr: number;
}): MismatchedLineLoss {
  checkObject(line, 'line');
  const matchedLossDb = checkRange(line.matchedLossDb, 'matchedLossDb', { min: 0, max: 200, unit: 'dB' });
  const loadVswr = checkRange(line.loadVswr, 'loadVswr', { min: 1, max: 1e6, unit: 'as a VSWR' });
  // ρ²/(1 − ρ²), and the share of the reflected wave that does not come back: written so that neither loses digits near a match.
  const reflectedOverDelivered = (loadVswr - 1) ** 2 / (4 * loadVswr);
  const lostOnTheWay = -Math.expm1((-2 * matchedLossDb * Math.LN10) / 10);
  const addedLossDb = (10 / Math.LN10) * Math.log1p(reflectedOverDelivered * lostOnTheWay);
  return {
    lossDb: matchedLossDb + addedLossDb,
    addedLossDb,
    vswrAtRadio: vswrThroughLoss({ vswr: loadVswr, lossDb: matchedLossDb }),
  };
}
