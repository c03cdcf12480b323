import { as923 } from '../planRows/as923.js';
import type { Region } from '../Region.js';

/**
 * AS923-4, the group 5.9 MHz below the first: default channels 917.3 and 917.5 MHz.
 *
 * Which country uses which group, with which power, dwell time or listen before talk, is its own law: the plan does not say it.
 *
 * @source RP002-1.0.5 table 73 for payloads; MAC stack sources, compared, for the rest: `sources` says which rows come from where
 */
export const AS923_4: Region = /* @__PURE__ */ as923({
  name: 'AS923-4',
  minHz: 917e6,
  maxHz: 920e6,
  offsetHz: -5.9e6,
});
