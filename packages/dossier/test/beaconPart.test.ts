import { isInputError } from '@finial/units';
import { describe, expect, test } from 'vitest';
import { type BeaconPart, beaconPart } from '../src/beaconPart.js';
import { thinnedTimes } from '../src/beaconPoints.js';
import { chartShown } from '../src/page/beaconPicture.js';
import { beaconSection } from '../src/page/beaconSection.js';
import { day, moment, timeMark, years } from '../src/page/calendar.js';
import type { BeaconPlan } from '../src/plan.js';

const plan: BeaconPlan = { file: 'beacon.csv' };
const header = 'time_utc,counter,received,rssi_dbm,snr_db,temperature_c';
const start = Date.parse('2026-03-01T00:00:00Z');

/** What a row says beside its time and counter; `undefined` for a frame that was missed. */
type Frame = (index: number) => string | undefined;

/** Levels that repeat every five frames about -100 dBm: a spread without chance in it. */
const wobble = (index: number): number => -102 + ((index * 7) % 5);
const steady: Frame = (index) => `${wobble(index)},,`;

function log(count: number, frame: Frame, hours = 1): string {
  const rows = Array.from({ length: count }, (_, index) => {
    const time = new Date(start + index * hours * 3_600_000).toISOString();
    const cells = frame(index);
    return cells === undefined ? `${time},${index},0,,,` : `${time},${index},1,${cells}`;
  });
  return [header, ...rows].join('\n');
}

const rules = ({ findings }: BeaconPart): string[] =>
  findings.map(({ severity, rule }) => `${severity} ${rule}`);
const pageOf = (part: BeaconPart): string => beaconSection(part).markupText;
const refusal = (work: () => unknown): string => {
  try {
    return JSON.stringify(work());
  } catch (error) {
    return isInputError(error) ? error.message : `not an InputError: ${error}`;
  }
};

describe('the watch of a beacon', () => {
  test('finds the step that the log was made with', () => {
    const part = beaconPart(
      plan,
      log(500, (index) => `${wobble(index) - (index >= 400 ? 5 : 0)},,`),
    );
    expect(rules(part)).toEqual(['fix beacon-step-loss']);
    const alarm = part.drift?.alarms[0];
    expect(alarm?.onsetSeconds).toBe(start / 1000 + 400 * 3600);
    expect(alarm?.changeDb).toBeCloseTo(-5, 1);
    const page = pageOf(part);
    // 400 hours after 1 March 2026, 00:00 are 16 days and 16 hours.
    expect(page).toContain('Since 17\u00a0Mar\u00a02026 the level has fallen at once by 5.0\u00a0dB');
    expect(page).toContain('17\u00a0Mar\u00a02026, 16:00');
    expect(page).toContain('cumulative sums');
  });

  test('says so when nothing changed', () => {
    const part = beaconPart(plan, log(400, steady));
    expect(part.findings).toEqual([]);
    expect(pageOf(part)).toContain('no change of level and no silence');
    expect(pageOf(part)).not.toContain('The changes');
  });

  test('takes out the temperature that the log was made with', () => {
    const temperature = (index: number): number => (index * 5) % 24;
    const part = beaconPart(
      plan,
      log(400, (index) => `${wobble(index) - 0.25 * temperature(index)},,${temperature(index)}`),
    );
    expect(part.drift?.reference.temperatureSlopeDbPerK).toBeCloseTo(-0.25, 1);
    const spread = (of: (point: BeaconPart['points'][number]) => number): number => {
      const levels = part.points.map(of);
      return Math.max(...levels) - Math.min(...levels);
    };
    // The wobble spans 4 dB, 23 kelvin at 0.25 dB add 5.75 dB.
    expect(spread(({ steadyLevelDbm }) => steadyLevelDbm)).toBeLessThan(5);
    expect(spread(({ levelDbm }) => levelDbm)).toBeGreaterThan(9);
  });

  test('notices a beacon that fell silent, by its missed rows or by the end of the watch', () => {
    const silent = log(320, (index) => (index < 300 ? steady(index) : undefined));
    const byRows = beaconPart(plan, silent);
    expect(byRows.untilSeconds).toBe(start / 1000 + 319 * 3600);
    expect(rules(byRows)).toEqual(['fix beacon-outage']);
    const byPlan = beaconPart({ ...plan, untilTime: '2026-03-20T00:00:00Z' }, log(300, steady));
    expect(rules(byPlan)).toEqual(['fix beacon-outage']);
    expect(pageOf(byPlan)).toContain('It is silent now.');
    expect(pageOf(byPlan)).toContain('class="silence"');
  });

  test('a short log is no error', () => {
    const part = beaconPart(plan, log(60, steady));
    expect(part.drift).toBeUndefined();
    expect(part.driftMissing).toContain('beacon.csv has 60 readings; the watch wants at least 200');
    expect(rules(part)).toEqual(['note beacon-log-short']);
    expect(pageOf(part)).toContain('at least 200');
    expect(beaconPart({ ...plan, referenceCount: 50 }, log(60, steady)).drift).toBeDefined();
  });

  test('a level that wanders through the reference allows no watch', () => {
    const part = beaconPart(
      plan,
      log(300, (index) => `${-100 - index / 10},,`),
    );
    expect(rules(part)).toEqual(['fix beacon-reference-wanders']);
    expect(pageOf(part)).toContain('cannot tell what is normal');
  });

  test('a log without a received frame has days and no picture', () => {
    const part = beaconPart(
      plan,
      log(30, () => undefined),
    );
    expect([part.received, part.missed, part.days.map(({ missed }) => missed)]).toEqual([0, 30, [24, 6]]);
    expect(pageOf(part)).not.toContain('<svg');
  });
});

