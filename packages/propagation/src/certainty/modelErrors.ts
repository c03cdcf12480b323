/** How far predictions were from measurements in one published comparison. */
export interface ModelError {
  /** What was compared. */
  readonly prediction: string;
  /** Least root mean square error in dB that the source names. */
  readonly leastErrorDb: number;
  /** Greatest in dB of those that it calls typical. */
  readonly greatestErrorDb: number;
  /** Whether the source was read, or the figures are from memory and need a look before they are quoted. */
  readonly standing: 'read' | 'memory';
  /** Where the figures are from. */
  readonly source: string;
}

/**
 * Errors of path-loss models against measurements, as published: what to take as `modelErrorDb` of `marginProbability`.
 *
 * No figure here is of this package's own making, and none knows your hills: a walk that measures is worth more than the table.
 */
export const modelErrors: readonly ModelError[] = [
  {
    prediction:
      'a model chosen beforehand, without measurements (30 models, 900 MHz to 5.8 GHz, towns and country)',
    leastErrorDb: 12,
    greatestErrorDb: 15,
    standing: 'read',
    source:
      'C. Phillips, D. Sicker, D. Grunwald, Bounding the practical error of path loss models, International Journal of Antennas and Propagation 2012, article 754158, abstract',
  },
  {
    prediction: 'a model fitted to measurements on the spot (same comparison)',
    leastErrorDb: 8,
    greatestErrorDb: 9,
    standing: 'read',
    source:
      'C. Phillips, D. Sicker, D. Grunwald, Bounding the practical error of path loss models, International Journal of Antennas and Propagation 2012, article 754158, abstract',
  },
  {
    prediction: 'Okumura-Hata in its own range, in towns like those that it was measured in',
    leastErrorDb: 6,
    greatestErrorDb: 10,
    standing: 'memory',
    source: 'from memory of textbooks; not confirmed',
  },
  {
    prediction:
      'terrain models with profile and clutter (P.1812, irregular terrain) on paths of some kilometres',
    leastErrorDb: 8,
    greatestErrorDb: 12,
    standing: 'memory',
    source: 'from memory of comparisons with broadcast measurements; not confirmed',
  },
];
