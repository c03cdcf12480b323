import { checkObject, checkRange, dbToRatio } from '@finial/units';

/**
 * When the stronger of two frames that meet survives, and how strong nodes come in.
 *
 * The nodes of one spreading factor lie evenly over a ring (or a disc) around the gateway, and their power falls with a power of the
 * distance. A frame survives if every single other that it meets is weaker by the threshold, whichever came first.
 */
export interface Capture {
  /** How much stronger a frame must be in dB, 0 to 60; 6 unless given (common practice, no source). */
  readonly thresholdDb?: number | undefined;
  /** Exponent with which power falls with distance, 1 to 10: 2 in free space, 3 to 4 in towns. */
  readonly pathLossExponent: number;
  /** Inner radius of the ring over its outer radius, 0 to 0.99; 0, a disc, unless given. */
  readonly innerRadiusRatio?: number | undefined;
}

/** Frames that are sent on one channel at one spreading factor whenever a node likes. */
export interface AlohaTraffic {
  /** Frames that are on the air at once on average, 0 to 1e6: frames a second times the time on air of one. */
  readonly offeredErlangs: number;
  /** Whether the stronger of two frames survives, and how strong they come in; without it both are lost. */
  readonly capture?: Capture | undefined;
}

/** What comes through. */
export interface AlohaDelivery {
  /** Share of the frames that meet no other, or are the stronger. */
  readonly deliveryRatio: number;
  /** Frames on the air at once on average that come through. */
  readonly throughputErlangs: number;
}

/**
 * Share of frames that survive where many nodes send at random on one channel and spreading factor (unslotted ALOHA).
 *
 * Frames of one length from very many nodes, starting at random. A frame is lost if another starts within one time on air before or
 * after its start: exp(-2 G). That counts the slightest touch as a loss, also one that a receiver would bear. With capture only those count that
 * are not weaker by the threshold; shadowing, which spreads levels further, is not in it.
 *
 * @returns share and throughput, exact to the model within 1e-12
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` or `wrong-type`
 * @source N. Abramson, The ALOHA System, AFIPS 1970 (from memory): throughput G exp(-2 G), at most 1/(2e); capture: derived here by thinning the
 * interferers to those within reach, compared with a simulation
 * @example The most that a channel can carry, at half an erlang
 * ```ts
 * import { alohaDelivery } from '@finial/lora';
 *
 * alohaDelivery({ offeredErlangs: 0.5 }).throughputErlangs; // ≈ 0.18394
 * alohaDelivery({ offeredErlangs: 0.5, capture: { pathLossExponent: 3.5 } }).throughputErlangs; // ≈ 0.24393
 * ```
 */
export function alohaDelivery(traffic: AlohaTraffic): AlohaDelivery {
  checkObject(traffic, 'traffic');
  const bounds = { min: 0, max: 1e6, unit: 'erlangs' };
  const offeredErlangs = checkRange(traffic.offeredErlangs, 'offeredErlangs', bounds);
  const deliveryRatio = survivingRatio(2 * offeredErlangs, captureReach(traffic.capture));
  return { deliveryRatio, throughputErlangs: offeredErlangs * deliveryRatio };
}

/**
 * Which part of the other nodes can spoil a frame, by the place v of its sender within the ring (0 innermost, 1 outermost, by area):
 * those up to slope v + offset, at most all.
 */
export interface CaptureReach {
  readonly slopeRatio: number;
  readonly offsetRatio: number;
}

/** The reach of a capture, checked; without capture every other node can spoil a frame. */
export function captureReach(capture: Capture | undefined): CaptureReach {
  if (capture === undefined) return { slopeRatio: 1, offsetRatio: 1 };
  checkObject(capture, 'capture');
  const { thresholdDb = 6, innerRadiusRatio = 0 } = capture;
  checkRange(thresholdDb, 'capture.thresholdDb', { min: 0, max: 60, unit: 'dB' });
  const exponent = checkRange(capture.pathLossExponent, 'capture.pathLossExponent', {
    min: 1,
    max: 10,
    unit: 'as an exponent',
  });
  checkRange(innerRadiusRatio, 'capture.innerRadiusRatio', { min: 0, max: 0.99, unit: 'as a ratio' });
  // A node is spoilt by those within its own distance times the threshold's share of it; areas go with the square.
  const slopeRatio = dbToRatio(thresholdDb) ** (2 / exponent);
  const innerArea = innerRadiusRatio ** 2;
  return { slopeRatio, offsetRatio: ((slopeRatio - 1) * innerArea) / (1 - innerArea) };
}

/** The mean of exp(-x min(1, slope v + offset)) over v from 0 to 1, x being the frames of all others that touch one on average. */
export function survivingRatio(touchingErlangs: number, { slopeRatio, offsetRatio }: CaptureReach): number {
  if (offsetRatio >= 1) return Math.exp(-touchingErlangs);
  const pastReach = 1 - (1 - offsetRatio) / slopeRatio;
  const within = touchingErlangs * (1 - offsetRatio);
  // Below this the exponential is linear to the last digit, and the quotient would be 0/0.
  const meanWithin = within < 1e-9 ? 1 - within / 2 : -Math.expm1(-within) / within;
  return (
    (1 - pastReach) * Math.exp(-touchingErlangs * offsetRatio) * meanWithin +
    pastReach * Math.exp(-touchingErlangs)
  );
}
