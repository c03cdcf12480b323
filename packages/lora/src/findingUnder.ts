import type { Severity } from '@finial/units';
import { type Citation, citationText } from './Citation.js';
import type { TransmissionChange, TransmissionFinding } from './Transmission.js';

/** What a rule has to say about a transmission. */
export interface RuleOutcome {
  readonly rule: string;
  readonly severity: Severity;
  /** Words of a sentence, without its capital and full stop. */
  readonly message: string;
  readonly measured?: string | undefined;
  readonly limit?: string | undefined;
  readonly remedies?: readonly TransmissionChange[] | undefined;
}

/**
 * The finding of a rule under its citation. A rule known from memory only is never more than a note, and says so: every finding of
 * this package is made here.
 */
export function findingUnder(citation: Citation, outcome: RuleOutcome): TransmissionFinding {
  const unverified = citation.status === 'memory';
  return {
    rule: outcome.rule,
    severity: unverified ? 'note' : outcome.severity,
    message: sentence(unverified ? `${outcome.message} (unverified)` : outcome.message),
    measured: outcome.measured,
    limit: outcome.limit,
    source: citationText(citation),
    remedies: outcome.remedies ?? [],
  };
}

function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}
