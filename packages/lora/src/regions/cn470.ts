import type { Citation } from '../Citation.js';
import {
  defaultDelays,
  defaultParameters,
  defaultSettings,
  repeaterTable,
} from '../planRows/defaultSettings.js';
import { fskRow } from '../planRows/dynamicRows.js';
import { loraRows } from '../planRows/loraRows.js';
import type { ChannelGroup, ChannelPlan, Region } from '../Region.js';

const stacks: Citation = {
  document: 'CN470 region tables of the MAC stacks LoRaMac-node dcbcfb3 and SWL2001 9a14f67, which agree',
  edition: 'LoRaMac-node 4.7.0 and later fixes',
  status: 'stack',
};

/** They agree but for one frequency, see `joins20A`. */
const planStacks: Citation = {
  document: 'CN470 channel plans and join channels of the MAC stacks LoRaMac-node and SWL2001 9a14f67',
  edition: 'LoRaMac-node 4.5 and later',
  status: 'stack',
};

/** Every channel of every plan. */
const common: Omit<ChannelGroup, 'direction' | 'firstHz' | 'channelCount'> = {
  stepHz: 200e3,
  bandwidthHz: 125e3,
  minDataRate: 1,
  maxDataRate: 5,
};

const plan20A: ChannelPlan = {
  name: '20 MHz A',
  channels: [
    { ...common, direction: 'uplink', firstHz: 470.3e6, channelCount: 32 },
    { ...common, direction: 'uplink', firstHz: 503.5e6, channelCount: 32 },
    { ...common, direction: 'downlink', firstHz: 483.9e6, channelCount: 32 },
    { ...common, direction: 'downlink', firstHz: 490.3e6, channelCount: 32 },
  ],
  joinChannels: [
    { uplinkHz: 470.9e6, firstWindowHz: 484.5e6, secondWindowHz: 485.3e6 },
    { uplinkHz: 472.5e6, firstWindowHz: 486.1e6, secondWindowHz: 486.9e6 },
    { uplinkHz: 474.1e6, firstWindowHz: 487.7e6, secondWindowHz: 488.5e6 },
    { uplinkHz: 475.7e6, firstWindowHz: 489.3e6, secondWindowHz: 490.1e6 },
    { uplinkHz: 504.1e6, firstWindowHz: 490.9e6, secondWindowHz: 491.7e6 },
    { uplinkHz: 505.7e6, firstWindowHz: 492.5e6, secondWindowHz: 493.3e6 },
    // LoRaMac-node has 494.0 MHz for this second window: no channel of the plan, and out of step with its neighbours.
    { uplinkHz: 507.3e6, firstWindowHz: 494.1e6, secondWindowHz: 494.9e6 },
    { uplinkHz: 508.9e6, firstWindowHz: 495.7e6, secondWindowHz: 496.5e6 },
  ],
  firstWindowChannel: 'same-number',
  secondWindow: { frequencyHz: 486.9e6, dataRate: 1 },
};

/** Downlinks on the channels of the uplinks. */
const plan20B: ChannelPlan = {
  name: '20 MHz B',
  channels: [
    { ...common, direction: 'both', firstHz: 476.9e6, channelCount: 32 },
    { ...common, direction: 'both', firstHz: 496.9e6, channelCount: 32 },
  ],
  joinChannels: [
    { uplinkHz: 479.9e6, firstWindowHz: 479.9e6, secondWindowHz: 478.3e6 },
    { uplinkHz: 499.9e6, firstWindowHz: 499.9e6, secondWindowHz: 498.3e6 },
  ],
  firstWindowChannel: 'same',
  secondWindow: { frequencyHz: 498.3e6, dataRate: 1 },
};

const plan26A: ChannelPlan = {
  name: '26 MHz A',
  channels: [
    { ...common, direction: 'uplink', firstHz: 470.3e6, channelCount: 48 },
    { ...common, direction: 'downlink', firstHz: 490.1e6, channelCount: 24 },
  ],
  joinChannels: [
    { uplinkHz: 470.3e6, firstWindowHz: 492.5e6, secondWindowHz: 492.5e6 },
    { uplinkHz: 472.3e6, firstWindowHz: 492.5e6, secondWindowHz: 492.5e6 },
    { uplinkHz: 474.3e6, firstWindowHz: 492.5e6, secondWindowHz: 492.5e6 },
    { uplinkHz: 476.3e6, firstWindowHz: 492.5e6, secondWindowHz: 492.5e6 },
    { uplinkHz: 478.3e6, firstWindowHz: 492.5e6, secondWindowHz: 492.5e6 },
  ],
  firstWindowChannel: 'modulo-24',
  secondWindow: { frequencyHz: 492.5e6, dataRate: 1 },
};

