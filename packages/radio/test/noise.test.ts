import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type NoiseStage, noiseFigureCascade, systemNoise, thermalNoiseDbm } from '../src/index.js';
import { expectNear, half } from './support.js';
import closed from './vectors/closed-forms.json' with { type: 'json' };

const noiseFigureDb = fc.double({ min: 0, max: 30, noNaN: true });
const lossDb = fc.double({ min: 0, max: 30, noNaN: true });
const bandwidthHz = fc.double({ min: 1e3, max: 1e7, noNaN: true });

describe('thermalNoiseDbm', () => {
  test('the file still holds its cases', () => expect(closed.thermalNoise.cases).toHaveLength(5));
  test.each(closed.thermalNoise.cases)(
    '$bandwidthHz Hz at $temperatureK K, 40 digits',
    ({ noiseDbm, ...source }) => {
      expectNear(thermalNoiseDbm(source), noiseDbm, closed.thermalNoise.toleranceDb);
    },
  );
  // The figure every receiver text prints: −174 dBm in 1 Hz at 290 K (common practice);
  // Rec. ITU-R P.372, section 2, prints 10 lg(k t0) = −204 dBW.
  test('1 Hz at 290 K is −174 dBm', () => expectNear(thermalNoiseDbm({ bandwidthHz: 1 }), -174, half(0)));
  test('ten times the bandwidth is 10 dB more', () =>
    fc.assert(
      fc.property(bandwidthHz, (b) => {
        expectNear(thermalNoiseDbm({ bandwidthHz: 10 * b }) - thermalNoiseDbm({ bandwidthHz: b }), 10, 1e-11);
      }),
    ));
});

describe('noiseFigureCascade', () => {
  // D. M. Pozar, Microwave Engineering, 4th edition, example 10.2 (from memory): amplifier 10 dB gain and 2 dB noise figure, filter of
  // 1 dB loss, mixer of 3 dB loss and 4 dB noise figure: noise factor 1.80, 2.55 dB, 232 K.
  const receiver = noiseFigureCascade([
    { noiseFigureDb: 2, gainDb: 10 },
    { noiseFigureDb: 1, gainDb: -1 },
    { noiseFigureDb: 4, gainDb: -3 },
  ]);
  test('textbook receiver: noise figure, temperature, gain', () => {
    // The book takes 10 lg of the rounded 1.80 (1.795 to 1.805), hence two units of the last digit.
    expectNear(receiver.noiseFigureDb, 2.55, 0.015);
    expectNear(1 + receiver.noiseTemperatureK / 290, 1.8, half(2));
    expectNear(receiver.noiseTemperatureK, 232, half(0));
    expectNear(receiver.gainDb, 6, 1e-12);
  });
  test('the shares add up to one and the first stage has the largest', () => {
    const shares = receiver.stages.map((stage) => stage.shareRatio);
    expectNear(
      shares.reduce((sum, share) => sum + share, 0),
      1,
      1e-15,
    );
    // (F1 − 1)/(F − 1) from the same example: 0.585/0.801
    expectNear(shares[0] ?? 0, 0.585 / 0.801, 0.001);
  });
  test('a chain that adds nothing has no shares', () => {
    expect(noiseFigureCascade([{ noiseFigureDb: 0, gainDb: 3 }])).toEqual({
      noiseFigureDb: 0,
      gainDb: 3,
      noiseTemperatureK: 0,
      stages: [{ gainAheadDb: 0, inputTemperatureK: 0, shareRatio: 0 }],
    });
  });

  const stage: fc.Arbitrary<NoiseStage> = fc.record({
    noiseFigureDb,
    gainDb: fc.double({ min: -30, max: 30, noNaN: true }),
  });
  const chain = fc.array(stage, { minLength: 1, maxLength: 5 });
  test('never better than its first stage', () =>
    fc.assert(
      fc.property(chain, (stages) => {
        const first = stages[0]?.noiseFigureDb ?? 0;
        expect(noiseFigureCascade(stages).noiseFigureDb).toBeGreaterThanOrEqual(first - 1e-11);
      }),
    ));
  test('a chain may be cut anywhere and joined again', () =>
    fc.assert(
      fc.property(chain, chain, (front, back) => {
        const joined = noiseFigureCascade([noiseFigureCascade(front), noiseFigureCascade(back)]);
        expectNear(joined.noiseFigureDb, noiseFigureCascade([...front, ...back]).noiseFigureDb, 1e-9);
      }),
    ));
  test('a passive loss at 290 K ahead of a receiver adds its decibels', () =>
    fc.assert(
      fc.property(lossDb, noiseFigureDb, (loss, receiverDb) => {
        const stages = [
          { noiseFigureDb: loss, gainDb: -loss },
          { noiseFigureDb: receiverDb, gainDb: 0 },
        ];
        expectNear(noiseFigureCascade(stages).noiseFigureDb, loss + receiverDb, 1e-11);
      }),
    ));
  test('an empty chain, and a gain that runs away, are refused', () => {
    expect(() => noiseFigureCascade([])).toThrow(
      expect.objectContaining({ name: 'InputError', code: 'missing', argument: 'stages' }),
    );
    const strong = { noiseFigureDb: 1, gainDb: 200 };
    expect(() => noiseFigureCascade([strong, strong, strong, strong, strong, strong])).toThrow(
      expect.objectContaining({ code: 'out-of-range', argument: 'stages[5].gainDb' }),
    );
  });
});

