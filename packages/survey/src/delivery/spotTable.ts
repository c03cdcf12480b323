import { requiredSnrDb } from '@finial/lora';
import { checkObject } from '@finial/units';
import { type DeliveryBySpotOptions, deliveryBySpot, type SpotDelivery } from '../deliveryBySpot.js';
import type { Observation } from '../Observation.js';
import { percent } from './percent.js';

/** How the table is made. */
export interface SpotTableOptions extends DeliveryBySpotOptions {
  /** Spreading factor of frames that do not say theirs, 5 to 12. @defaultValue none: such frames have no margin */
  readonly spreadingFactor?: number | undefined;
}

/** One spot of a walk with what its frames had to spare. */
export interface SpotRow extends SpotDelivery {
  /** Spreading factors of the frames sent there, the smallest first; empty where none is known. */
  readonly spreadingFactors: readonly number[];
  /** Mean over received frames of SNR less what the demodulator needs, in dB; absent where none has both. */
  readonly meanMarginDb?: number | undefined;
  /** Least of these margins in dB. */
  readonly leastMarginDb?: number | undefined;
  /** Frames that the margins are of. */
  readonly marginFrames: number;
  /** The spot for a person, in a sentence or two. */
  readonly sentence: string;
}

/**
 * The spots of a walk as a table for people: how many frames came through, how far away, and how much the signal had to spare.
 *
 * The margin is that of received frames: at a spot where frames were missed the usual margin is smaller, and the sentence says so. Receivers report
 * no more than 10 to 15 dB SNR, which bounds large margins.
 *
 * @param observations - at least one; each with a `spot` unless `by` is `'position'`
 * @returns one row per spot, in the order in which the spots first occur
 * @throws {@link InputError} `wrong-type`, `missing` (no observation, no spot), `not-a-finite-number`, `out-of-range` or
 * `unknown-option`
 * @source Counts and intervals as in `deliveryBySpot`; needed SNR as in `requiredSnrDb` of `@finial/lora`
 * @example
 * ```ts
 * import { spotTable } from '@finial/survey';
 *
 * const frame = { spot: 'bridge', latitudeDeg: 45.75, longitudeDeg: 4.9, spreadingFactor: 9, distanceM: 2300 };
 * const [bridge] = spotTable([
 *   { ...frame, received: true, rssiDbm: -110, snrDb: -6 },
 *   { ...frame, received: true, rssiDbm: -111, snrDb: -8.5 },
 *   { ...frame, received: false },
 * ]);
 * bridge?.meanMarginDb; // ≈ 5.25
 * bridge?.sentence;
 * // → 'bridge, 2.3 km: 2 of 3 frames came through at SF9 (67 %; 21 to 94 % at 95 % confidence). Those that did had 5.3 dB to spare on average, 4.0 dB at the least.'
 * ```
 */
export function spotTable(
  observations: readonly Observation[],
  options: SpotTableOptions = {},
): readonly SpotRow[] {
  const { spreadingFactor, by = 'spot' } = checkObject(options, 'options');
  if (spreadingFactor !== undefined) {
    requiredSnrDb(spreadingFactor);
  }
  const spots = deliveryBySpot(observations, options);
  const framesOf = new Map<string, Observation[]>(spots.map(({ spot }) => [spot, []]));
  for (const frame of observations) {
    const { spot, latitudeDeg, longitudeDeg } = frame;
    framesOf.get(by === 'position' ? `${latitudeDeg},${longitudeDeg}` : (spot ?? ''))?.push(frame);
  }
  return spots.map((spot) => rowOf(spot, framesOf.get(spot.spot) ?? [], spreadingFactor));
}

function rowOf(
  spot: SpotDelivery,
  frames: readonly Observation[],
  usualSpreadingFactor: number | undefined,
): SpotRow {
  const spreadingFactors = new Set<number>();
  const margins: number[] = [];
  for (const { received, snrDb, spreadingFactor = usualSpreadingFactor } of frames) {
    if (spreadingFactor === undefined) continue;
    spreadingFactors.add(spreadingFactor);
    if (received && snrDb !== undefined) margins.push(snrDb - requiredSnrDb(spreadingFactor));
  }
  const figures = {
    spreadingFactors: [...spreadingFactors].sort((one, other) => one - other),
    marginFrames: margins.length,
    ...(margins.length === 0
      ? {}
      : {
          meanMarginDb: margins.reduce((sum, margin) => sum + margin, 0) / margins.length,
          leastMarginDb: margins.reduce((least, margin) => Math.min(least, margin)),
        }),
  };
  return { ...spot, ...figures, sentence: sentenceOf(spot, figures) };
}

function sentenceOf(
  spot: SpotDelivery,
  { spreadingFactors, meanMarginDb, leastMarginDb }: Omit<SpotRow, keyof SpotDelivery | 'sentence'>,
): string {
  const { received, sent, missed, ratio, lowerRatio, upperRatio, confidence, distanceM } = spot;
  const place = distanceM === undefined ? spot.spot : `${spot.spot}, ${(distanceM / 1000).toFixed(1)} km`;
  const at =
    spreadingFactors.length === 0 ? '' : ` at ${spreadingFactors.map((factor) => `SF${factor}`).join(', ')}`;
  const sure = `${percent(ratio, 0)}; ${(100 * lowerRatio).toFixed(0)} to ${percent(upperRatio, 0)} at ${percent(confidence)} confidence`;
  const counted = `${place}: ${received} of ${sent} frames came through${at} (${sure}).`;
  if (meanMarginDb === undefined || leastMarginDb === undefined) return counted;
  const who = missed === 0 ? 'They' : 'Those that did';
  return `${counted} ${who} had ${meanMarginDb.toFixed(1)} dB to spare on average, ${leastMarginDb.toFixed(1)} dB at the least.`;
}
