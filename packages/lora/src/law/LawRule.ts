import type { Citation } from '../Citation.js';
import type { JurisdictionName } from '../Transmission.js';

/** One rule of a law in the table {@link lawRules}. */
export interface LawRule {
  /** Stable name: jurisdiction, place and subject, such as `EU 868 to 868.6 MHz duty cycle`. */
  readonly id: string;
  /** Whose law it is. */
  readonly jurisdiction: JurisdictionName;
  /** What the rule limits or asks for, in words. */
  readonly limits: string;
  /** The limit, in `unit`; left out where the rule is no number. */
  readonly figure?: number | undefined;
  /** Unit of `figure`, with what it counts; empty without a figure. */
  readonly unit: string;
  /** Where the rule comes from, with how far that was confirmed. */
  readonly citation: Citation;
  /**
   * - `checked`: breaking it stops a transmission
   * - `noted`: it makes notes only: it is known from memory, is custom, or what the station does by itself
   * - `not covered`: the law has it, and nothing here looks at it
   */
  readonly use: 'checked' | 'noted' | 'not covered';
}
