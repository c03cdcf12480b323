import { as923 } from '../planRows/as923.js';
import type { Region } from '../Region.js';

/**
 * AS923-3, the group 6.6 MHz below the first: default channels 916.6 and 916.8 MHz.
 *
 * Which country uses which group, with which power, dwell time or listen before talk, is its own law: the plan does not say it.
 *
 * @source RP002-1.0.5 table 73 for payloads; MAC stack sources, compared, for the rest: `sources` says which rows come from where
 */
export const AS923_3: Region = /* @__PURE__ */ as923({
  name: 'AS923-3',
  minHz: 915e6,
  maxHz: 921e6,
  offsetHz: -6.6e6,
});
