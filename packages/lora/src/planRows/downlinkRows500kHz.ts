import type { ChannelGroup, LoRaDataRate } from '../Region.js';
import { loraRows } from './loraRows.js';

/**
 * DR8 to DR13, the downlinks of the plans of 902 to 928 MHz. No dwell time binds them: at 500 kHz they are digital modulation, and the
 * longest last 616 ms. RP002-1.0.0 and 1.0.1 had less room with a repeater: 41 bytes on DR8, 117 on DR9.
 */
export const downlinkRows500kHz: readonly LoRaDataRate[] = /* @__PURE__ */ loraRows(
  { direction: 'downlink', bandwidthHz: 500e3 },
  [
    // DR, SF, M
    [8, 12, 61],
    [9, 11, 137],
    [10, 10, 250],
    [11, 9, 250],
    [12, 8, 250],
    [13, 7, 250],
  ],
);

/** The eight channels of those downlinks. */
export const downlinkChannels500kHz: ChannelGroup = {
  direction: 'downlink',
  firstHz: 923.3e6,
  stepHz: 600e3,
  channelCount: 8,
  bandwidthHz: 500e3,
  minDataRate: 8,
  maxDataRate: 13,
};
