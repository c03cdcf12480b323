import {
  conductedLimitDbm,
  dwellIntervalSeconds,
  euBandPlan,
  minimumIntervalSeconds,
  subBandAt,
  usBandPlan,
  usRules,
} from '@finial/lora';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/lorawan-vectors.json' with { type: 'json' };

describe('European sub-bands against EN 300 220-2 table B.1 and ERC/REC 70-03', () => {
  test('the file still holds its rows', () =>
    expect([vectors.eu868SubBands.length, vectors.eu868ReservedGaps.length]).toEqual([6, 5]));

  test('the rows are all there', () =>
    expect(
      euBandPlan.subBands
        .filter(({ minHz }) => minHz >= 863e6)
        .map(({ minHz, maxHz, maxErpDbm, dutyCycleRatio }) => [minHz, maxHz, maxErpDbm, dutyCycleRatio]),
    ).toEqual(
      vectors.eu868SubBands.map(({ minHz, maxHz, maxErpDbm, dutyCycle }) => [
        minHz,
        maxHz,
        maxErpDbm,
        dutyCycle,
      ]),
    ));

  // 10 mW e.r.p., which is 12.15 dBm e.i.r.p., and 10 %: RP001 1.0.3revA section 2.5.2.
  test('the one stretch at 433 MHz', () =>
    expect(subBandAt({ jurisdiction: 'EU', frequencyHz: 433.175e6, bandwidthHz: 125e3 })).toMatchObject({
      subBand: { minHz: 433.05e6, maxHz: 434.79e6, maxErpDbm: 10, dutyCycleRatio: 0.1 },
    }));

  test.each(vectors.eu868SubBands)(
    'a narrow channel inside $minHz to $maxHz Hz',
    ({ minHz, maxHz, ...row }) => {
      const place = subBandAt({ jurisdiction: 'EU', frequencyHz: (minHz + maxHz) / 2, bandwidthHz: 25e3 });
      expect(place).toMatchObject({
        kind: 'inside',
        subBand: { maxErpDbm: row.maxErpDbm, dutyCycleRatio: row.dutyCycle },
      });
    },
  );

  test.each(vectors.eu868ReservedGaps)('$minHz to $maxHz Hz is kept for $use', ({ minHz, maxHz, use }) => {
    const place = subBandAt({ jurisdiction: 'EU', frequencyHz: (minHz + maxHz) / 2, bandwidthHz: 0 });
    expect(place.kind).toBe('reserved');
    const kept = place.kind === 'reserved' && place.reserved.use;
    expect(use).toContain(kept);
  });

  test.each([
    [868.6e6, 125e3, 'reserved'],
    [868.5375e6, 125e3, 'inside'],
    [868.5376e6, 125e3, 'reserved'],
    [869.525e6, 250e3, 'inside'],
    [868.0e6, 125e3, 'across-an-edge'],
    [862.9e6, 125e3, 'not-covered'],
    [863.0e6, 125e3, 'across-an-edge'],
    [902.3e6, 125e3, 'not-covered'],
  ] as const)('%i Hz with %i Hz: %s', (frequencyHz, bandwidthHz, kind) =>
    expect(subBandAt({ jurisdiction: 'EU', frequencyHz, bandwidthHz }).kind).toBe(kind),
  );

  test('a narrower channel is inside wherever a wider one is', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 862e6, max: 871e6, noNaN: true }),
        fc.double({ min: 0, max: 500e3, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (frequencyHz, bandwidthHz, ratio) => {
          const wide = subBandAt({ jurisdiction: 'EU', frequencyHz, bandwidthHz });
          if (wide.kind !== 'inside') return;
          const narrow = subBandAt({ jurisdiction: 'EU', frequencyHz, bandwidthHz: bandwidthHz * ratio });
          expect(narrow).toEqual(wide);
        },
      ),
    ));

  test.each([
    ['jurisdiction', 'UK'],
    ['frequencyHz', 868.1],
    ['frequencyHz', Number.NaN],
    ['bandwidthHz', -1],
    ['bandwidthHz', undefined],
  ] as const)('%s = %s is refused by name', (argument, value) => {
    const channel = { jurisdiction: 'EU', frequencyHz: 868.1e6, bandwidthHz: 125e3, [argument]: value };
    expect(() => subBandAt(channel as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  });
});

