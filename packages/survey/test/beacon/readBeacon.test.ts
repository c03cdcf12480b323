import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { beaconDrift, isInputError, type ReadBeaconOptions, readBeacon } from '../../src/index.js';

const header = 'time_utc,counter,received,rssi_dbm,snr_db,temperature_c';
const log = (...rows: string[]): string => [header, ...rows].join('\n');
const hour = (h: number, rest: string): string => `2026-03-01T${String(h).padStart(2, '0')}:00:00Z,${rest}`;
const good = log(hour(0, '1,1,-117,-16,4.5'), hour(1, '2,0,,,'), hour(2, '3,1,-100,,'));
// 2026-03-01T00:00:00Z by GNU date: date -u -d 2026-03-01T00:00:00Z +%s
const midnight = 1_772_323_200;

const refusal = (text: unknown, options?: ReadBeaconOptions): string => {
  try {
    return JSON.stringify(readBeacon(text as string, options));
  } catch (error) {
    return isInputError(error) ? error.message : `not an InputError: ${error}`;
  }
};

describe('a log of a beacon', () => {
  test('received frames become readings, missed ones are counted', () => {
    const { readings, ...counts } = readBeacon(good);
    expect(readings[0]).toMatchObject({ timeSeconds: midnight, temperatureC: 4.5 });
    // RSSI -117 dBm at an SNR of -16 dB is S + N with S/N = 10^-1.6: S = -117 - 16 - 10 lg(1.025119) = -133.1077 dBm.
    expect(readings[0]?.levelDbm).toBeCloseTo(-133.1077, 4);
    expect(readings[1]).toEqual({ timeSeconds: midnight + 7200, levelDbm: -100 });
    expect(counts).toEqual({
      missedCount: 1,
      missedSeconds: [midnight + 3600],
      withoutSnrCount: 1,
      withoutTemperatureCount: 1,
      skipped: [],
      rows: 3,
    });
  });

  test('byte order mark, CRLF, semicolons, decimal commas, comments and own names', () => {
    const text =
      '\uFEFF# roof\r\nwhen;level;ratio;lost\r\n2026-03-01T01:00:00+01:00;-117,5;-16;0\r\n\r\n2026-03-01T01:00:00Z;;;1\r\n';
    const { readings, missedCount } = readBeacon(text, {
      decimal: ',',
      commentPrefix: '#',
      columns: {
        timeUtc: 'when',
        rssiDbm: 'level',
        snrDb: 'ratio',
        received: { column: 'lost', inverted: true },
      },
    });
    expect(readings[0]?.timeSeconds).toBe(midnight);
    expect(readings[0]?.levelDbm).toBeCloseTo(-133.6077, 4);
    expect(missedCount).toBe(1);
  });

  test('seconds instead of a date; rows without a column for received are received', () => {
    const { readings } = readBeacon('timeSeconds,rssiDbm\n10,-100\n20,-101');
    expect(readings).toEqual([
      { timeSeconds: 10, levelDbm: -100 },
      { timeSeconds: 20, levelDbm: -101 },
    ]);
  });

  test('what is written is read back', () => {
    const frame = fc.record({
      step: fc.integer({ min: 1, max: 100_000_000 }),
      rssiDbm: fc.option(fc.double({ min: -150, max: -1, noNaN: true }), { nil: undefined }),
      // A zero has no sign in text.
      temperatureC: fc.option(
        fc.double({ min: -90, max: 90, noNaN: true }).map((value) => value + 0),
        { nil: undefined },
      ),
    });
    const property = fc.property(
      fc.array(frame, { minLength: 1, maxLength: 40 }),
      fc.constantFrom('.' as const, ',' as const),
      fc.constantFrom('\n', '\r\n', '\r'),
      (frames, decimal, lineEnd) => {
        let at = midnight * 1000;
        const timed = frames.map((each) => {
          at += each.step;
          return { ...each, milliseconds: at };
        });
        const cell = (value: number | undefined): string => String(value ?? '').replace('.', decimal);
        const rows = timed.map(({ milliseconds, rssiDbm, temperatureC }, index) =>
          [
            new Date(milliseconds).toISOString(),
            index,
            rssiDbm === undefined ? 0 : 1,
            cell(rssiDbm),
            '',
            cell(temperatureC),
          ].join(';'),
        );
        const text = [header.replaceAll(',', ';'), ...rows].join(lineEnd);
        const { readings, missedSeconds, skipped, rows: count } = readBeacon(text, { decimal });
        const received = timed.filter(({ rssiDbm }) => rssiDbm !== undefined);
        expect(readings).toEqual(
          received.map(({ milliseconds, rssiDbm, temperatureC }) => ({
            timeSeconds: milliseconds / 1000,
            levelDbm: rssiDbm,
            ...(temperatureC === undefined ? {} : { temperatureC }),
          })),
        );
        const missed = timed.filter(({ rssiDbm }) => rssiDbm === undefined);
        expect(missedSeconds).toEqual(missed.map(({ milliseconds }) => milliseconds / 1000));
        expect([skipped, count]).toEqual([[], frames.length]);
      },
    );
    fc.assert(property);
  });
});

