import { checkObject, checkPositive } from '@finial/units';
import { checkedDirection, checkedRegion, serves } from './checkedRegion.js';
import { loraFrame } from './loraFrame.js';
import { maxPayload } from './maxPayload.js';
import { phyPayloadBytes } from './phyPayloadBytes.js';
import type { Direction, LoRaDataRate, Region } from './Region.js';
import { type TimeOnAir, timeOnAir } from './timeOnAir.js';

/** A payload that should go out on the slowest data rate that may carry it. */
export interface DataRateQuestion {
  /** Regional parameters, such as `regions.EU868`. */
  readonly region: Region;
  /** Which way the frame goes. */
  readonly direction: Direction;
  /** Bytes of the application, 0 to 242, less those of `fOptsBytes`. */
  readonly applicationBytes: number;
  /** Bytes of MAC commands in the header, 0 to 15; 0 unless given. */
  readonly fOptsBytes?: number | undefined;
  /** Longest time on air in seconds, more than 0; no limit unless given. */
  readonly maxSeconds?: number | undefined;
  /** Whether the dwell time is limited, see `maxPayload`; false unless given. */
  readonly dwellLimited?: boolean | undefined;
}

/** The slowest data rate for a payload, or why there is none. */
export type SlowestDataRate =
  | {
      /** Whether there is such a data rate. */
      readonly found: true;
      /** Index of the data rate. */
      readonly dataRate: number;
      /** Its spreading factor. */
      readonly spreadingFactor: number;
      /** Its bandwidth in hertz. */
      readonly bandwidthHz: number;
      /** Bytes of the whole frame. */
      readonly phyPayloadBytes: number;
      /** How long the frame takes on it. */
      readonly timeOnAir: TimeOnAir;
    }
  | {
      /** Whether there is such a data rate. */
      readonly found: false;
      /** What comes closest to carrying the payload, and by how much it fails, in words. */
      readonly reason: string;
    };

/** Decimal limits are not exact in binary; see `longestPayloadBytes`. */
const roundingRatio = 1e-12;

/**
 * Slowest data rate of LoRa modulation that carries a payload within the payload table of the region and, where one is given, within a
 * time. The slowest one reaches farthest, at the price of the most airtime.
 *
 * Slowest means the longest time on air for this frame, over all bandwidths of the plan: which channels are open at the moment is not
 * known here. FSK and LR-FHSS rows are left out, because they need another receiver. A duty cycle limits how often the frame may be
 * sent, not which data rate it takes.
 *
 * @returns the data rate with its time on air, or the reason why there is none
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range`, `unknown-option` or `wrong-type`: a field is not what
 * {@link DataRateQuestion} says
 * @source `maxPayload` and {@link timeOnAir} with their sources
 * @example Eleven and twelve bytes in the United States, and twelve where time is limited
 * ```ts
 * import { regions, slowestDataRate } from '@finial/lora';
 *
 * const uplink = { region: regions.US915, direction: 'uplink' } as const;
 * const short = slowestDataRate({ ...uplink, applicationBytes: 11 });
 * short.found && short.dataRate; // → 0
 * const longer = slowestDataRate({ ...uplink, applicationBytes: 12 });
 * longer.found && longer.dataRate; // → 1
 * const quick = slowestDataRate({ ...uplink, applicationBytes: 12, maxSeconds: 0.1 });
 * quick.found && quick.dataRate; // → 3
 * ```
 */
export function slowestDataRate(question: DataRateQuestion): SlowestDataRate {
  checkObject(question, 'question');
  const { applicationBytes, fOptsBytes = 0, maxSeconds, dwellLimited } = question;
  const region = checkedRegion(question.region);
  const direction = checkedDirection(question.direction);
  const frameBytes = phyPayloadBytes({ applicationBytes, fOptsBytes });
  const limitSeconds =
    maxSeconds === undefined ? Number.POSITIVE_INFINITY : checkPositive(maxSeconds, 'maxSeconds', 'seconds');

  const roomBytes = (row: LoRaDataRate): number => {
    const largest = maxPayload({ region, direction, dataRate: row.dataRate, dwellLimited });
    return largest.available ? largest.applicationBytes - fOptsBytes : -1;
  };
  const carrying = region.dataRates
    .filter((row): row is LoRaDataRate => row.modulation === 'LoRa' && serves(row, direction))
    .map((row) => ({ row, roomBytes: roomBytes(row) }));
  const timed = carrying
    .filter((each) => each.roomBytes >= applicationBytes)
    .map(({ row }) => ({ row, onAir: timeOnAir(loraFrame(row, direction, frameBytes)) }))
    .sort((a, b) => b.onAir.totalSeconds - a.onAir.totalSeconds);
  const slowest = timed.find(({ onAir }) => onAir.totalSeconds <= limitSeconds * (1 + roundingRatio));
  if (slowest !== undefined) {
    const { dataRate, spreadingFactor, bandwidthHz } = slowest.row;
    return {
      found: true,
      dataRate,
      spreadingFactor,
      bandwidthHz,
      phyPayloadBytes: frameBytes,
      timeOnAir: slowest.onAir,
    };
  }
  const fastest = timed.at(-1);
  if (fastest === undefined) return { found: false, reason: noRoom(region, carrying) };
  const least = Number(fastest.onAir.totalSeconds.toPrecision(4));
  return {
    found: false,
    reason: `The fastest, DR${fastest.row.dataRate} of ${region.name}, takes ${least} s for this frame.`,
  };
}

function noRoom(
  region: Region,
  rows: readonly { readonly row: LoRaDataRate; readonly roomBytes: number }[],
): string {
  const widest = rows.reduce((most, each) => Math.max(most, each.roomBytes), -1);
  if (widest < 0) return `No LoRa data rate of ${region.name} can be used for this.`;
  const dataRates = rows.filter((each) => each.roomBytes === widest).map((each) => `DR${each.row.dataRate}`);
  return `At most ${widest} bytes fit, on ${dataRates.join(', ')} of ${region.name}.`;
}
