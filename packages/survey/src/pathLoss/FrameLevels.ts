/** The frames of a walk as the likelihood needs them: one entry per frame in each series. */
export interface FrameLevels {
  /** 10 lg of the distance over 1 m. */
  readonly distanceDb: Float64Array;
  /** Level of a received frame in dBm; of a missed one, unused. */
  readonly levelDbm: Float64Array;
  /** Level below which the frame would have been missed, in dBm. */
  readonly thresholdDbm: Float64Array;
  /** 1 for a received frame, 0 for a missed one. */
  readonly received: Uint8Array;
}

/** Of a received frame its level, of a missed one its threshold, for fits of both. */
export function levelsOrThresholds({ levelDbm, thresholdDbm, received }: FrameLevels): Float64Array {
  return levelDbm.map((level, i) => (received[i] === 1 ? level : (thresholdDbm[i] as number)));
}
