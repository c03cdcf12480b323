import { serves } from './checkedRegion.js';
import { bytes } from './figures.js';
import { frameTimeOnAir, longestHopSeconds } from './frameTimeOnAir.js';
import type { ShorterFrames } from './law/Jurisdiction.js';
import { maxPayload } from './maxPayload.js';
import { nominalBandwidthHz } from './nominalBandwidthHz.js';
import type { DataRate, Direction, Region } from './Region.js';
import type { TransmissionChange } from './Transmission.js';

/** A LoRaWAN data frame within its region, as the search for shorter ones needs it. */
export interface PlannedFrame {
  readonly region: Region;
  readonly direction: Direction;
  readonly row: DataRate;
  readonly applicationBytes: number;
  readonly fOptsBytes: number;
  readonly phyPayloadBytes: number;
  readonly dwellLimited?: boolean | undefined;
  readonly repeater?: boolean | undefined;
}

/** What of a frame must be short: all of it, or its longest hop. */
type Part = 'frame' | 'hop';

/** Frames that last no longer than a limit: the same data rate with fewer bytes, or the same bytes on the slowest fast data rate. */
export function shorterFrames(frame: PlannedFrame, limitSeconds: number, part: Part): ShorterFrames {
  return inWords(largestFittingBytes(frame, limitSeconds, part), slowestFitting(frame, limitSeconds, part));
}

/** Frames that fit the payload table of the region: fewer bytes, or the slowest data rate that carries them. */
export function framesThatCarry(frame: PlannedFrame, applicationBytes: number): ShorterFrames {
  const fitting = applicationBytes < 0 ? undefined : applicationBytes;
  return inWords(fitting, slowestFitting(frame, Number.POSITIVE_INFINITY, 'frame'));
}

function secondsOf(row: DataRate, direction: Direction, payloadBytes: number, part: Part): number {
  const onAir = frameTimeOnAir(row, direction, payloadBytes);
  return part === 'hop' ? longestHopSeconds(onAir) : onAir.totalSeconds;
}

function largestFittingBytes(frame: PlannedFrame, limitSeconds: number, part: Part): number | undefined {
  const overheadBytes = frame.phyPayloadBytes - frame.applicationBytes;
  for (let count = frame.applicationBytes - 1; count >= 0; count--) {
    if (secondsOf(frame.row, frame.direction, overheadBytes + count, part) <= limitSeconds) return count;
  }
  return undefined;
}

/** Data rates of another modulation or bandwidth belong to other channels, so only those of the same count. */
function slowestFitting(frame: PlannedFrame, limitSeconds: number, part: Part): DataRate | undefined {
  const { region, direction, phyPayloadBytes, row: present } = frame;
  const duration = (row: DataRate) => secondsOf(row, direction, phyPayloadBytes, 'frame');
  return region.dataRates
    .filter((row) => row.dataRate !== present.dataRate && serves(row, direction))
    .filter((row) => row.modulation === present.modulation)
    .filter((row) => nominalBandwidthHz(row) === nominalBandwidthHz(present))
    .filter((row) => carries(frame, row))
    .filter((row) => secondsOf(row, direction, phyPayloadBytes, part) <= limitSeconds)
    .sort((a, b) => duration(b) - duration(a))[0];
}

function carries(frame: PlannedFrame, row: DataRate): boolean {
  const { region, direction, repeater = false } = frame;
  const knowsDwell = region.dwell !== undefined;
  const dwellLimited = knowsDwell && (frame.dwellLimited ?? region.dwell?.when === 'always');
  const largest = maxPayload({ region, direction, dataRate: row.dataRate, dwellLimited, repeater });
  return largest.available && largest.applicationBytes >= frame.applicationBytes + frame.fOptsBytes;
}

function inWords(applicationBytes: number | undefined, row: DataRate | undefined): ShorterFrames {
  const advice: string[] = [];
  const remedies: TransmissionChange[] = [];
  if (applicationBytes !== undefined) {
    advice.push(`send ${bytes(applicationBytes)} or fewer`);
    remedies.push({ applicationBytes });
  }
  if (row !== undefined) {
    const name =
      row.modulation === 'LoRa' ? `SF${row.spreadingFactor} (DR${row.dataRate})` : `DR${row.dataRate}`;
    advice.push(`use ${name} or faster`);
    remedies.push({ dataRate: row.dataRate });
  }
  return { advice: advice.join(', or '), remedies };
}
