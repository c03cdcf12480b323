import { as923 } from '../planRows/as923.js';
import type { Region } from '../Region.js';

/**
 * AS923-2, the group 1.8 MHz below the first: default channels 921.4 and 921.6 MHz.
 *
 * Which country uses which group, with which power, dwell time or listen before talk, is its own law: the plan does not say it.
 *
 * @source RP002-1.0.5 table 73 for payloads; MAC stack sources, compared, for the rest: `sources` says which rows come from where
 */
export const AS923_2: Region = /* @__PURE__ */ as923({
  name: 'AS923-2',
  minHz: 920e6,
  maxHz: 923e6,
  offsetHz: -1.8e6,
});
