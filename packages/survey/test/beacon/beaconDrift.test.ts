import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type BeaconDriftOptions, type BeaconReading, beaconDrift } from '../../src/index.js';
import { seededNormal, seededUniform } from './seededNormal.js';

const hour = 3600;

interface Weather {
  readonly seed: number;
  readonly count: number;
  readonly likeness?: number;
  readonly slopeDbPerK?: number;
  readonly changeDb?: (index: number) => number;
  readonly isMissed?: (index: number) => boolean;
}

/** Hourly beacon at -100 dBm, 2 dB of spread, temperature of days and of the year. */
function beacon({
  seed,
  count,
  likeness = 0,
  slopeDbPerK = 0,
  changeDb = () => 0,
  isMissed = () => false,
}: Weather): BeaconReading[] {
  const normal = seededNormal(seed);
  let noise = normal();
  return Array.from({ length: count }, (_, index) => {
    noise = likeness * noise + Math.sqrt(1 - likeness * likeness) * normal();
    const temperatureC =
      12 + 6 * Math.sin((2 * Math.PI * index) / 24) + 9 * Math.sin((2 * Math.PI * index) / 700);
    const levelDbm = -100 + 2 * noise + slopeDbPerK * (temperatureC - 12) + changeDb(index);
    return { timeSeconds: index * hour, levelDbm, temperatureC };
  }).filter((_, index) => !isMissed(index));
}

// At the default run length two charts would cry wolf once in 1000 readings, which is right but no help here.
const long: BeaconDriftOptions = { referenceCount: 700, resolutionDb: 0.01, averageRunLengthCount: 1e5 };

describe('what happened is found', () => {
  test('nothing: no alarm', () => {
    const { alarms, outages, findings } = beaconDrift(beacon({ seed: 1, count: 1500 }), long);
    expect([alarms, outages, findings]).toEqual([[], [], []]);
  });

  test('a step of 4 dB: when, how much, and that it lasts', () => {
    const series = beacon({ seed: 2, count: 1200, changeDb: (index) => (index >= 900 ? -4 : 0) });
    const { alarms, findings } = beaconDrift(series, long);
    expect(alarms).toHaveLength(1);
    expect(alarms[0]).toMatchObject({ direction: 'loss', shape: 'step' });
    expect(Math.abs((alarms[0]?.onsetSeconds ?? 0) - 900 * hour)).toBeLessThanOrEqual(5 * hour);
    expect(alarms[0]?.alarmSeconds).toBeLessThanOrEqual(912 * hour);
    // 300 readings of 2 dB: standard error 0.12 dB.
    expect(Math.abs((alarms[0]?.changeDb ?? 0) + 4)).toBeLessThan(0.4);
    expect(alarms[0]).not.toHaveProperty('endSeconds');
    expect(findings).toEqual([expect.objectContaining({ rule: 'beacon-step-loss', severity: 'fix' })]);
  });

  test('a slow loss of 1 dB in 100 hours is called slow, with its slope', () => {
    const series = beacon({ seed: 3, count: 1500, changeDb: (index) => -Math.max(0, index - 900) / 100 });
    const { alarms } = beaconDrift(series, long);
    expect(alarms).toHaveLength(1);
    expect(alarms[0]).toMatchObject({ direction: 'loss', shape: 'slow' });
    expect((alarms[0]?.slopeDbPerSecond ?? 0) * 100 * hour).toBeCloseTo(-1, 0);
    expect(Math.abs((alarms[0]?.changeDb ?? 0) + 6)).toBeLessThan(0.8);
    expect(Math.abs((alarms[0]?.onsetSeconds ?? 0) - 900 * hour)).toBeLessThan(80 * hour);
  });

  test('a wet week comes and goes: the alarm ends, and is a note', () => {
    const wet = (index: number): number => (index >= 900 && index < 1060 ? -5 : 0);
    const { alarms, findings } = beaconDrift(beacon({ seed: 4, count: 1400, changeDb: wet }), long);

    expect(alarms).toHaveLength(1);
    expect(Math.abs((alarms[0]?.endSeconds ?? 0) - 1060 * hour)).toBeLessThanOrEqual(5 * hour);
    expect(Math.abs((alarms[0]?.changeDb ?? 0) + 5)).toBeLessThan(0.6);
    expect(findings[0]?.severity).toBe('note');
  });

  test('a rise is told from a loss', () => {
    const series = beacon({ seed: 5, count: 1000, changeDb: (index) => (index >= 850 ? 3 : 0) });
    expect(beaconDrift(series, long).alarms).toMatchObject([{ direction: 'rise', shape: 'step' }]);
  });

  test('one fade of 30 dB alone is no drift', () => {
    const series = beacon({ seed: 6, count: 1000, changeDb: (index) => (index === 850 ? -30 : 0) });
    expect(beaconDrift(series, long).alarms).toEqual([]);
  });
});

