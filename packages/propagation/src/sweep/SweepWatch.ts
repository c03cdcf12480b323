/** How the caller of a sweep follows it and stops it. */
export interface SweepWatch {
  readonly signal: AbortSignal | undefined;
  /** Told how much is done, 0 to 1, never less than before. */
  readonly onDoneRatio: (doneRatio: number) => void;
}
