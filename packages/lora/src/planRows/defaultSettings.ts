import type { Citation } from '../Citation.js';
import type { ReceiveDelays, RegionDefaults } from '../Region.js';

/** Delays of the receive windows: the same in every plan. */
export const defaultDelays: ReceiveDelays = {
  receive1Seconds: 1,
  receive2Seconds: 2,
  joinAccept1Seconds: 5,
  joinAccept2Seconds: 6,
};

/** What nodes of every plan start with; plans with UplinkDwellTime change that one. */
export const defaultSettings: RegionDefaults = {
  ...defaultDelays,
  adrAckLimitFrames: 64,
  adrAckDelayFrames: 32,
  retransmitTimeoutSeconds: 2,
  retransmitSpreadSeconds: 1,
  maxCounterGapFrames: 16384,
  rx1DrOffset: 0,
  uplinkDwellLimited: false,
  downlinkDwellLimited: false,
};

/** Where the two tables above come from. */
export const defaultParameters: Citation = {
  document: 'RP002 section 3, default parameters (page 28, read in part; MAC stacks agree)',
  edition: '1.0.4',
  status: 'read',
};

/** Where the limit of repeater-compatible frames comes from, in every plan. */
export const repeaterTable: Citation = {
  document: 'Repeater table of the MAC library brocaar/lorawan a18a103',
  edition: 'labelled RP002-1.0.3',
  status: 'stack',
};
