import type { Position } from '../Observation.js';
import { type FieldRules, observationFields } from '../observationFields.js';

/** Where the walker was at one time. */
export interface TrackPoint extends Position {
  /** ISO 8601 in UTC. */
  readonly timeUtc: string;
  /** Elevation in metres as the receiver tells it, -12000 to 100000; which zero it counts from is the receiver's affair. */
  readonly elevationM?: number | undefined;
  /** Number of the segment, from 0; between two segments the receiver had lost its place or was switched off. */
  readonly segmentIndex?: number | undefined;
  /** Line of the source where the point begins, counted from 1. */
  readonly line?: number | undefined;
}

/** How the fields of a track point are read. */
export const trackFields: FieldRules = {
  timeUtc: observationFields.timeUtc,
  latitudeDeg: observationFields.latitudeDeg,
  longitudeDeg: observationFields.longitudeDeg,
  elevationM: { kind: 'number', min: -12_000, max: 100_000, unit: 'metres' },
  segmentIndex: { kind: 'number', min: 0, max: 1_000_000_000, unit: 'segments', whole: true },
};

/** A point without one of these is of no use. */
export const neededOfTrackPoint: readonly string[] = ['timeUtc', 'latitudeDeg', 'longitudeDeg'];