describe('what is not whole', () => {
  test('rows out of order are a finding where the plan skips them', () => {
    const rows = log(300, steady).split('\n');
    const text = [...rows.slice(0, 100), rows[50], ...rows.slice(100)].join('\n');
    const part = beaconPart({ ...plan, onBadRow: 'skip' }, text);
    expect(rules(part)).toEqual(['fix beacon-rows-skipped']);
    expect(part.findings[0]?.message).toContain('1 rows of beacon.csv could not be used; the first is line');
    expect(pageOf(part)).toContain('1 of 301 rows could not be used.');
    expect(refusal(() => beaconPart(plan, text))).toMatch(/^beacon\.csv \(line \d+, column 1\): timeUtc/);
  });

  test('gaps in the temperatures: none is used, and the page says so', () => {
    const part = beaconPart(
      plan,
      log(300, (index) => `${wobble(index)},,${index === 7 ? '' : 10 + (index % 3)}`),
    );
    expect(part.drift?.reference.temperatureSlopeDbPerK).toBeUndefined();
    expect(part.warnings[0]).toContain('1 of 300 readings have no temperature');
    expect(pageOf(part)).toContain('1 of 300 readings have no temperature');
  });

  test('an SNR with some readings only is a warning', () => {
    const part = beaconPart(
      plan,
      log(300, (index) => `${wobble(index)},${index < 250 ? 9 : ''},`),
    );
    expect(part.warnings[0]).toContain('50 of 300 readings have no SNR');
  });
});

describe('refusals name the key of the plan', () => {
  test.each<[string, object]>([
    ['beacon.stepDb: expected', { stepDb: 50 }],
    ['beacon.referenceCount: expected', { referenceCount: 7 }],
    [
      'beacon.untilTime: expected a time from 2026-03-13T11:00:00.000Z',
      { untilTime: '2026-03-02T00:00:00Z' },
    ],
    ['beacon.untilTime: expected', { untilTime: 'later' }],
    ['beacon.columns: expected one of', { columns: { level: 'rssi_dbm' } }],
    ['beacon.decimal: expected', { decimal: ';' }],
  ])('%s', (message, keys) => {
    expect(refusal(() => beaconPart({ ...plan, ...keys } as BeaconPlan, log(300, steady)))).toContain(
      message,
    );
  });
});

