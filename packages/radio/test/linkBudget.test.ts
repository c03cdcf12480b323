import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  eirpDbm,
  type LinkDirection,
  type LinkPlan,
  linkBudget,
  systemNoise,
  thermalNoiseDbm,
} from '../src/index.js';
import { expectNear } from './support.js';

// Worked out by hand. Noise: −123.006 dBm in 125 kHz (closed-forms.json).
const plan: LinkPlan = {
  pathLossDb: 135,
  bandwidthHz: 125e3,
  uplinkRequiredSnrDb: -12.5,
  downlinkRequiredSnrDb: -10,
  gateway: {
    conductedPowerDbm: 12.9,
    feedlineLossDb: 1.9,
    antennaGainDbi: 5.15,
    noiseFigureDb: 5,
    receivedNoiseRiseDb: 3,
  },
  node: { conductedPowerDbm: 14, feedlineLossDb: 0.5, antennaGainDbi: -1, noiseFigureDb: 6 },
  losses: [{ name: 'fading margin', lossDb: 8 }],
};

describe('linkBudget, worked by hand', () => {
  const { uplink, downlink } = linkBudget(plan);
  test('uplink line by line', () => {
    expect(uplink.items.map(({ name, kind, valueDb }) => [name, kind, valueDb])).toEqual([
      ['node conducted power', 'power', 14],
      ['node feedline', 'loss', 0.5],
      ['node antenna gain', 'gain', -1],
      ['path loss', 'loss', 135],
      ['fading margin', 'loss', 8],
      ['gateway antenna gain', 'gain', 5.15],
      ['gateway feedline', 'loss', 1.9],
    ]);
    const levels = [14, 13.5, 12.5, -122.5, -130.5, -125.35, -127.25];
    for (const [index, want] of levels.entries()) {
      expectNear(uplink.items[index]?.levelDbm ?? Number.NaN, want, 1e-11);
    }
  });
  test('uplink totals', () => {
    expectNear(uplink.eirpDbm, 12.5, 1e-11);
    expectNear(uplink.receivedPowerDbm, -127.25, 1e-11);
    expectNear(uplink.noisePowerDbm, -123.006 + 5 + 3, 0.0005);
    expectNear(uplink.snrDb, -127.25 + 115.006, 0.0005);
    expectNear(uplink.marginDb, 0.256, 0.0005);
    expectNear(uplink.maximumPathLossDb, 135.256, 0.0005);
  });
  test('a wider downlink hears more noise, and only the downlink', () => {
    const wide = linkBudget({ ...plan, downlinkBandwidthHz: 500e3 });
    // 10 lg(500/125) = 6.0206 dB
    expectNear(wide.downlink.noisePowerDbm, downlink.noisePowerDbm + 6.0206, 0.00005);
    expect(wide.uplink).toEqual(uplink);
  });
  test('downlink totals', () => {
    expectNear(downlink.eirpDbm, 16.15, 1e-11);
    expectNear(downlink.receivedPowerDbm, 16.15 - 143 - 1 - 0.5, 1e-11);
    expectNear(downlink.noisePowerDbm, -117.006, 0.0005);
    expectNear(downlink.marginDb, -128.35 + 117.006 + 10, 0.0005);
    expect(downlink.items.map((item) => item.name)).toEqual([
      'gateway conducted power',
      'gateway feedline',
      'gateway antenna gain',
      'path loss',
      'fading margin',
      'node antenna gain',
      'node feedline',
    ]);
  });
});

// LoRa sensitivities as the makers of the chips print them, rounded (from memory): 125 kHz, noise figure 6 dB, SNR −20 dB at SF12 give
// −174 + 51 + 6 − 20 = −137 dBm.
test('a signal at the printed SF12 sensitivity has no margin left', () => {
  const end = { conductedPowerDbm: 0, feedlineLossDb: 0, antennaGainDbi: 0, noiseFigureDb: 6 };
  const { uplink } = linkBudget({
    pathLossDb: 137,
    bandwidthHz: 125e3,
    uplinkRequiredSnrDb: -20,
    downlinkRequiredSnrDb: -20,
    gateway: end,
    node: end,
  });
  expectNear(uplink.marginDb, 0, 0.5);
});

const decibels = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const end = fc.record({
  conductedPowerDbm: decibels(-10, 40),
  feedlineLossDb: decibels(0, 20),
  antennaGainDbi: decibels(-10, 20),
  noiseFigureDb: decibels(0, 20),
  receivedNoiseRiseDb: decibels(0, 30),
});
const anyPlan: fc.Arbitrary<LinkPlan> = fc.record({
  pathLossDb: decibels(0, 200),
  bandwidthHz: decibels(1e3, 1e6),
  uplinkRequiredSnrDb: decibels(-25, 10),
  downlinkRequiredSnrDb: decibels(-25, 10),
  gateway: end,
  node: end,
  losses: fc.array(fc.record({ name: fc.constant('wall'), lossDb: decibels(0, 30) }), { maxLength: 3 }),
});