describe('47 CFR 15.247', () => {
  const ours: Readonly<Record<string, number>> = {
    'fhss-narrow-channels': usRules.minHoppingChannels,
    'fhss-narrow-dwell': usRules.hopping.dwellSeconds,
    'fhss-wide-channels': usRules.minWideHoppingChannels,
    'fhss-wide-dwell': usRules.hopping.dwellSeconds,
    'dts-min-6db-bandwidth': usRules.minDigitalBandwidthHz,
    'fhss-power-50': usRules.maxConductedPowerDbm,
    'fhss-power-25': usRules.maxFewChannelsPowerDbm,
    'dts-power': usRules.maxConductedPowerDbm,
    'antenna-gain-free': usRules.freeAntennaGainDbi,
    psd: usRules.maxDensityDbm,
    'hybrid-dwell-window': usRules.hybrid.dwellSeconds,
  };

  test('every row of the file is here', () =>
    expect(vectors.fcc15_247.map(({ id }) => id).sort()).toEqual(Object.keys(ours).sort()));

  test.each(vectors.fcc15_247)('$id: $value $unit', ({ id, value }) => expect(ours[id]).toBe(value));

  test('windows: 20 s whatever the number of channels, and the dwell time by the number of channels in hybrid operation', () => {
    expect(usRules.hopping.windowSeconds).toBe(20);
    expect(usRules.wideHoppingWindowSeconds).toBe(10);
    expect(usRules.hybrid.windowSeconds).toBeCloseTo(0.4 * usRules.hybrid.channelCount, 12);
    expect(usBandPlan.subBands.map(({ minHz, maxHz }) => [minHz, maxHz])).toEqual([[902e6, 928e6]]);
  });

  test.each(vectors.fccAntennaBackoff)(
    '$antennaGainDbi dBi of $baseConductedDbm dBm: $maxConductedDbm dBm',
    ({ antennaGainDbi, baseConductedDbm, maxConductedDbm, maxEirpDbm }) => {
      const got = conductedLimitDbm({ baseConductedPowerDbm: baseConductedDbm, antennaGainDbi });
      expect(got).toBeCloseTo(maxConductedDbm, 9);
      expect(got + antennaGainDbi).toBeCloseTo(maxEirpDbm, 9);
    },
  );

  test('no antenna makes more than 36 dBm', () =>
    fc.assert(
      fc.property(fc.double({ min: -20, max: 40, noNaN: true }), (antennaGainDbi) => {
        const limitDbm = conductedLimitDbm({ baseConductedPowerDbm: 30, antennaGainDbi });
        expect(limitDbm + antennaGainDbi).toBeLessThanOrEqual(36 + 1e-9);
        expect(limitDbm).toBeLessThanOrEqual(30);
      }),
    ));

  test.each(['baseConductedPowerDbm', 'antennaGainDbi'])('%s: NaN is refused by name', (argument) => {
    const backOff = { baseConductedPowerDbm: 30, antennaGainDbi: 0, [argument]: Number.NaN };
    expect(() => conductedLimitDbm(backOff)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  });
});

describe('pace', () => {
  // EN 300 220-1: the duty cycle is the time on air over the observation time, which is an hour (from memory).
  test('36 s an hour at 1 %, as the European duty cycle is usually told', () => {
    const interval = minimumIntervalSeconds({ timeOnAirSeconds: 36, dutyCycleRatio: 0.01 });
    expect(interval).toBeCloseTo(3600, 9);
  });

  test('time on air over interval is the duty cycle', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 1e-4, max: 100, noNaN: true }),
        fc.double({ min: 1e-3, max: 1, noNaN: true }),
        (timeOnAirSeconds, dutyCycleRatio) => {
          const interval = minimumIntervalSeconds({ timeOnAirSeconds, dutyCycleRatio });
          expect(timeOnAirSeconds / interval / dutyCycleRatio).toBeCloseTo(1, 12);
          expect(interval).toBeGreaterThanOrEqual(timeOnAirSeconds);
        },
      ),
    ));

  // 47 CFR 15.247(a)(1)(i): 0.4 s on any frequency within 20 s.
  test('whole frames count within a sliding window', () => {
    const rule = { dwellSeconds: 0.4, windowSeconds: 20 };
    expect(dwellIntervalSeconds({ ...rule, timeOnAirSeconds: 0.399872 })).toBe(20);
    expect(dwellIntervalSeconds({ ...rule, timeOnAirSeconds: 0.2 })).toBe(10);
    expect(dwellIntervalSeconds({ ...rule, timeOnAirSeconds: 0.201 })).toBe(20);
  });

  test('no window of the law ever holds more than the dwell time', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.4, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        fc.constantFrom(usRules.hopping, usRules.hybrid),
        (timeOnAirSeconds, startSeconds, rule) => {
          const interval = dwellIntervalSeconds({ ...rule, timeOnAirSeconds });
          const endSeconds = startSeconds + rule.windowSeconds;
          let used = 0;
          for (let frame = 0; frame * interval < endSeconds; frame++) {
            const from = Math.max(startSeconds, frame * interval);
            const to = Math.min(endSeconds, frame * interval + timeOnAirSeconds);
            used += Math.max(0, to - from);
          }
          expect(used).toBeLessThanOrEqual(rule.dwellSeconds + 1e-6);
        },
      ),
    ));

  test.each([
    ['timeOnAirSeconds', { timeOnAirSeconds: 0, dutyCycleRatio: 0.01 }],
    ['timeOnAirSeconds', { timeOnAirSeconds: Number.NaN, dutyCycleRatio: 0.01 }],
    ['dutyCycleRatio', { timeOnAirSeconds: 1, dutyCycleRatio: 1.01 }],
    ['dutyCycleRatio', { timeOnAirSeconds: 1, dutyCycleRatio: 0 }],
    ['dutyCycleRatio', { timeOnAirSeconds: 1, dutyCycleRatio: undefined as never }],
  ])('duty cycle: %s is refused by name', (argument, frame) =>
    expect(() => minimumIntervalSeconds(frame)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );

  test.each([
    ['timeOnAirSeconds', { timeOnAirSeconds: 0.41, dwellSeconds: 0.4, windowSeconds: 20 }],
    [
      'timeOnAirSeconds',
      { timeOnAirSeconds: Number.POSITIVE_INFINITY, dwellSeconds: 0.4, windowSeconds: 20 },
    ],
    ['dwellSeconds', { timeOnAirSeconds: 0.1, dwellSeconds: -1, windowSeconds: 20 }],
    ['windowSeconds', { timeOnAirSeconds: 0.1, dwellSeconds: 0.4, windowSeconds: 0.3 }],
  ])('dwell time: %s is refused by name', (argument, frame) =>
    expect(() => dwellIntervalSeconds(frame)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );
});
