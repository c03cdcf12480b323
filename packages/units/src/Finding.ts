/**
 * How much a finding weighs.
 *
 * - `stop`: do not operate until it is mended (law, danger, no link at all)
 * - `fix`: works, but should be mended
 * - `note`: good to know; also everything that rests on an unverified fact
 */
export type Severity = 'stop' | 'fix' | 'note';

/**
 * What a check says to a person. Law, safety and engineering checks all speak this one shape, so that a dossier or another
 * tool can list them together.
 */
export interface Finding {
  /** Stable name of the rule, such as `eirp-limit`. */
  readonly rule: string;
  /** How much it weighs. */
  readonly severity: Severity;
  /** One sentence for a person: what is wrong, by how much, and what to change. */
  readonly message: string;
  /** What was measured or computed, with its unit, where the rule compares numbers: `17.3 dBm`. */
  readonly measured?: string | undefined;
  /** The limit it was compared with, with its unit. */
  readonly limit?: string | undefined;
  /** Document, edition and clause that the rule comes from, or `common practice, no source`. */
  readonly source: string;
}