describe('linkBudget, for any plan', () => {
  test('the levels follow from the items, and the e.i.r.p. is that of the sender', () =>
    fc.assert(
      fc.property(anyPlan, (p) => {
        const { uplink, downlink } = linkBudget(p);
        for (const way of [uplink, downlink]) {
          const total = way.items.reduce(
            (sum, item) => sum + (item.kind === 'loss' ? -item.valueDb : item.valueDb),
            0,
          );
          expectNear(way.receivedPowerDbm, total, 1e-10);
          expect(way.items.at(-1)?.levelDbm).toBe(way.receivedPowerDbm);
        }
        expectNear(uplink.eirpDbm, eirpDbm(p.node), 1e-11);
        expectNear(downlink.eirpDbm, eirpDbm(p.gateway), 1e-11);
      }),
    ));
  test('at the maximum path loss the margin is gone', () =>
    fc.assert(
      fc.property(anyPlan, (p) => {
        const gone = (way: 'uplink' | 'downlink') => {
          const pathLossDb = linkBudget(p)[way].maximumPathLossDb;
          fc.pre(pathLossDb >= 0);
          expectNear(linkBudget({ ...p, pathLossDb })[way].marginDb, 0, 1e-10);
        };
        gone('uplink');
        gone('downlink');
      }),
    ));
  test('the receiving feedline costs its loss once in signal-to-noise ratio', () =>
    fc.assert(
      fc.property(anyPlan, decibels(0, 20), (p, moreDb) => {
        const longer = {
          ...p,
          gateway: { ...p.gateway, feedlineLossDb: p.gateway.feedlineLossDb + moreDb },
        };
        expectNear(linkBudget(p).uplink.snrDb - linkBudget(longer).uplink.snrDb, moreDb, 1e-10);
      }),
    ));
  test('gives the same ratio as signal and system noise compared at the antenna', () =>
    fc.assert(
      fc.property(anyPlan, (p) => {
        const gateway = { ...p.gateway, receivedNoiseRiseDb: 0 };
        const { uplink } = linkBudget({ ...p, gateway });
        const atAntenna = systemNoise({
          receiverNoiseFigureDb: gateway.noiseFigureDb,
          feedlineLossDb: gateway.feedlineLossDb,
          bandwidthHz: p.bandwidthHz,
        });
        const signalDbm = uplink.receivedPowerDbm + gateway.feedlineLossDb;
        expectNear(uplink.snrDb, signalDbm - atAntenna.noisePowerDbm, 1e-10);
        expectNear(uplink.thermalNoiseDbm, thermalNoiseDbm({ bandwidthHz: p.bandwidthHz }), 1e-12);
      }),
    ));
  test('two equal ends see the same link both ways', () =>
    fc.assert(
      fc.property(anyPlan, (p) => {
        const twin = linkBudget({ ...p, node: p.gateway, downlinkRequiredSnrDb: p.uplinkRequiredSnrDb });
        const plain = ({ items, ...totals }: LinkDirection) => [totals, items.map((item) => item.levelDbm)];
        expect(plain(twin.downlink)).toEqual(plain(twin.uplink));
      }),
    ));
});

describe('linkBudget refuses', () => {
  const refusal = (argument: string) => expect.objectContaining({ name: 'InputError', argument });
  const broken = (change: object) => () => linkBudget({ ...plan, ...change } as LinkPlan);
  test.each([
    [{ gateway: undefined }, 'gateway'],
    [{ node: { ...plan.node, noiseFigureDb: -1 } }, 'node.noiseFigureDb'],
    [{ losses: 'none' }, 'losses'],
    [{ losses: null }, 'losses'],
    [{ losses: [null] }, 'losses[0]'],
    [{ losses: [{ name: '', lossDb: 1 }] }, 'losses[0].name'],
    [{ losses: [{ name: 'a' }, { name: 'wall', lossDb: 1 }] }, 'losses[0].lossDb'],
    [{ losses: [{ name: 'wall', lossDb: -1 }] }, 'losses[0].lossDb'],
  ])('%j by name', (change, argument) => {
    expect(broken(change)).toThrow(refusal(argument));
  });
  test('but takes an empty list of losses', () => {
    expect(broken({ losses: [] })().uplink.items).toHaveLength(6);
  });
});
