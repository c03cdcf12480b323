import { checkInteger, checkObject, checkOneOf, checkRange } from '@finial/units';
import { binomialInterval, type IntervalMethod, intervalMethods } from './binomialInterval.js';
import { checkObservations } from './checkObservations.js';
import type { Observation } from './Observation.js';

/** Frames counted by someone else. */
export interface FrameCount {
  /** Frames that the gateway received, a whole number from 0 to `sent`. */
  readonly received: number;
  /** Frames that the node sent, a whole number from 1 to 1e9. */
  readonly sent: number;
}

/** How sure the interval of a delivery ratio shall be. */
export interface DeliveryOptions {
  /** How the interval is made. @defaultValue `'wilson'` */
  readonly interval?: IntervalMethod | undefined;
  /** Confidence of the two-sided interval as a ratio, 0.01 to 0.999999. @defaultValue `0.95` */
  readonly confidence?: number | undefined;
}

/** A delivery ratio with the interval that the number of frames allows. */
export interface DeliveryRatio {
  /** Frames received. */
  readonly received: number;
  /** Frames sent. */
  readonly sent: number;
  /** Frames missed. */
  readonly missed: number;
  /** Received over sent. */
  readonly ratio: number;
  /** Lower end of the interval. */
  readonly lowerRatio: number;
  /** Upper end of the interval. */
  readonly upperRatio: number;
  /** How the interval was made. */
  readonly interval: IntervalMethod;
  /** Confidence of the two-sided interval as a ratio. */
  readonly confidence: number;
  /** What the interval does not cover, in sentences for a person. */
  readonly warnings: readonly string[];
}

/**
 * Delivery ratio: what share of the frames sent came through, with a confidence interval.
 *
 * The interval takes frames as independent throws of one coin. Frames of one spot share its shadowing, so frames pooled over
 * several spots know far less than their number says; the result warns of that, and `deliveryBySpot` keeps the spots
 * apart. A log that lists received frames only has ratio 1 by construction. For a claim of 'at least' with 95 % confidence
 * take `lowerRatio` at `confidence: 0.9`, which leaves 5 % below.
 *
 * @param frames - observations (at least one), or two counts
 * @returns ratio and interval; ends within 1e-10 up to a million frames
 * @throws {@link InputError} `wrong-type`, `missing` (no observation), `not-a-finite-number`, `out-of-range` or `unknown-option`
 * @source E. B. Wilson, Journal of the American Statistical Association 22 (1927) 209 and NIST/SEMATECH e-Handbook 7.2.4.1;
 * C. J. Clopper and E. S. Pearson, Biometrika 26 (1934) 404 and e-Handbook 7.2.4.2; L. D. Brown, T. T. Cai, A. DasGupta,
 * Statistical Science 16 (2001) 101 (from memory) for Jeffreys
 * @example Twenty of twenty frames prove less than they seem to
 * ```ts
 * import { deliveryRatio } from '@finial/survey';
 *
 * const all = deliveryRatio({ received: 20, sent: 20 }, { interval: 'clopper-pearson', confidence: 0.9 });
 * all.lowerRatio; // ≈ 0.861
 * ```
 */
export function deliveryRatio(
  frames: readonly Observation[] | FrameCount,
  options: DeliveryOptions = {},
): DeliveryRatio {
  const { interval, confidence } = checkDeliveryOptions(options);
  if (!Array.isArray(frames)) {
    return ratioOfCount(checkCount(frames as FrameCount), interval, confidence, []);
  }
  const observations: readonly Observation[] = checkObservations(frames);
  const received = observations.filter((observation) => observation.received).length;
  const count = { received, sent: observations.length };
  return ratioOfCount(count, interval, confidence, poolingWarnings(observations));
}

/** The options with their defaults, checked. */
export function checkDeliveryOptions(options: DeliveryOptions): {
  readonly interval: IntervalMethod;
  readonly confidence: number;
} {
  const { interval = 'wilson', confidence = 0.95 } = checkObject(options, 'options');
  return {
    interval: checkOneOf(interval, 'interval', intervalMethods),
    confidence: checkRange(confidence, 'confidence', { min: 0.01, max: 0.999999, unit: 'as a ratio' }),
  };
}

/** Ratio and interval of checked counts. */
export function ratioOfCount(
  { received, sent }: FrameCount,
  interval: IntervalMethod,
  confidence: number,
  warnings: readonly string[],
): DeliveryRatio {
  const [lowerRatio, upperRatio] = binomialInterval(interval, received, sent, confidence);
  return {
    received,
    sent,
    missed: sent - received,
    ratio: received / sent,
    lowerRatio,
    upperRatio,
    interval,
    confidence,
    warnings,
  };
}

function checkCount(count: FrameCount): FrameCount {
  checkObject(count, 'frames');
  const sent = checkInteger(count.sent, 'sent', { min: 1, max: 1e9, unit: 'frames' });
  const received = checkInteger(count.received, 'received', { min: 0, max: sent, unit: 'frames' });
  return { received, sent };
}

function poolingWarnings(observations: readonly Observation[]): string[] {
  const places = new Set(
    observations.map(({ spot, latitudeDeg, longitudeDeg }) => spot ?? `${latitudeDeg} ${longitudeDeg}`),
  ).size;
  if (places === 1) return [];
  return [
    `${observations.length} frames of ${places} places are pooled: frames of one place share its shadowing, so the interval is narrower than the frames allow.`,
  ];
}
