import { serves } from './checkedRegion.js';
import { bytes } from './figures.js';
import type { ShorterFrames } from './law/Judgement.js';
import { maxPayload } from './maxPayload.js';
import type { Direction, LoRaDataRate, Region } from './Region.js';
import type { TransmissionChange } from './Transmission.js';
import { type Frame, timeOnAir } from './timeOnAir.js';

/** A LoRaWAN data frame within its region, as the search for shorter ones needs it. */
export interface PlannedFrame {
  readonly region: Region;
  readonly direction: Direction;
  readonly row: LoRaDataRate;
  readonly applicationBytes: number;
  readonly fOptsBytes: number;
  readonly phyPayloadBytes: number;
}

/** The LoRa settings of a LoRaWAN data frame: coding rate 4/5, eight preamble symbols, payload CRC on uplinks only. */
export function loraFrame(row: LoRaDataRate, direction: Direction, payloadBytes: number): Frame {
  return {
    spreadingFactor: row.spreadingFactor,
    bandwidthHz: row.bandwidthHz,
    codingRate: 5,
    payloadBytes,
    crc: direction === 'uplink',
  };
}

/** Frames that last no longer than a limit: the same data rate with fewer bytes, or the same bytes on the slowest fast data rate. */
export function shorterFrames(frame: PlannedFrame, limitSeconds: number): ShorterFrames {
  return inWords(largestFittingBytes(frame, limitSeconds), slowestFitting(frame, limitSeconds));
}

/** Frames that fit the payload table of the region: fewer bytes, or the slowest data rate that carries them. */
export function framesThatCarry(frame: PlannedFrame, applicationBytes: number): ShorterFrames {
  const fitting = applicationBytes < 0 ? undefined : applicationBytes;
  return inWords(fitting, slowestFitting(frame, Number.POSITIVE_INFINITY));
}

function secondsOf(row: LoRaDataRate, direction: Direction, payloadBytes: number): number {
  return timeOnAir(loraFrame(row, direction, payloadBytes)).totalSeconds;
}

function largestFittingBytes(frame: PlannedFrame, limitSeconds: number): number | undefined {
  const overheadBytes = frame.phyPayloadBytes - frame.applicationBytes;
  for (let count = frame.applicationBytes - 1; count >= 0; count--) {
    if (secondsOf(frame.row, frame.direction, overheadBytes + count) <= limitSeconds) return count;
  }
  return undefined;
}

/** Data rates of another bandwidth belong to other channels, so only those of the same bandwidth count. */
function slowestFitting(frame: PlannedFrame, limitSeconds: number): LoRaDataRate | undefined {
  const { region, direction, phyPayloadBytes } = frame;
  return region.dataRates
    .filter((row): row is LoRaDataRate => row.modulation === 'LoRa' && serves(row, direction))
    .filter((row) => row.dataRate !== frame.row.dataRate && row.bandwidthHz === frame.row.bandwidthHz)
    .filter((row) => carries(region, direction, row, frame.applicationBytes + frame.fOptsBytes))
    .filter((row) => secondsOf(row, direction, phyPayloadBytes) <= limitSeconds)
    .sort((a, b) => b.spreadingFactor - a.spreadingFactor)[0];
}

function carries(region: Region, direction: Direction, row: LoRaDataRate, neededBytes: number): boolean {
  const dwellLimited = region.dwell?.when === 'always';
  const largest = maxPayload({ region, direction, dataRate: row.dataRate, dwellLimited });
  return largest.available && largest.applicationBytes >= neededBytes;
}

function inWords(applicationBytes: number | undefined, row: LoRaDataRate | undefined): ShorterFrames {
  const advice: string[] = [];
  const remedies: TransmissionChange[] = [];
  if (applicationBytes !== undefined) {
    advice.push(`send ${bytes(applicationBytes)} or fewer`);
    remedies.push({ applicationBytes });
  }
  if (row !== undefined) {
    advice.push(`use SF${row.spreadingFactor} (DR${row.dataRate}) or faster`);
    remedies.push({ dataRate: row.dataRate });
  }
  return { advice: advice.join(', or '), remedies };
}
