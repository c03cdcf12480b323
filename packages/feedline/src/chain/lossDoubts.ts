/** One cause why a loss may be other than computed. */
export interface LossDoubt {
  /**
   * What the cause is tied to. Doubts of one cause err together: two lengths of one make of cable are both better or both worse, and
   * reflections at impedance steps can add up in phase.
   */
  readonly cause: string;
  readonly lossUncertaintyDb: number;
}

/** The cause that all steps of impedance share. */
export const impedanceSteps = 'impedance steps';

/** Uncertainty in dB of the sum: doubts of one cause add, independent causes add as the root of the sum of their squares. */
export function combinedUncertaintyDb(doubts: readonly LossDoubt[]): number {
  const byCause = new Map<string, number>();
  for (const { cause, lossUncertaintyDb } of doubts) {
    byCause.set(cause, (byCause.get(cause) ?? 0) + lossUncertaintyDb);
  }
  return Math.hypot(...byCause.values());
}
