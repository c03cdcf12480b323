import { describe, expect, test } from 'vitest';
import { isInputError, type ReadUplinksOptions, readUplinks } from '../src/index.js';

const record = {
  at: '2024-07-24T06:11:29Z',
  frame: { n: 7, 'data.rate': 'DR0' },
  heard: [
    { by: 'roof', rssi: -117, snr: -16 },
    { by: 'hill', rssi: -101 },
  ],
  tx: { mhz: 865.9 },
};
const columns = { timeUtc: 'at', counter: 'frame.n', dataRate: 'frame.data.rate' };
const lines = (...records: unknown[]): string => records.map((one) => JSON.stringify(one)).join('\n');

const refusal = (text: unknown, options?: ReadUplinksOptions): string => {
  try {
    return JSON.stringify(readUplinks(text as string, options));
  } catch (error) {
    return isInputError(error) ? error.message : `not an InputError: ${error}`;
  }
};

describe('NDJSON', () => {
  test('dotted paths, entries of lists by number, keys with dots, units', () => {
    const { uplinks } = readUplinks(lines(record), {
      columns: { ...columns, rssiDbm: 'heard.1.rssi', frequencyHz: { column: 'tx.mhz', unit: 'MHz' } },
    });
    expect(uplinks).toEqual([
      { timeUtc: record.at, counter: 7, dataRate: 'DR0', frequencyHz: 865.9e6, rssiDbm: -101, line: 1 },
    ]);
  });
  const each = { ...columns, gateway: 'heard.by', rssiDbm: 'heard.rssi', snrDb: 'heard.snr' };
  test('one uplink per gateway; absent is not zero unless the caller says so', () => {
    const of = (options: ReadUplinksOptions): unknown[] =>
      readUplinks(lines(record), { each: 'heard', columns: each, ...options }).uplinks.map(
        ({ gateway, snrDb }) => [gateway, snrDb],
      );
    expect(of({})).toEqual([
      ['roof', -16],
      ['hill', undefined],
    ]);
    expect(of({ absentIsZero: ['snrDb'] })).toEqual([
      ['roof', -16],
      ['hill', 0],
    ]);
  });
  test('a dropped counter 0 comes back next to a level, and only there', () => {
    const text = lines({ time_utc: record.at, rssi_dbm: -90 }, { time_utc: record.at });
    const { uplinks } = readUplinks(text, { absentIsZero: ['counter'] });
    expect(uplinks.map(({ counter }) => counter)).toEqual([0, undefined]);
  });
  test.each([
    [
      '{"timeUtc":"2024-07-24T06:11:29Z",}',
      'uplinks (line 2, column 35): expected JSON with a key in quotes here',
    ],
    ['[1]', 'a JSON object on each line'],
    ['{"counter":1}', 'timeUtc: expected a value'],
    ['{"timeUtc":"2024-07-24T06:11:29Z","counter":-1}', 'counter: expected a whole number'],
    ['{"timeUtc":"2024-07-24T06:11:29Z","rssiDbm":1,"rssi_dbm":2}', 'one name of the field, not two'],
    ['{"timeUtc":"24.7.2024"}', 'timeUtc: expected a time'],
    ['{"timeUtc":{"$date":1}}', 'timeUtc: expected a time'],
  ])('bad line %s', (bad, message) => {
    const text = `{"timeUtc":"2024-07-24T06:11:29Z"}\n${bad}\n\n{"timeUtc":"2024-07-24T06:11:30Z"}`;
    expect(refusal(text)).toContain(message);
    const { uplinks, skipped, rows } = readUplinks(text, { onBadRow: 'skip' });
    expect(uplinks.map(({ line }) => line)).toEqual([1, 4]);
    expect(skipped).toMatchObject([{ line: 2, text: bad }]);
    expect(rows).toBe(3);
  });
  test('a path that no record has is a spelling mistake', async () => {
    const options = { columns: { ...columns, rssiDbm: 'herd.0.rssi' } };
    expect(refusal(lines(record, record), options)).toContain('some record with the property "herd.0.rssi"');
    await expect(readUplinks(pieces(lines(record), 5), options)).rejects.toThrow('herd.0.rssi');
  });
  test('a list without entries', () => {
    expect(refusal(lines({ ...record, heard: [] }), { each: 'heard', columns })).toContain(
      'heard: expected a list with',
    );
  });
  test('keys of the prototype are no fields', () => {
    expect(refusal(lines({ timeUtc: record.at }), { columns: { device: 'constructor.name' } })).toContain(
      'some record',
    );
  });
});

async function* pieces(text: string, length: number): AsyncGenerator<string> {
  for (let at = 0; at < text.length; at += length) yield text.slice(at, at + length);
}

test('in pieces cut anywhere', async () => {
  const text = `${lines(record, { ...record, frame: { n: 8 } })}\r\n`;
  const whole = readUplinks(text, { columns });
  for (const length of [1, 5, 1000])
    expect(await readUplinks(pieces(text, length), { columns })).toEqual(whole);
});

test('CSV by header, marks without a number are bad rows', () => {
  const text = 'time_utc;counter;rssi_dbm\n2024-07-24T06:11:29Z;7;-117\n2024-07-24T06:11:30Z;start;-100\n';
  const { uplinks, skipped } = readUplinks(text, { onBadRow: 'skip' });
  expect(uplinks).toEqual([{ timeUtc: '2024-07-24T06:11:29Z', counter: 7, rssiDbm: -117, line: 2 }]);
  expect(skipped).toMatchObject([{ line: 3, field: 'counter' }]);
});

test.each<[string, unknown, object | undefined]>([
  ['input: expected a text', 7, undefined],
  ['input.length: expected at most 3', '{"timeUtc":1}', { maximumCharacters: 3 }],
  ["format: expected 'csv' or 'ndjson'", '{}', { format: 'geojson' }],
  ['each: expected a dotted path', '{}', { each: 1 }],
  ['each: expected nothing', 'time_utc\n2024-07-24T06:11:29Z', { each: 'a' }],
  ['absentIsZero: expected', '{}', { absentIsZero: ['rssiDbm'] }],
  ['absentIsZero: expected a list', '{}', { absentIsZero: 'snrDb' }],
  ['columns: expected one of', '{}', { columns: { rssi: 'a' } }],
  ['column "timeUtc"', 'a,b\n1,2', undefined],
  ['a line of JSON', ' ', undefined],
])('%s', (message, text, options) => {
  expect(refusal(text, options as ReadUplinksOptions)).toContain(message);
});
