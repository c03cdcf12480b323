import {
  checkInteger,
  checkList,
  checkObject,
  checkOneOf,
  checkPositive,
  checkRange,
  InputError,
} from '@finial/units';
import { checkPosition } from '../groundDistance.js';
import { observationFields } from '../observationFields.js';
import type { JoinTrackOptions, NodeSettings, SentFrame } from './JoinedWalk.js';
import { secondsOf } from './timeline.js';

/** What a LoRaWAN frame counter can be. */
const counterBounds = { min: 0, max: 4_294_967_295, unit: 'frames' };

/** The fields of an observation that the node's settings can give. */
export const nodeFields = ['spreadingFactor', 'bandwidthHz', 'frequencyHz', 'conductedPowerDbm'] as const;

/** Refuses options that no walk can be joined with. */
export function checkJoinOptions(options: JoinTrackOptions): void {
  const {
    gateway,
    clockOffsetSeconds = 0,
    periodSeconds,
    counterBits,
    node = {},
    sent,
  } = checkObject(options, 'options');
  for (const name of ['device', 'gatewayName', 'dataRate'] as const) {
    const value: unknown = options[name];
    if (value === undefined || typeof value === 'string') continue;
    throw new InputError({ code: 'wrong-type', argument: name, received: value, expected: 'a name' });
  }
  if (gateway !== undefined) checkPosition(gateway, 'gateway');
  if (clockOffsetSeconds !== 'whole-hours') {
    checkRange(clockOffsetSeconds, 'clockOffsetSeconds', { min: -86_400, max: 86_400, unit: 'seconds' });
  }
  if (periodSeconds !== undefined) {
    checkRange(periodSeconds, 'periodSeconds', { min: 0.001, max: 31_622_400, unit: 'seconds' });
  }
  if (counterBits !== undefined) checkOneOf(counterBits, 'counterBits', [16, 32]);
  checkOneOf(options.toTrackEnd ?? false, 'toTrackEnd', [true, false]);
  for (const name of ['firstCounter', 'lastCounter'] as const) {
    if (options[name] !== undefined) checkInteger(options[name], name, counterBounds);
  }
  if (options.maximumGapSeconds !== undefined) {
    checkPositive(options.maximumGapSeconds, 'maximumGapSeconds', 'seconds');
  }
  if (options.maximumMissedFrames !== undefined) {
    checkPositive(options.maximumMissedFrames, 'maximumMissedFrames', 'frames');
  }
  checkNode(checkObject(node, 'node'));
  if (sent !== undefined) checkSent(sent, options);
}

function checkNode(node: NodeSettings): void {
  for (const name of nodeFields) {
    const rule = observationFields[name];
    if (node[name] !== undefined && rule.kind === 'number') checkRange(node[name], `node.${name}`, rule);
  }
}

function checkSent(sent: readonly SentFrame[], options: JoinTrackOptions): void {
  const seen = new Set<number>();
  checkList(sent, 'sent').forEach((frame, index) => {
    const { counter, timeUtc } = checkObject(frame, `sent[${index}]`);
    checkInteger(counter, `sent[${index}].counter`, counterBounds);
    if (timeUtc !== undefined) secondsOf(timeUtc, `sent[${index}].timeUtc`);
    if (!seen.has(counter)) seen.add(counter);
    else {
      const expected = 'each counter once; split the list where the node began again';
      throw new InputError({
        code: 'out-of-range',
        argument: `sent[${index}].counter`,
        received: counter,
        expected,
      });
    }
  });
  for (const name of ['firstCounter', 'lastCounter', 'toTrackEnd'] as const) {
    if (options[name] === undefined || options[name] === false) continue;
    const expected = 'nothing, since the list of sent frames says it';
    throw new InputError({ code: 'unknown-option', argument: name, received: options[name], expected });
  }
}
