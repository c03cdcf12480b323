import { type FskTimeOnAir, fskTimeOnAir } from './fskTimeOnAir.js';
import { loraFrame } from './loraFrame.js';
import { type LrFhssTimeOnAir, lrFhssTimeOnAir } from './lrFhssTimeOnAir.js';
import type { DataRate, Direction } from './Region.js';
import { type TimeOnAir, timeOnAir } from './timeOnAir.js';

/** Time on air of a LoRa frame, with its modulation. */
export interface LoRaFrameTime extends TimeOnAir {
  /** Tells the kinds of modulation apart. */
  readonly modulation: 'LoRa';
}

/** Time on air of a frame of frequency-shift keying, with its modulation. */
export interface FskFrameTime extends FskTimeOnAir {
  /** Tells the kinds of modulation apart. */
  readonly modulation: 'FSK';
}

/** Time on air of an LR-FHSS frame, with its modulation. */
export interface LrFhssFrameTime extends LrFhssTimeOnAir {
  /** Tells the kinds of modulation apart. */
  readonly modulation: 'LR-FHSS';
}

/** How long a frame lasts and what that is made of: `totalSeconds` always, the rest by `modulation`. */
export type FrameTime = LoRaFrameTime | FskFrameTime | LrFhssFrameTime;

/** Time on air of a LoRaWAN data frame of any modulation. */
export function frameTimeOnAir(row: DataRate, direction: Direction, payloadBytes: number): FrameTime {
  switch (row.modulation) {
    case 'LoRa':
      return { modulation: 'LoRa', ...timeOnAir(loraFrame(row, direction, payloadBytes)) };
    case 'FSK':
      return { modulation: 'FSK', ...fskTimeOnAir({ payloadBytes, bitRateBps: row.bitRateBps }) };
    case 'LR-FHSS':
      return { modulation: 'LR-FHSS', ...lrFhssTimeOnAir({ payloadBytes, codeRate: row.codeRate }) };
  }
}

/** Longest time of a frame on one frequency in seconds: all of it, unless it hops. */
export function longestHopSeconds(onAir: FrameTime): number {
  return onAir.modulation === 'LR-FHSS' ? onAir.longestHopSeconds : onAir.totalSeconds;
}
