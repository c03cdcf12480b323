import { checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import type { Cable } from '../catalogue/parts.js';
import { type AttenuationFit, attenuationFit } from './attenuationFit.js';
import { checkedCable, frequencyBounds, lengthBounds, temperatureBounds } from './checkedCable.js';

/** A length of cable at a frequency. */
export interface CableLength {
  /** A cable row (attenuation points 1 Hz to 100 GHz), or a designation of the built-in catalogue: `RG-213/U`. */
  readonly cable: Cable | string;
  /** Length in metres, 0 to 10000. */
  readonly lengthM: number;
  /** Frequency in hertz, 1e6 to 100e9; 868.1 MHz is `868.1e6`. */
  readonly frequencyHz: number;
  /**
   * Temperature of the conductors in degrees C, -60 to 200. A black jacket in the sun lies some 30 degrees above the air.
   *
   * @defaultValue 20
   */
  readonly temperatureC?: number | undefined;
  /**
   * What to do at a frequency far from the cable's published points (below half the lowest, above one and a half times the highest).
   *
   * @defaultValue `refuse`
   */
  readonly outsideValidity?: 'refuse' | 'allow' | undefined;
}

/** What a length of cable loses, and how sure that is. */
export interface CableLoss {
  /** Loss one way in dB: the two parts together. */
  readonly lossDb: number;
  /** Part lost in the conductors in dB: grows with temperature. */
  readonly conductorLossDb: number;
  /** Part lost in the insulation in dB. */
  readonly dielectricLossDb: number;
  /**
   * Uncertainty of the loss in dB: spread between makes and the residual of the fit, squared and added; twice that beyond the points. The
   * same make is wrong by the same share over its whole length.
   */
  readonly lossUncertaintyDb: number;
  /** Greatest residual of the fit on the cable's points, as a ratio. */
  readonly fitResidualRatio: number;
  /** What a reader must know: a frequency beyond the points, a fit with one part only, a cable too hot. */
  readonly warnings: readonly string[];
}

/**
 * Loss of a length of cable at any frequency and temperature, in its two parts, with its uncertainty.
 *
 * Only the conductor part follows temperature, by the square root of copper's resistance: some 0.2 % per degree, half of what the
 * resistance itself does. True for a matched line of dry, sound cable. A wet braid loses more and does not recover. A frequency beyond the
 * points is refused, since a table often ends where the make gets worse; with `outsideValidity: 'allow'` the law goes on, and the
 * uncertainty is doubled because no point there can show how far the law bends.
 *
 * @returns dB, as good as `lossUncertaintyDb` says; the law itself evaluated to 1e-9 of the loss
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number`, `out-of-range`, `unknown-option`, or `outside-validity`
 * when the frequency lies beyond the cable's points
 * @source law: public how-to page that quotes MIL-C-17 attenuation tables; temperature: 0.00393 per degree C at 20 degrees C, annealed
 * copper of IEC 60028, under the root of the skin effect; points: `source` of the cable
 * @example Ten metres on a hot roof
 * ```ts
 * import { cableLoss } from '@finial/feedline';
 *
 * const cable = 'low-loss 10 mm class';
 * const loss = cableLoss({ cable, lengthM: 10, frequencyHz: 868.1e6, temperatureC: 60 });
 * loss.lossDb; // ≈ 1.346
 * loss.conductorLossDb; // ≈ 1.272
 * loss.lossUncertaintyDb; // ≈ 0.07
 * ```
 */
export function cableLoss(length: CableLength): CableLoss {
  checkObject(length, 'length');
  const { lengthM, frequencyHz, temperatureC = 20, outsideValidity = 'refuse' } = length;
  const cable = checkedCable(length.cable);
  checkRange(lengthM, 'lengthM', lengthBounds);
  checkRange(frequencyHz, 'frequencyHz', frequencyBounds);
  checkRange(temperatureC, 'temperatureC', temperatureBounds);
  checkOneOf(outsideValidity, 'outsideValidity', ['refuse', 'allow']);
  const fit = attenuationFit(cable);
  const isBeyond = frequencyHz < fit.lowestFrequencyHz || frequencyHz > fit.highestFrequencyHz;
  if (isBeyond && outsideValidity === 'refuse') throw beyondPoints(cable, fit, frequencyHz);
  const gigahertz = frequencyHz / 1e9;
  const warmth = Math.sqrt(1 + copperPerDegree * (temperatureC - 20));
  const conductorLossDb = fit.conductorAtOneGigahertzDbPerM * Math.sqrt(gigahertz) * warmth * lengthM;
  const dielectricLossDb = fit.dielectricAtOneGigahertzDbPerM * gigahertz * lengthM;
  const lossDb = conductorLossDb + dielectricLossDb;
  const uncertaintyRatio = Math.hypot(cable.attenuationUncertaintyRatio, fit.greatestResidualRatio);
  return {
    lossDb,
    conductorLossDb,
    dielectricLossDb,
    lossUncertaintyDb: lossDb * uncertaintyRatio * (isBeyond ? 2 : 1),
    fitResidualRatio: fit.greatestResidualRatio,
    warnings: [
      ...(isBeyond ? [`${cable.designation}: ${pointRange(fit)}; the loss is an extrapolation`] : []),
      ...fitWarnings(cable, fit),
      ...heatWarnings(cable, temperatureC),
    ],
  };
}

/** Resistance of copper per degree C, over that at 20 degrees C. */
const copperPerDegree = 0.003_93;

function pointRange({ points }: AttenuationFit): string {
  const megahertz = points.map(({ frequencyHz }) => frequencyHz / 1e6);
  return `published points from ${Math.min(...megahertz)} to ${Math.max(...megahertz)} MHz`;
}

function beyondPoints({ designation }: Cable, fit: AttenuationFit, frequencyHz: number): InputError {
  const { lowestFrequencyHz, highestFrequencyHz } = fit;
  const range = `${lowestFrequencyHz} to ${highestFrequencyHz} hertz for ${designation} (${pointRange(fit)})`;
  const expected = `${range}, or outsideValidity: 'allow'`;
  return new InputError({
    code: 'outside-validity',
    argument: 'frequencyHz',
    received: frequencyHz,
    expected,
  });
}

function fitWarnings({ designation }: Cable, { points, terms }: AttenuationFit): string[] {
  if (points.length > 1) return [];
  return [`${designation}: one published point, so all loss is taken as that of the ${terms}`];
}

function heatWarnings({ designation, maxTemperatureC }: Cable, temperatureC: number): string[] {
  if (maxTemperatureC === undefined || temperatureC <= maxTemperatureC) return [];
  return [`${designation}: its insulation is meant for ${maxTemperatureC} degrees C at most`];
}