describe('the picture', () => {
  test('of many readings keeps what stood out', () => {
    const count = 9000;
    const text = log(count, (index) =>
      index % 50 === 9 ? undefined : `${index === 5432 ? -60 : index === 7777 ? -140 : wobble(index)},,`,
    );
    const { points, missedSeconds, received, missed } = beaconPart(plan, text);
    expect([received, missed]).toEqual([count - 180, 180]);
    expect(points.length).toBeLessThanOrEqual(1500);
    expect(points.length).toBeGreaterThan(700);
    const levels = points.map(({ levelDbm }) => levelDbm);
    expect([Math.min(...levels), Math.max(...levels)]).toEqual([-140, -60]);
    expect(
      points.every(({ timeSeconds }, index) => timeSeconds > (points[index - 1]?.timeSeconds ?? 0)),
    ).toBe(true);
    expect(missedSeconds).toHaveLength(180);
  });

  test('of many missed frames keeps no two that stand on one another', () => {
    const times = thinnedTimes(Array.from({ length: 20_000 }, (_, index) => index));
    expect(times.length).toBeLessThanOrEqual(1501);
    expect(times[0]).toBe(0);
    expect(thinnedTimes([])).toEqual([]);
  });

  test('shows the chart that found the loss that lasts', () => {
    const alarm = { direction: 'loss', onsetSeconds: 0, alarmSeconds: 1, changeDb: -3 } as const;
    const step = { ...alarm, shape: 'step', charts: ['cusum', 'ewma'] } as const;
    const slow = { ...alarm, shape: 'slow', charts: ['cusum', 'ewma'] } as const;
    expect(chartShown([])).toBe('ewma');
    expect(chartShown([slow, step])).toBe('cusum');
    expect(chartShown([slow, { ...step, endSeconds: 2 }])).toBe('ewma');
    expect(chartShown([{ ...step, charts: ['ewma'] }])).toBe('ewma');
  });

  test('has finite numbers only, a name and no foreign markup', () => {
    const hostile = '<script>alert(1)</script>.csv';
    for (const count of [1, 2, 60, 300]) {
      const page = pageOf(beaconPart({ file: hostile }, log(count, steady)));
      expect(page).not.toMatch(/NaN|Infinity|undefined|\[object|<script/);
      expect(page).toContain('role="img" aria-labelledby="beacon-level-title beacon-level-text"');
    }
  });
});

test('days and moments are those of UTC', () => {
  const seconds = Date.parse('2026-03-03T23:59:00Z') / 1000;
  expect(day(seconds)).toBe('3\u00a0Mar\u00a02026');
  expect(moment(seconds)).toBe('3\u00a0Mar\u00a02026, 23:59');
  expect([timeMark(seconds, 86_400), timeMark(seconds + 60, 86_400)]).toEqual(['23:59', '4 Mar']);
  expect(timeMark(seconds, 500 * 86_400)).toBe('Mar 2026');
  expect([years(seconds, seconds), years(seconds, seconds + 365 * 86_400)]).toEqual(['2026', '2026 to 2027']);
});

test('the days count what came and what did not', () => {
  const part = beaconPart(
    plan,
    log(48, (index) =>
      index === 3 ? undefined : `${index < 24 ? -100 - (index % 3) : -90},,${index < 24 ? 5 : 7}`,
    ),
  );
  // The first day: 7 × -100, 8 × -101, 8 × -102 dBm; the middle of 23 is the 12th.
  expect(part.days).toEqual([
    { date: '2026-03-01', received: 23, missed: 1, medianLevelDbm: -101, meanTemperatureC: 5 },
    { date: '2026-03-02', received: 24, missed: 0, medianLevelDbm: -90, meanTemperatureC: 7 },
  ]);
});