describe(`systemNoise against ${closed.systemNoise.source}, ${closed.source}`, () => {
  test('the file still holds its cases', () => expect(closed.systemNoise.cases).toHaveLength(4));
  test.each(closed.systemNoise.cases)(
    'noise figure $receiverNoiseFigureDb dB behind $feedlineLossDb dB at $feedlineTemperatureC °C',
    ({ systemNoiseFigureDb, systemTemperatureK, noisePowerDbm, ...system }) => {
      const got = systemNoise(system);
      expectNear(got.systemNoiseFigureDb, systemNoiseFigureDb, closed.systemNoise.toleranceDb);
      expectNear(got.systemTemperatureK / systemTemperatureK, 1, 1e-12);
      expectNear(got.noisePowerDbm, noisePowerDbm, closed.systemNoise.toleranceDb);
    },
  );
});

describe('systemNoise', () => {
  // Pozar, example 10.2, continued (from memory): the receiver above on an antenna of 150 K, 10 MHz wide: −96.8 dBm at its output, after
  // 6 dB of gain.
  test('textbook receiver on a cool antenna', () => {
    const noise = systemNoise({
      receiverNoiseFigureDb: 2.55,
      feedlineLossDb: 0,
      antennaTemperatureK: 150,
      bandwidthHz: 10e6,
    });
    expectNear(noise.noisePowerDbm + 6, -96.8, half(1));
  });
  test('a feedline at 290 K costs its loss once, however it is looked at', () =>
    fc.assert(
      fc.property(noiseFigureDb, lossDb, bandwidthHz, (receiverNoiseFigureDb, feedlineLossDb, b) => {
        const bare = systemNoise({ receiverNoiseFigureDb, feedlineLossDb: 0, bandwidthHz: b });
        const cabled = systemNoise({ receiverNoiseFigureDb, feedlineLossDb, bandwidthHz: b });
        // Seen at the antenna: same signal, more noise. Seen at the receiver: less signal, same noise.
        expectNear(cabled.noisePowerDbm - bare.noisePowerDbm, feedlineLossDb, 1e-11);
        expectNear(cabled.receiverInputNoisePowerDbm, bare.noisePowerDbm, 1e-11);
        expectNear(cabled.systemNoiseFigureDb, receiverNoiseFigureDb + feedlineLossDb, 1e-11);
      }),
    ));
  test('the three temperatures add up, and a hotter cable is noisier', () =>
    fc.assert(
      fc.property(noiseFigureDb, lossDb, (receiverNoiseFigureDb, feedlineLossDb) => {
        const system = { receiverNoiseFigureDb, feedlineLossDb, bandwidthHz: 125e3 };
        const cold = systemNoise({ ...system, feedlineTemperatureC: -20 });
        const hot = systemNoise({ ...system, feedlineTemperatureC: 60 });
        expect(hot.noisePowerDbm).toBeGreaterThanOrEqual(cold.noisePowerDbm);
        const sum = hot.antennaTemperatureK + hot.feedlineNoiseTemperatureK + hot.receiverNoiseTemperatureK;
        expectNear(hot.systemTemperatureK / sum, 1, 1e-14);
      }),
    ));
});