describe('order of time', () => {
  const rows = [hour(0, '1,1,-100,,'), hour(2, '2,1,-100,,'), hour(1, '3,1,-100,,'), hour(3, '4,1,-100,,')];
  test('a row out of order is refused with line and column', () => {
    expect(refusal(log(...rows), { file: 'b.csv' })).toContain(
      'b.csv (line 3, column 1): timeUtc: expected a time after the rows above and before the rows below (column "time_utc")',
    );
  });
  test('a time that repeats is refused', () => {
    expect(refusal(log(hour(0, '1,1,-100,,'), hour(0, '1,0,,,')))).toContain(
      'timeUtc: expected a time after',
    );
  });
  test('one clock from the far future costs one row', () => {
    const text = log(
      rows[0] as string,
      '2095-01-01T00:00:00Z,2,1,-90,,',
      rows[1] as string,
      rows[3] as string,
    );
    const { readings, skipped, rows: count } = readBeacon(text, { onBadRow: 'skip' });
    expect(readings.map(({ timeSeconds }) => timeSeconds - midnight)).toEqual([0, 7200, 10_800]);
    expect(skipped).toMatchObject([{ line: 3, column: 1, field: 'timeUtc' }]);
    expect(skipped[0]?.text).toContain('2095');
    expect(count).toBe(4);
  });
  test('every row is a reading, a missed frame or skipped; what is kept rises', () => {
    const time = fc.integer({ min: 0, max: 30 });
    const property = fc.property(fc.array(time, { minLength: 1, maxLength: 30 }), (times) => {
      const text = ['timeSeconds,received,rssiDbm']
        .concat(times.map((at, index) => (index % 3 === 0 ? `${at},0,` : `${at},1,-100`)))
        .join('\n');
      const read = readBeacon(text, { onBadRow: 'skip' });
      const all = [...read.readings.map(({ timeSeconds }) => timeSeconds), ...read.missedSeconds];
      expect(all.length + read.skipped.length).toBe(times.length);
      expect(new Set(all).size).toBe(all.length);
      const left = times.filter((_, index) => !read.skipped.some(({ line }) => line === index + 2));
      expect(left).toEqual([...all].sort((one, other) => one - other));
    });
    fc.assert(property);
  });
});

describe('bad rows', () => {
  test.each([
    ['no level', hour(5, '9,1,,,'), 'rssiDbm: expected a level in dBm'],
    ['a missed frame with a level', hour(5, '9,0,-100,,'), 'rssiDbm: expected nothing'],
    ['a missed frame with an SNR', hour(5, '9,0,,3,'), 'snrDb: expected nothing'],
    ['neither received nor missed', hour(5, '9,,-100,,'), 'received: expected a value'],
    ['no zone', '2026-03-01T05:00:00,9,1,-100,,', 'timeUtc: expected a time such as'],
    ['no time', ',9,1,-100,,', 'timeUtc: expected a value'],
    ['a year that no reading can have', '9999-03-01T05:00:00Z,9,1,-100,,', 'a time from 1843'],
    ['a decimal comma', hour(5, '9,1,"-100,5",,'), 'a number with a decimal point'],
    ['a formula', hour(5, '9,1,=1+1,,'), 'rssiDbm: expected a number'],
    ['Infinity', hour(5, '9,1,Infinity,,'), 'rssiDbm: expected a number'],
    ['hot', hour(5, '9,1,-100,,91'), 'temperatureC: expected'],
    ['a signal below all', hour(5, '9,1,-250,-20,'), 'leaves a signal of -250 dBm'],
    ['too many cells', hour(5, '9,1,-100,,,,'), '6 fields as in the header'],
    ['an open quote', `"${hour(5, '9,1,-100,,')}`, 'quotes around a whole field'],
    ['markup', hour(5, '<script>,1,-100,,'), 'counter: expected a number'],
  ])('%s', (_, bad, message) => {
    const text = log(hour(0, '1,1,-100,,'), bad, hour(6, '3,1,-101,,'));
    expect(refusal(text, { file: 'b.csv' })).toContain('b.csv (line 3');
    expect(refusal(text)).toContain(message);
    const { readings, skipped, rows } = readBeacon(text, { onBadRow: 'skip' });
    expect(readings.map(({ levelDbm }) => levelDbm)).toEqual([-100, -101]);
    expect(skipped).toMatchObject([{ line: 3, text: bad }]);
    expect(rows).toBe(3);
  });
});

test.each<[string, unknown, object | undefined]>([
  ['input: expected a text', 7, undefined],
  ['beacon: expected a header line and rows', ' ', undefined],
  ['at least one row below the header', header, undefined],
  ['a column "timeUtc"', 'rssi_dbm\n-100', undefined],
  ['a column "rssiDbm"', 'time_utc\n2026-03-01T00:00:00Z', undefined],
  ['a column "level"', good, { columns: { rssiDbm: 'level' } }],
  ['one column, or a choice in columns.rssiDbm', 'timeSeconds,rssiDbm,rssi_dbm\n1,-1,-2', undefined],
  ['columns: expected one of timeUtc', good, { columns: { level: 'rssi_dbm' } }],
  ['columns.rssiDbm.unit: expected no unit', good, { columns: { rssiDbm: { column: 'a', unit: 'W' } } }],
  ['decimal: expected', good, { decimal: ';' }],
  ['onBadRow: expected', good, { onBadRow: 'stop' }],
])('%s', (message, text, options) => {
  expect(refusal(text, options as ReadBeaconOptions)).toContain(message);
});

test('a gap in the temperatures is not filled, and the watch says what it wants', () => {
  const rows = Array.from(
    { length: 80 },
    (_, index) => `${index * 3600},${-100 - (index % 3)},${index === 7 ? '' : 10}`,
  );
  const { readings, withoutTemperatureCount } = readBeacon(
    ['timeSeconds,rssiDbm,temperatureC', ...rows].join('\n'),
  );
  expect(withoutTemperatureCount).toBe(1);
  expect(() => beaconDrift(readings, { referenceCount: 50 })).toThrow('series[7].temperatureC');
  expect(beaconDrift(readings, { referenceCount: 50, temperature: 'ignore' }).alarms).toEqual([]);
});
