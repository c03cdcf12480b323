import type { Citation } from '../Citation.js';

/** Why something is stopped that no rule known here allows: the caution of this package, not a rule of any law. */
export const notCoveredHere: Citation = {
  document: 'No rule known to @finial/lora covers it, and what is not covered counts as not permitted',
  edition: 'principle of this package',
  status: 'read',
};
