import { fitPolynomial, slopeAt } from './fitPolynomial.js';
import type { OnePortSweep } from './OnePortSweep.js';
import type { ReactanceZero } from './reactanceZeros.js';
import { impedanceOf } from './SweepPoint.js';

/** How sharply an antenna is tuned. */
export interface QualityFactor {
  /** Q at the resonance, a plain ratio: at 10, the half-power band of the antenna by itself is a tenth of its frequency. */
  readonly qualityRatio: number;
  /** Frequency in hertz at which it was taken. */
  readonly frequencyHz: number;
  /** How it was found. */
  readonly method: string;
  /** Where the method comes from. */
  readonly source: string;
}

const nearPart = 0.02;
const fewestPoints = 5;

/** Q from the slope of the impedance at a zero of the reactance; nothing without a resistance there, or with too few points. */
export function qualityFactorAt(sweep: OnePortSweep, zero: ReactanceZero): QualityFactor | undefined {
  const { frequencyHz, reflectionReal, reflectionImaginary, referenceOhm } = sweep;
  const { resistanceOhm } = zero;
  if (resistanceOhm === undefined || resistanceOhm <= 0 || frequencyHz.length < fewestPoints)
    return undefined;
  const byNearness = [...frequencyHz.keys()].sort((a, b) => distance(a) - distance(b));
  const near = byNearness.filter(
    (index, place) => place < fewestPoints || distance(index) <= nearPart * zero.frequencyHz,
  );
  const points = near
    .sort((a, b) => a - b)
    .flatMap((index) => {
      const reflection = {
        real: reflectionReal[index] as number,
        imaginary: reflectionImaginary[index] as number,
      };
      const impedance = impedanceOf(reflection, referenceOhm);
      return impedance === undefined ? [] : [{ hertz: frequencyHz[index] as number, ...impedance }];
    });
  if (points.length < fewestPoints) return undefined;
  const hertz = points.map((point) => point.hertz);
  const slope = (values: readonly number[]) => slopeAt(fitPolynomial(hertz, values, 2), zero.frequencyHz);
  const slopeOhmPerHz = Math.hypot(
    slope(points.map(({ real }) => real)),
    slope(points.map(({ imaginary }) => imaginary)),
  );
  return {
    qualityRatio: (zero.frequencyHz * slopeOhmPerHz) / (2 * resistanceOhm),
    frequencyHz: zero.frequencyHz,
    method: 'frequency times slope of the impedance over twice the resistance, where the reactance is zero',
    source:
      'Yaghjian and Best, IEEE Transactions on Antennas and Propagation 53(4), 2005, p. 1298 (from memory)',
  };

  function distance(index: number): number {
    return Math.abs((frequencyHz[index] as number) - zero.frequencyHz);
  }
}