describe('temperature', () => {
  const warm = beacon({ seed: 7, count: 1500, slopeDbPerK: -0.3 });

  test('is taken out: its slope is found and it raises no alarm', () => {
    const { reference, alarms } = beaconDrift(warm, long);
    const error = reference.slopeStandardErrorDbPerK ?? NaN;
    expect(Math.abs((reference.temperatureSlopeDbPerK ?? NaN) + 0.3)).toBeLessThan(4 * error);
    expect(error).toBeLessThan(0.02);
    expect(alarms).toEqual([]);
  });
  test('ignored, it looks like drift', () => {
    const { alarms } = beaconDrift(warm, { ...long, temperature: 'ignore' });
    expect(alarms.length).toBeGreaterThan(0);
  });
  test('outside the reference period it is a guess, and said to be', () => {
    const { warnings } = beaconDrift(warm, { referenceCount: 100 });
    expect(warnings.join(' ')).toContain('warmer or colder than the reference period');
  });
  test('missing in one reading is refused by place', () => {
    const series = warm.map((reading, index) =>
      index === 9 ? { ...reading, temperatureC: undefined } : reading,
    );
    expect(() => beaconDrift(series)).toThrow(
      expect.objectContaining({ code: 'missing', argument: 'series[9].temperatureC' }),
    );
  });
});

describe('the reference period is robust', () => {
  test('one reading in twenty 20 dB too low moves level and slope little', () => {
    const uniform = seededUniform(5);
    const dirty = beacon({ seed: 8, count: 700, slopeDbPerK: -0.2 }).map((reading) =>
      uniform() < 0.05 ? { ...reading, levelDbm: reading.levelDbm - 20 } : reading,
    );
    const { reference } = beaconDrift(dirty, long);
    expect(Math.abs((reference.temperatureSlopeDbPerK ?? NaN) + 0.2)).toBeLessThan(0.06);
    expect(reference.deviationDb).toBeGreaterThan(1.8);
    expect(reference.deviationDb).toBeLessThan(2.3);
    expect(reference.outlierCount).toBeGreaterThan(15);
  });
  test('likeness of neighbours is found, and keeps false alarms away', () => {
    const wandering = beacon({ seed: 9, count: 4000, likeness: 0.6 });
    const { reference, alarms } = beaconDrift(wandering, long);
    expect(Math.abs(reference.neighbourRatio - 0.6)).toBeLessThan(0.1);
    expect(alarms).toEqual([]);
  });
  test('equal readings have the spread of the step in which they are reported', () => {
    const flat = Array.from({ length: 60 }, (_, index) => ({ timeSeconds: index * hour, levelDbm: -90 }));
    expect(beaconDrift(flat, { referenceCount: 50 }).reference.deviationDb).toBeCloseTo(
      1 / Math.sqrt(12),
      12,
    );
  });
});

test('false alarms come as seldom as stated: simulation with and without likeness of neighbours', () => {
  const wanted = 200;
  for (const likeness of [0, 0.5]) {
    let first = 0;
    const runs = 60;
    for (let run = 0; run < runs; run += 1) {
      const series = beacon({ seed: 100 + run, count: 3600, likeness }).map(({ timeSeconds, levelDbm }) => ({
        timeSeconds,
        levelDbm,
      }));
      const { points } = beaconDrift(series, {
        referenceCount: 2000,
        averageRunLengthCount: wanted,
        weightRatio: 0.2,
        resolutionDb: 0.01,
      });
      const alarm = points.findIndex(({ ewmaRatio }) => Math.abs(ewmaRatio) > 1);
      expect(alarm).toBeGreaterThan(0);
      first += alarm - 2000 + 1;
    }
    // 60 runs give the mean within 13 %; an inexact reference shortens it a little.
    expect(first / runs).toBeGreaterThan(0.6 * wanted);
    expect(first / runs).toBeLessThan(1.4 * wanted);
  }
});