const plan26B: ChannelPlan = {
  name: '26 MHz B',
  channels: [
    { ...common, direction: 'uplink', firstHz: 480.3e6, channelCount: 48 },
    { ...common, direction: 'downlink', firstHz: 500.1e6, channelCount: 24 },
  ],
  joinChannels: [
    { uplinkHz: 480.3e6, firstWindowHz: 502.5e6, secondWindowHz: 502.5e6 },
    { uplinkHz: 482.3e6, firstWindowHz: 502.5e6, secondWindowHz: 502.5e6 },
    { uplinkHz: 484.3e6, firstWindowHz: 502.5e6, secondWindowHz: 502.5e6 },
    { uplinkHz: 486.3e6, firstWindowHz: 502.5e6, secondWindowHz: 502.5e6 },
    { uplinkHz: 488.3e6, firstWindowHz: 502.5e6, secondWindowHz: 502.5e6 },
  ],
  firstWindowChannel: 'modulo-24',
  secondWindow: { frequencyHz: 502.5e6, dataRate: 1 },
};

/**
 * CN470-510, the plan of China, with its four channel plans: take one of them with `onChannelPlan`, or every plan's channels count as
 * channels and `secondWindow` is that of the first.
 *
 * The payloads are those of frames of at most 1 s, so that DR0 carries nothing. RP001 had one set of 96 channels and payloads of
 * 59, 59, 59, 123, 250, 250 bytes instead: old networks keep to it, and it is not covered here. With a repeater RP002-1.0.1 had 172 bytes
 * on DR3. DR6 and DR7 are in the table, but no channel carries them until a network says so.
 *
 * @source RP002 by MAC stack sources, compared: `sources` says which rows come from where
 */
export const CN470: Region = {
  name: 'CN470',
  plan: 'fixed',
  minHz: 470e6,
  maxHz: 510e6,
  dataRates: [
    ...loraRows({ direction: 'both', bandwidthHz: 125e3 }, [
      // DR, SF, M
      [1, 11, 31],
      [2, 10, 94],
      [3, 9, 192],
      [4, 8, 250],
      [5, 7, 250],
    ]),
    ...loraRows({ direction: 'both', bandwidthHz: 500e3 }, [[6, 7, 250]]),
    fskRow,
  ],
  unusableDataRates: { 0: 'at SF12 no frame is as short as the plan wants it, 1 s' },
  repeaterMacPayloadBytes: 230,
  channels: [...plan20A.channels, ...plan20B.channels, ...plan26A.channels, ...plan26B.channels],
  channelPlans: [plan20A, plan20B, plan26A, plan26B],
  power: { quantity: 'EIRP', txPowersDbm: [19.15, 17.15, 15.15, 13.15, 11.15, 9.15, 7.15, 5.15] },
  firstWindow: {
    channel: 'by-channel-plan',
    dataRates: {
      // RX1DROffset 0 to 5
      1: [1, 1, 1, 1, 1, 1],
      2: [2, 1, 1, 1, 1, 1],
      3: [3, 2, 1, 1, 1, 1],
      4: [4, 3, 2, 1, 1, 1],
      5: [5, 4, 3, 2, 1, 1],
      6: [6, 5, 4, 3, 2, 1],
      7: [7, 6, 5, 4, 3, 2],
    },
  },
  secondWindow: plan20A.secondWindow,
  joinRequestDataRates: [1, 2, 3, 4, 5],
  delays: defaultDelays,
  defaults: defaultSettings,
  sources: {
    dataRates: [stacks],
    payloads: [stacks],
    repeater: [repeaterTable],
    channels: [planStacks],
    power: [
      {
        document: 'CN470 region tables of the MAC stack LoRaMac-node dcbcfb3 (SWL2001 rounds to 19 dBm)',
        edition: 'LoRaMac-node 4.7.0 and later fixes',
        status: 'stack',
      },
    ],
    firstWindow: [stacks],
    secondWindow: [planStacks],
    joinRequest: [planStacks],
    delays: [defaultParameters],
    dwell: [stacks],
    defaults: [defaultParameters],
  },
};
