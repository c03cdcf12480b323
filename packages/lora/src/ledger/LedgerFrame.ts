import { checkObject, checkOneOf, checkPositive, checkRange, InputError } from '@finial/units';
import { checkedDataRate, dataRateRow } from '../checkedRegion.js';
import { frameTimeOnAir, longestHopSeconds } from '../frameTimeOnAir.js';
import { nominalBandwidthHz } from '../nominalBandwidthHz.js';
import { phyPayloadBytes } from '../phyPayloadBytes.js';
import type { DataRate, Direction, Region } from '../Region.js';
import { frequencyBounds } from '../subBandAt.js';
import { instantBounds, instantUs, roundedUpUs } from './microseconds.js';

/** A frame for a ledger, apart from when it starts: either its application bytes or its time on air is given. */
export interface LedgerFrame {
  /** Centre frequency in hertz, 100 MHz to 3 GHz; 868.1 MHz is `868.1e6`. */
  readonly frequencyHz: number;
  /** Index of a data rate of the region, 0 to 14; its bandwidth decides which sub-band holds the frame. */
  readonly dataRate: number;
  /** Which way the frame goes; `uplink` unless given. Downlinks are a gateway's. */
  readonly direction?: Direction | undefined;
  /** Bytes of the application of a data frame, 0 to 242, less those of `fOptsBytes`; instead of `timeOnAirSeconds`. */
  readonly applicationBytes?: number | undefined;
  /** Bytes of MAC commands in the header of that data frame, 0 to 15; 0 unless given. */
  readonly fOptsBytes?: number | undefined;
  /** Time on air in seconds, above 0 to 3600, of any frame, such as a join request or a beacon; instead of `applicationBytes`. */
  readonly timeOnAirSeconds?: number | undefined;
}

/** A frame that starts at an instant. */
export interface LedgerTransmission extends LedgerFrame {
  /** Start of the frame in seconds of any epoch, -4e9 to 4e9, the same epoch always; rounded to the microsecond. */
  readonly startSeconds: number;
}

/** A frame that waits for its turn. */
export interface WaitingFrame extends LedgerFrame {
  /** Earliest start that is wanted, in seconds of the epoch of the ledger; the end of the last recorded frame unless given. */
  readonly startSeconds?: number | undefined;
}

/** A frame that was checked, with its duration in whole microseconds. */
export interface CheckedFrame {
  readonly frequencyHz: number;
  readonly dataRate: number;
  readonly direction: Direction;
  readonly bandwidthHz: number;
  readonly modulation: DataRate['modulation'];
  readonly durationUs: number;
  /** Longest time on one frequency: all of it, unless the frame hops. */
  readonly longestHopUs: number;
}

/** The frame if it is one of the region; `path` leads the names in refusals (`state.entries[3].`). */
export function checkedFrame(region: Region, frame: LedgerFrame, path: string): CheckedFrame {
  checkObject(frame, path === '' ? 'tx' : path.slice(0, -1));
  const { direction = 'uplink' } = frame;
  checkOneOf(direction, `${path}direction`, ['uplink', 'downlink']);
  const frequencyHz = checkRange(frame.frequencyHz, `${path}frequencyHz`, frequencyBounds);
  const row = checkedRow(region, frame.dataRate, `${path}dataRate`);
  return {
    frequencyHz,
    dataRate: row.dataRate,
    direction,
    bandwidthHz: nominalBandwidthHz(row),
    modulation: row.modulation,
    ...durations(row, direction, frame, path),
  };
}

/** An instant of the ledger's epoch in whole microseconds. */
export function checkedInstantUs(startSeconds: unknown, argument: string): number {
  return instantUs(checkRange(startSeconds, argument, instantBounds));
}

function checkedRow(region: Region, dataRate: unknown, argument: string): DataRate {
  const index = checkedDataRate(dataRate, argument);
  const row = dataRateRow(region, index);
  if (row !== undefined) return row;
  const known = region.dataRates.map((each) => each.dataRate).join(', ');
  const expected = `a data rate of ${region.name} (${known})`;
  throw new InputError({ code: 'out-of-range', argument, received: dataRate, expected });
}

/** Longer than any window of a law but the day. */
const longestFrame = { min: 0, max: 3600, unit: 'seconds' };

type Durations = Pick<CheckedFrame, 'durationUs' | 'longestHopUs'>;

function durations(row: DataRate, direction: Direction, frame: LedgerFrame, path: string): Durations {
  const { applicationBytes, fOptsBytes, timeOnAirSeconds } = frame;
  const argument = `${path}timeOnAirSeconds`;
  if (timeOnAirSeconds === undefined) {
    if (applicationBytes === undefined) throw missing(`${path}applicationBytes`);
    const onAir = frameTimeOnAir(row, direction, phyPayloadBytes({ applicationBytes, fOptsBytes }));
    return {
      durationUs: roundedUpUs(onAir.totalSeconds),
      longestHopUs: roundedUpUs(longestHopSeconds(onAir)),
    };
  }
  if (applicationBytes !== undefined || fOptsBytes !== undefined) {
    const expected = 'nothing beside applicationBytes and fOptsBytes, which give a duration themselves';
    throw new InputError({ code: 'unknown-option', argument, received: timeOnAirSeconds, expected });
  }
  checkRange(checkPositive(timeOnAirSeconds, argument, 'seconds'), argument, longestFrame);
  const durationUs = roundedUpUs(timeOnAirSeconds);
  // The longest hop of LR-FHSS is a header, however much the frame carries.
  const hopUs = roundedUpUs(longestHopSeconds(frameTimeOnAir(row, direction, 0)));
  return {
    durationUs,
    longestHopUs: row.modulation === 'LR-FHSS' ? Math.min(hopUs, durationUs) : durationUs,
  };
}

function missing(argument: string): InputError {
  return new InputError({
    code: 'missing',
    argument,
    received: undefined,
    expected: 'applicationBytes or timeOnAirSeconds',
  });
}