describe('outages', () => {
  test('a silence is found with its frames, usual single losses are not', () => {
    const uniform = seededUniform(3);
    const lost = Array.from({ length: 1000 }, () => uniform() < 0.05);
    const isMissed = (index: number): boolean => (lost[index] ?? false) || (index > 800 && index <= 830);
    const { outages, reference, outageFrames, outageRunLengthCount } = beaconDrift(
      beacon({ seed: 11, count: 1000, isMissed }),
      long,
    );
    expect(outages).toHaveLength(1);
    expect(outages[0]?.missedFrames).toBeGreaterThanOrEqual(30);
    expect(outages[0]?.missedFrames).toBeLessThanOrEqual(32);
    expect(Math.abs(reference.missedRatio - 0.05)).toBeLessThan(0.025);
    expect(outageFrames).toBeGreaterThanOrEqual(3);
    expect(outageRunLengthCount).toBeGreaterThanOrEqual(1e5);
  });
  test('a beacon that falls silent is noticed only with an end of the watch', () => {
    const series = beacon({ seed: 12, count: 800 });
    expect(beaconDrift(series, long).outages).toEqual([]);
    const { outages, findings } = beaconDrift(series, { ...long, untilSeconds: 810 * hour });
    // Last heard at hour 799: frames of hours 800 to 809 are surely missed, that of 810 may be late.
    expect(outages).toEqual([{ lastHeardSeconds: 799 * hour, missedFrames: 10 }]);
    expect(findings[0]).toMatchObject({ rule: 'beacon-outage', severity: 'fix' });
  });
});

describe('properties', () => {
  const series = beacon({ seed: 13, count: 400, changeDb: (index) => (index >= 300 ? -4 : 0) });
  test('another level or epoch changes nothing but level and epoch', () => {
    const here = beaconDrift(series);
    fc.assert(
      fc.property(
        fc.integer({ min: -40, max: 40 }),
        fc.integer({ min: -1e6, max: 1e6 }),
        (shiftDb, epoch) => {
          const moved = beaconDrift(
            series.map((reading) => ({
              ...reading,
              timeSeconds: reading.timeSeconds + epoch * hour,
              levelDbm: reading.levelDbm + shiftDb,
            })),
          );
          expect(moved.alarms).toHaveLength(here.alarms.length);
          expect(moved.reference.levelDbm - here.reference.levelDbm).toBeCloseTo(shiftDb, 6);
          expect(moved.alarms[0]?.changeDb).toBeCloseTo(here.alarms[0]?.changeDb ?? NaN, 5);
        },
      ),
      { numRuns: 10 },
    );
  });
  test('an alarm tells of a change in its own direction that began before it, whatever follows', () => {
    const change = fc.integer({ min: -9, max: 9 });
    const when = fc.integer({ min: 1, max: 40 });
    const changes = fc.array(fc.tuple(when, change), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(changes, fc.integer({ min: 1, max: 99 }), (steps, seed) => {
        const levels: number[] = [];
        for (const [readings, level] of steps) levels.push(...Array<number>(readings).fill(level));
        const changed = beacon({
          seed,
          count: 220 + levels.length,
          changeDb: (index) => levels[index - 210] ?? 0,
        });
        for (const { direction, changeDb, onsetSeconds, alarmSeconds } of beaconDrift(changed).alarms) {
          expect(Math.sign(changeDb)).toBe(direction === 'loss' ? -1 : 1);
          expect(onsetSeconds).toBeLessThanOrEqual(alarmSeconds);
        }
      }),
      { numRuns: 60 },
    );
  });
  test('readings out of order, and too few, are refused', () => {
    expect(() => beaconDrift([...series].reverse())).toThrow(
      expect.objectContaining({ argument: 'series[1].timeSeconds' }),
    );
    expect(() => beaconDrift(series.slice(0, 100))).toThrow(
      expect.objectContaining({ code: 'missing', argument: 'series' }),
    );
    expect(() => beaconDrift(series, { untilSeconds: 5 })).toThrow(
      expect.objectContaining({ argument: 'untilSeconds' }),
    );
  });
});
