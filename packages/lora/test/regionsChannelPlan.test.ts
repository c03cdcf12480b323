import {
  type ChannelPlan,
  channelFrequenciesHz,
  firstWindowDataRate,
  maxPayload,
  onChannelPlan,
  regions,
} from '@finial/lora';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const { CN470 } = regions;
const plans = CN470.channelPlans ?? [];

function centres(plan: ChannelPlan, direction: 'uplink' | 'downlink'): number[] {
  return plan.channels
    .filter((group) => group.direction === direction || group.direction === 'both')
    .flatMap((group) => channelFrequenciesHz(group));
}

// Figures of the MAC stacks LoRaMac-node (RegionCN470A20, B20, A26, B26) and SWL2001 9a14f67 (region_cn_470_defs.h), in hertz.
describe('channel plans of CN470', () => {
  test('there are four', () =>
    expect(plans.map(({ name }) => name)).toEqual(['20 MHz A', '20 MHz B', '26 MHz A', '26 MHz B']));

  test.each([
    ['20 MHz A', 64, 470_300_000, 509_700_000, 64, 483_900_000, 496_500_000, 8, 486_900_000, 'same-number'],
    ['20 MHz B', 64, 476_900_000, 503_100_000, 64, 476_900_000, 503_100_000, 2, 498_300_000, 'same'],
    ['26 MHz A', 48, 470_300_000, 479_700_000, 24, 490_100_000, 494_700_000, 5, 492_500_000, 'modulo-24'],
    ['26 MHz B', 48, 480_300_000, 489_700_000, 24, 500_100_000, 504_700_000, 5, 502_500_000, 'modulo-24'],
  ] as const)(
    '%s: %i channels up, first and last, and down',
    (name, ups, firstUp, lastUp, downs, firstDown, lastDown, joins, rx2, rule) => {
      const plan = plans.find((each) => each.name === name) as ChannelPlan;
      const up = centres(plan, 'uplink');
      const down = centres(plan, 'downlink');
      expect([up.length, up[0], up.at(-1)]).toEqual([ups, firstUp, lastUp]);
      expect([down.length, down[0], down.at(-1)]).toEqual([downs, firstDown, lastDown]);
      expect(plan.joinChannels).toHaveLength(joins);
      expect(plan.secondWindow).toEqual({ frequencyHz: rx2, dataRate: 1 });
      expect(plan.firstWindowChannel).toBe(rule);
    },
  );

  test.each(plans)('$name: joins and answers on its own channels, by its own rule', (plan) => {
    const up = centres(plan, 'uplink');
    const down = centres(plan, 'downlink');
    expect(down).toContain(plan.secondWindow.frequencyHz);
    for (const { uplinkHz, firstWindowHz, secondWindowHz } of plan.joinChannels) {
      const number = up.indexOf(uplinkHz);
      expect(number, `${uplinkHz}`).toBeGreaterThanOrEqual(0);
      expect(down).toContain(secondWindowHz);
      expect(down).toContain(firstWindowHz);
      // Plans of 26 MHz answer every join on the channel of the second window; the others by the rule of the first window.
      if (plan.firstWindowChannel === 'modulo-24') expect(firstWindowHz).toBe(secondWindowHz);
      else expect(firstWindowHz).toBe(down[number]);
    }
  });

  test('no channel on which nodes join belongs to two plans', () => {
    const all = plans.flatMap(({ joinChannels }) => joinChannels.map(({ uplinkHz }) => uplinkHz));
    expect(all).toHaveLength(20);
    expect(new Set(all).size).toBe(20);
  });

  test('join channels of 20 MHz A are eight channels apart, and so are their second windows', () => {
    const [a] = plans;
    const apart = a?.joinChannels.map(({ uplinkHz }) => centres(a, 'uplink').indexOf(uplinkHz));
    expect(apart).toEqual([3, 11, 19, 27, 35, 43, 51, 59]);
    expect(a?.joinChannels.map(({ secondWindowHz }) => secondWindowHz)).toEqual([
      485.3e6, 486.9e6, 488.5e6, 490.1e6, 491.7e6, 493.3e6, 494.9e6, 496.5e6,
    ]);
  });
});

describe('the region on one channel plan', () => {
  test.each(plans)('$name has its channels alone and the tables of the region', (plan) => {
    const region = onChannelPlan({ region: CN470, channelPlan: plan.name });
    expect(region.name).toBe(`CN470 ${plan.name}`);
    expect(region.channels).toBe(plan.channels);
    expect(region.channelPlans).toBeUndefined();
    expect(region.secondWindow).toEqual(plan.secondWindow);
    expect(region.firstWindow.channel).toBe(plan.firstWindowChannel);
    expect(region.firstWindow.dataRates).toBe(CN470.firstWindow.dataRates);
    expect(maxPayload({ region, dataRate: 3, direction: 'uplink' })).toMatchObject({ macPayloadBytes: 192 });
    expect(firstWindowDataRate({ region, uplinkDataRate: 3, rx1DrOffset: 5 })).toBe(1);
    for (const [joinChannel, { secondWindowHz }] of plan.joinChannels.entries()) {
      const joined = onChannelPlan({ region: CN470, channelPlan: plan.name, joinChannel });
      expect(joined.secondWindow).toEqual({ frequencyHz: secondWindowHz, dataRate: 1 });
    }
  });

  test.each([
    ['channelPlan', { region: CN470, channelPlan: '26 MHz C' }],
    ['channelPlan', { region: CN470, channelPlan: undefined as never }],
    ['channelPlan', { region: regions.EU868, channelPlan: '20 MHz A' }],
    ['joinChannel', { region: CN470, channelPlan: '20 MHz A', joinChannel: 8 }],
    ['joinChannel', { region: CN470, channelPlan: '20 MHz B', joinChannel: -1 }],
    ['joinChannel', { region: CN470, channelPlan: '26 MHz A', joinChannel: Number.NaN }],
    ['joinChannel', { region: CN470, channelPlan: '26 MHz A', joinChannel: '1' as never }],
    ['region', { region: 'CN470' as never, channelPlan: '26 MHz A' }],
  ])('%s is refused by name', (argument, choice) =>
    expect(() => onChannelPlan(choice)).toThrow(expect.objectContaining({ name: 'InputError', argument })),
  );

  test('a region without channel plans says so', () =>
    expect(() => onChannelPlan({ region: regions.EU868, channelPlan: '20 MHz A' })).toThrow(
      'one set of channels',
    ));
});

test('the channels of a group are as many as it says, a step apart from the first', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 433_000_000, max: 928_000_000 }),
      fc.integer({ min: 1000, max: 2_000_000 }),
      fc.integer({ min: 2, max: 96 }),
      (firstHz, stepHz, channelCount) => {
        const [group] = CN470.channels;
        if (group === undefined) throw new Error('CN470 has no channels');
        const centresHz = channelFrequenciesHz({ ...group, firstHz, stepHz, channelCount });
        expect(centresHz).toHaveLength(channelCount);
        expect(centresHz[0]).toBe(firstHz);
        expect(centresHz.slice(1).map((hz, index) => hz - (centresHz[index] as number))).toEqual(
          Array(channelCount - 1).fill(stepHz),
        );
      },
    ),
  );
});
