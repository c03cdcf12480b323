import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  isInputError,
  type Observation,
  type ReadSurveyOptions,
  readSurvey,
  surveyCsv,
} from '../src/index.js';
import { sharedData } from './sharedData.js';

const refusal = (input: unknown, options?: unknown): unknown => {
  try {
    return readSurvey(input as string, options as ReadSurveyOptions);
  } catch (error) {
    return isInputError(error) ? error : `not an InputError: ${error}`;
  }
};

const header = 'timeUtc,spot,latitudeDeg,longitudeDeg,received,rssiDbm,snrDb';
const good = '2024-07-24T05:43:12Z,bridge,45.7,4.9,1,-110,-7.5';
const missed = '2024-07-24T05:43:21Z,bridge,45.7,4.9,0,,';

describe('CSV', () => {
  test('two frames, one missed', () => {
    expect(readSurvey([header, good, missed].join('\n'))).toEqual({
      observations: [
        {
          timeUtc: '2024-07-24T05:43:12Z',
          spot: 'bridge',
          latitudeDeg: 45.7,
          longitudeDeg: 4.9,
          received: true,
          rssiDbm: -110,
          snrDb: -7.5,
          line: 2,
        },
        {
          timeUtc: '2024-07-24T05:43:21Z',
          spot: 'bridge',
          latitudeDeg: 45.7,
          longitudeDeg: 4.9,
          received: false,
          line: 3,
        },
      ],
      skipped: [],
      rows: 2,
    });
  });
  const plain = readSurvey([header, good, missed].join('\n')).observations;
  test.each([
    ['byte order mark', `\uFEFF${header}\n${good}\n${missed}`],
    ['CRLF and an end', `${header}\r\n${good}\r\n${missed}\r\n`],
    ['CR alone', `${header}\r${good}\r${missed}`],
    ['semicolons', [header, good, missed].join('\n').replaceAll(',', ';')],
    ['tabs', [header, good, missed].join('\n').replaceAll(',', '\t')],
    ['bars', [header, good, missed].join('\n').replaceAll(',', '|')],
    ['spaces around fields', [header, good, missed].join('\n').replaceAll(',', ' , ')],
    ['quotes around all', [header, good, missed].join('\n').replace(/[^,\n]+/g, '"$&"')],
  ])('%s', (_, text) => {
    expect(readSurvey(text).observations).toEqual(plain);
  });
  test('underscored names, other columns and blank and comment lines are no trouble, and lines are counted through them', () => {
    const text =
      '# a walk\n\nlatitude_deg,longitude_deg,received,note\n# begins\n1,2,yes,"two\nlines, ""quoted"""\n   \n3,4,FALSE,x\n';
    const { observations } = readSurvey(text, { commentPrefix: '#' });
    expect(observations).toEqual([
      { latitudeDeg: 1, longitudeDeg: 2, received: true, line: 5 },
      { latitudeDeg: 3, longitudeDeg: 4, received: false, line: 8 },
    ]);
  });
  test('a line break of two characters inside quotes counts as one line', () => {
    const text = 'latitudeDeg,longitudeDeg,received,spot\r\n1,2,1,"a\r\nb"\r\n3,4,0,c\r\n';
    expect(readSurvey(text).observations).toEqual([
      { latitudeDeg: 1, longitudeDeg: 2, received: true, spot: 'a\nb', line: 2 },
      { latitudeDeg: 3, longitudeDeg: 4, received: false, spot: 'c', line: 4 },
    ]);
  });
  test('columns by name, with units and a column of the lost frames', () => {
    const text =
      'Breite;Länge;MHz;kHz;km;Leistung;weg\n45,5;4;868,1;125;1,25;25;nein\n45,6;4;867,9;500;0,1;500;0'.replace(
        'nein',
        'no',
      );
    const { observations } = readSurvey(text, {
      decimal: ',',
      columns: {
        latitudeDeg: 'Breite',
        longitudeDeg: { column: 'Länge' },
        frequencyHz: { column: 'MHz', unit: 'MHz' },
        bandwidthHz: { column: 'kHz', unit: 'kHz' },
        distanceM: { column: 'km', unit: 'km' },
        conductedPowerDbm: { column: 'Leistung', unit: 'mW' },
        received: { column: 'weg', inverted: true },
      },
    });
    expect(observations[0]).toMatchObject({
      latitudeDeg: 45.5,
      frequencyHz: 868.1e6,
      bandwidthHz: 125e3,
      distanceM: 1250,
    });
    expect(observations.map(({ received }) => received)).toEqual([true, true]);
    // 25 mW is 13.98 dBm, the limit in EN 300 220.
    expect(observations[0]?.conductedPowerDbm).toBeCloseTo(13.9794, 4);
  });
  test('feet and miles', () => {
    const text = 'latitudeDeg,longitudeDeg,received,d\n1,2,0,10\n';
    const read = (unit: 'ft' | 'mi'): number | undefined =>
      readSurvey(text, { columns: { distanceM: { column: 'd', unit } } }).observations[0]?.distanceM;
    expect(read('ft')).toBeCloseTo(3.048, 12);
    expect(read('mi')).toBeCloseTo(16093.44, 9);
  });
  test('an offset becomes UTC, a blank stands for T', () => {
    const at = (time: string): string | undefined =>
      readSurvey(`timeUtc,latitudeDeg,longitudeDeg,received\n${time},1,2,0`).observations[0]?.timeUtc;
    expect(at('2024-07-24 07:43:12+02:00')).toBe('2024-07-24T05:43:12.000Z');
    expect(at('2024-02-29T23:59:59.123456Z')).toBe('2024-02-29T23:59:59.123456Z');
  });
  test('a log without RSSI still counts frames', () => {
    const { observations } = readSurvey('latitudeDeg,longitudeDeg,received\n1,2,1\n');
    expect(observations).toEqual([{ latitudeDeg: 1, longitudeDeg: 2, received: true, line: 2 }]);
  });
  test('a zero is a value, an empty cell is none', () => {
    const [zero, empty] = readSurvey(
      'latitudeDeg,longitudeDeg,received,rssiDbm,snrDb\n0,0,1,-100,0\n0,0,1,-100,\n',
    ).observations;
    expect(zero?.snrDb).toBe(0);
    expect(empty).not.toHaveProperty('snrDb');
  });
});

describe('a bad row', () => {
  const row = (
    cells: Partial<Record<'time' | 'lat' | 'lon' | 'received' | 'rssi' | 'snr', string>>,
  ): string => {
    const { time = '', lat = '1', lon = '2', received = '1', rssi = '-100', snr = '' } = cells;
    return `${header}\n${good}\n${time},x,${lat},${lon},${received},${rssi},${snr}\n${missed}`;
  };
  const cases = [
    ['latitude 91', row({ lat: '91' }), 'latitudeDeg', 3, '-90 to 90 degrees', 91],
    ['no latitude', row({ lat: '' }), 'latitudeDeg', 3, 'a value', undefined],
    ['text NaN', row({ rssi: 'NaN' }), 'rssiDbm', 6, 'a number with a decimal point', 'NaN'],
    ['text Infinity', row({ rssi: '-Infinity' }), 'rssiDbm', 6, 'a number', '-Infinity'],
    ['a number too great for a double', row({ rssi: '1e999' }), 'rssiDbm', 6, 'dBm', Infinity],
    ['hexadecimal', row({ rssi: '0x10' }), 'rssiDbm', 6, 'a number', '0x10'],
    ['unit in the cell', row({ rssi: '-97 dBm' }), 'rssiDbm', 6, 'a number', '-97 dBm'],
    ['decimal comma', row({ lat: '"45,7"' }), 'latitudeDeg', 3, 'a decimal point', '45,7'],
    ['received without RSSI', row({ rssi: '' }), 'rssiDbm', 6, 'since the frame was received', undefined],
    ['missed with RSSI', row({ received: '0' }), 'rssiDbm', 6, 'since the frame was missed', -100],
    [
      'missed with SNR',
      row({ received: '0', rssi: '', snr: '3' }),
      'snrDb',
      7,
      'since the frame was missed',
      3,
    ],
    ['received unclear', row({ received: 'maybe' }), 'received', 5, '1, true or yes', 'maybe'],
    [
      'time without zone',
      row({ time: '2024-07-24T05:43:12' }),
      'timeUtc',
      1,
      'Z or an offset',
      '2024-07-24T05:43:12',
    ],
    ['30 February', row({ time: '2024-02-30T05:43:12Z' }), 'timeUtc', 1, 'a time', '2024-02-30T05:43:12Z'],
    ['hour 25', row({ time: '2024-02-03T25:43:12Z' }), 'timeUtc', 1, 'a time', '2024-02-03T25:43:12Z'],
  ] as const;
  test.each(cases)('%s', (_, text, field, column, expected, received) => {
    const error = refusal(text, { file: 'walk.csv' });
    expect(error).toMatchObject({
      code: 'malformed-file',
      argument: field,
      file: 'walk.csv',
      line: 3,
      column,
      received,
    });
    expect((error as Error).message).toMatch(/^walk\.csv \(line 3, column \d\): /);
    expect((error as Error).message).toContain(expected);
    const { skipped, observations, rows } = readSurvey(text, { onBadRow: 'skip' });
    expect(skipped).toMatchObject([{ line: 3, column, field, text: text.split('\n')[2] }]);
    expect(skipped[0]?.reason).toContain(expected);
    expect(observations.map(({ line }) => line)).toEqual([2, 4]);
    expect(rows).toBe(3);
  });
  test('with a name of its own is named by it too', () => {
    const text = 'lat,lon,received,RSSI\n1,2,1,loud\n';
    const error = refusal(text, { columns: { latitudeDeg: 'lat', longitudeDeg: 'lon', rssiDbm: 'RSSI' } });
    expect((error as Error).message).toBe(
      'survey (line 2, column 4): rssiDbm: expected a number with a decimal point (column "RSSI"), got "loud"',
    );
  });
  test('in megahertz where hertz were said is hinted at', () => {
    const error = refusal('latitudeDeg,longitudeDeg,received,frequencyHz\n1,2,0,868.1\n');
    expect((error as Error).message).toContain('megahertz?');
  });
  test.each([
    ['too few fields', '1,2', 3],
    ['too many fields', '1,2,0,5', 4],
  ])('%s', (_, line, column) => {
    const text = `latitudeDeg,longitudeDeg,received\n${line}\n3,4,0\n`;
    expect(refusal(text)).toMatchObject({ code: 'malformed-file', argument: '', line: 2, column });
    const { observations, skipped } = readSurvey(text, { onBadRow: 'skip' });
    expect(skipped).toMatchObject([{ line: 2, field: '', text: line }]);
    expect(observations).toHaveLength(1);
  });
  const table = 'latitudeDeg,longitudeDeg,received,spot\n';
  test.each([
    ['a quote that never closes', '1,2,0,"open'],
    ['text after a closing quote', '1,2,0,"a"b'],
    ['a quote inside an unquoted field', '1,2,0,5" pole'],
  ])('%s costs its own line and no other', (_, line) => {
    const text = `${table}\n9,9,0,z\n${line}\n3,4,0,"b"\n5,6,0,c\n`;
    expect(refusal(text)).toMatchObject({ code: 'malformed-file', line: 4 });
    const { observations, skipped, rows } = readSurvey(text, { onBadRow: 'skip' });
    expect(skipped).toMatchObject([{ line: 4, text: line }]);
    expect(observations.map((frame) => [frame.line, frame.spot])).toEqual([
      [3, 'z'],
      [5, 'b'],
      [6, 'c'],
    ]);
    expect(rows).toBe(4);
  });
  test('with a broken quote is placed behind blank and comment lines', () => {
    const text = `# "walk"\n${table}\n# 5" is\n\n1,2,0,"a"b\n3,4,0,c\n`;
    expect(refusal(text, { commentPrefix: '#' })).toMatchObject({ line: 6, column: 4 });
    const { observations, skipped } = readSurvey(text, { commentPrefix: '#', onBadRow: 'skip' });
    expect(skipped).toMatchObject([{ line: 6, text: '1,2,0,"a"b' }]);
    expect(observations.map(({ line }) => line)).toEqual([7]);
  });
  test('with a decimal point where commas were announced is refused', () => {
    const text = 'latitudeDeg;longitudeDeg;received\n45.5;4,5;0\n';
    expect(refusal(text, { decimal: ',' })).toMatchObject({ argument: 'latitudeDeg', received: '45.5' });
    expect((refusal(text, { decimal: ',' }) as Error).message).toContain('a decimal comma');
  });
  test('with an open quote before a long file ends at the longest row', () => {
    const text = `${table}1,2,0,"open\n${'3,4,0,b\n'.repeat(5000)}`;
    const { observations, skipped } = readSurvey(text, { onBadRow: 'skip' });
    expect(observations).toHaveLength(5000);
    expect(skipped[0]?.reason).toContain('left open');
  });
  test('by the thousand, with broken quotes, is refused rather than ground through', () => {
    expect(refusal(table + '1,2,0,"a"b\n'.repeat(1000), { onBadRow: 'skip' })).toMatchObject({
      code: 'malformed-file',
      expected: 'at most 100 rows with broken quotes',
    });
  });
});

describe('a bad table', () => {
  test.each([
    ['', 'nothing'],
    [' \r\n\n', 'nothing'],
    ['\uFEFF', 'nothing'],
    ['latitudeDeg,longitudeDeg,received\n', 'at least one row below the header'],
    ['latitudeDeg,longitudeDeg,received\n\n  \n', 'at least one row below the header'],
    ['latitudeDeg,longitudeDeg,received,received\n1,2,0,1', 'every column name once'],
    ['latitudeDeg,longitudeDeg\n1,2', 'there are "latitudeDeg", "longitudeDeg"'],
    [
      'lat,longitudeDeg,received\n1,2,0',
      'a column "latitudeDeg"; there are "lat", "longitudeDeg", "received"',
    ],
    ['latitudeDeg,latitude_deg,longitudeDeg,received\n1,2,3,0', 'a choice in columns.latitudeDeg'],
    ['"latitudeDeg,longitudeDeg,received\n1,2,3', 'quotes around a whole field'],
  ])('%j', (text, expected) => {
    const error = refusal(text, { file: 'walk.csv' });
    expect(error).toMatchObject({ name: 'InputError', code: 'malformed-file', file: 'walk.csv' });
    expect((error as Error).message).toContain(expected);
  });
  test('a mapped column that is missing is named beside those that are there', () => {
    const error = refusal('lat,lon,received\n1,2,0', {
      columns: { latitudeDeg: 'Lat', longitudeDeg: 'lon' },
    });
    expect((error as Error).message).toBe(
      'survey (line 1): latitudeDeg: expected a column "Lat"; there are "lat", "lon", "received", got nothing',
    );
  });
});

describe('options', () => {
  const text = 'latitudeDeg,longitudeDeg,received\n1,2,0\n';
  test.each([
    [{ columns: { rssi: 'x' } }, 'columns', 'unknown-option'],
    [JSON.parse('{"columns":{"__proto__":"x"}}'), 'columns', 'unknown-option'],
    [{ columns: { constructor: 'x' } }, 'columns', 'unknown-option'],
    [{ columns: null }, 'columns', 'wrong-type'],
    [{ columns: { rssiDbm: { column: 'x', unit: 'dBm' } } }, 'columns.rssiDbm.unit', 'unknown-option'],
    [{ columns: { distanceM: { column: 'x', unit: 'cubits' } } }, 'columns.distanceM.unit', 'unknown-option'],
    [
      { columns: { distanceM: { column: 'x', unit: 'toString' } } },
      'columns.distanceM.unit',
      'unknown-option',
    ],
    [{ columns: { distanceM: { column: 'x', scale: 2 } } }, 'columns.distanceM', 'unknown-option'],
    [
      { columns: { distanceM: { column: 'x', inverted: true } } },
      'columns.distanceM.inverted',
      'unknown-option',
    ],
    [{ columns: { distanceM: { unit: 'km' } } }, 'columns.distanceM.column', 'wrong-type'],
    [{ columns: { distanceM: 3 } }, 'columns.distanceM', 'wrong-type'],
    [{ separator: ',,' }, 'separator', 'unknown-option'],
    [{ separator: '"' }, 'separator', 'unknown-option'],
    [{ separator: '\n' }, 'separator', 'unknown-option'],
    [{ commentPrefix: '' }, 'commentPrefix', 'unknown-option'],
    [{ decimal: ';' }, 'decimal', 'unknown-option'],
    [{ format: 'xml' }, 'format', 'unknown-option'],
    [{ onBadRow: 'ignore' }, 'onBadRow', 'unknown-option'],
    [{ receivedOnly: 'yes' }, 'receivedOnly', 'unknown-option'],
    [{ receivedOnly: true }, 'receivedOnly', 'unknown-option'],
    [{ maximumCharacters: 10 }, 'input.length', 'out-of-range'],
    [{ maximumCharacters: NaN }, 'maximumCharacters', 'not-a-finite-number'],
    [null, 'options', 'wrong-type'],
  ])('%j', (options, argument, code) => {
    expect(refusal(text, options)).toMatchObject({ name: 'InputError', argument, code });
  });
  test.each([undefined, null, 3, {}, new Uint8Array(3)])('input %s', (input) => {
    expect(refusal(input)).toMatchObject({ argument: 'input', code: 'wrong-type' });
  });
  test('receivedOnly makes every row a received frame', () => {
    const { observations } = readSurvey('latitudeDeg,longitudeDeg,rssiDbm\n1,2,-100\n', {
      receivedOnly: true,
    });
    expect(observations[0]).toMatchObject({ received: true, rssiDbm: -100 });
  });
});

describe('GeoJSON', () => {
  const feature = (coordinates: unknown, properties: unknown): unknown => ({
    type: 'Feature',
    geometry: { type: 'Point', coordinates },
    properties,
  });
  const collection = (...features: unknown[]): string =>
    JSON.stringify({ type: 'FeatureCollection', features }, null, 1);
  test('points with properties, longitude first, lines of the features', () => {
    const text = collection(
      feature([4.9, 45.7, 230], {
        received: true,
        rssi: -97,
        mhz: 868.1,
        other: { deep: [1, { features: [2] }] },
      }),
      feature([4.91, 45.71], { received: 0, spot: 12 }),
    );
    const { observations } = readSurvey(text, {
      columns: { rssiDbm: 'rssi', frequencyHz: { column: 'mhz', unit: 'MHz' } },
    });
    const lineOf = (nth: number): number =>
      text.split('\n').flatMap((line, index) => (/^ {2}\{/.test(line) ? [index + 1] : []))[nth] ?? NaN;
    expect(observations).toEqual([
      {
        longitudeDeg: 4.9,
        latitudeDeg: 45.7,
        received: true,
        rssiDbm: -97,
        frequencyHz: 868.1e6,
        line: lineOf(0),
      },
      { longitudeDeg: 4.91, latitudeDeg: 45.71, received: false, spot: '12', line: lineOf(1) },
    ]);
  });
  const ok = feature([1, 2], { received: 1 });
  test.each([
    ['no Point', { type: 'Feature', geometry: null, properties: {} }, 'geometry', 'a Feature with a Point'],
    [
      'a line',
      { ...(ok as object), geometry: { type: 'LineString', coordinates: [[1, 2]] } },
      'geometry',
      'Point',
    ],
    ['no object', 5, 'geometry', 'a Feature'],
    ['one coordinate', feature([1], { received: 1 }), 'geometry', 'longitude and latitude'],
    [
      'latitude and longitude swapped',
      feature([45, 120], { received: 1 }),
      'latitudeDeg',
      '-90 to 90 degrees',
    ],
    ['null coordinate', feature([1, null], { received: 1 }), 'latitudeDeg', 'a value'],
    ['a coordinate that is a list', feature([1, [2]], { received: 1 }), 'latitudeDeg', 'a number'],
    ['no received', feature([1, 2], null), 'received', 'a value'],
    ['received is an object', feature([1, 2], { received: {} }), 'received', '1, true or yes'],
    ['spot is a list', feature([1, 2], { received: 1, spot: ['a'] }), 'spot', 'a text'],
    ['time is a number', feature([1, 2], { received: 1, timeUtc: 1721800000 }), 'timeUtc', 'a time such as'],
  ])('bad feature: %s', (_, bad, field, expected) => {
    const text = collection(ok, bad, ok);
    const error = refusal(text, { file: 'walk.geojson' });
    expect(error).toMatchObject({
      code: 'malformed-file',
      argument: field,
      file: 'walk.geojson',
      column: undefined,
    });
    expect((error as Error).message).toContain(expected);
    const { observations, skipped } = readSurvey(text, { onBadRow: 'skip' });
    expect(observations).toHaveLength(2);
    expect(skipped).toMatchObject([{ field, line: (error as { line: number }).line }]);
    expect(JSON.parse(skipped[0]?.text ?? '')).toEqual(bad);
  });
  test.each([
    ['{', 1, 2, 'a key in quotes or }'],
    ['{"type": "FeatureCollection",\n "features": [}', 2, 15, 'a value or ]'],
    ['{"a": 1,\n\n  }', 3, 3, 'a key in quotes'],
    ['{"a" 1}', 1, 6, ':'],
    ['{"a": [1 2]}', 1, 10, ', or the end'],
    ['{"a": NaN}', 1, 7, 'a value'],
    ['{} x', 1, 4, 'nothing more'],
    ['{"a": "open}', 1, 7, 'a value'],
  ])('broken JSON %j', (text, line, column, expected) => {
    const error = refusal(text, { file: 'walk.geojson' });
    expect(error).toMatchObject({ code: 'malformed-file', file: 'walk.geojson', line, column });
    expect((error as Error).message).toContain(`JSON with ${expected} here`);
  });
  test.each([
    ['{}', 'a FeatureCollection'],
    ['{"type":"Feature"}', 'a FeatureCollection'],
    ['{"type":"FeatureCollection","features":{}}', 'a FeatureCollection'],
    ['{"type":"FeatureCollection","features":[]}', 'at least one feature'],
    [collection(feature([1, 2], { heard: 1 })), 'a property "received"; there are "heard"'],
    [collection(feature([1, 2], {})), 'a property "received"; there are none'],
  ])('%j', (text, expected) => {
    expect((refusal(text) as Error).message).toContain(expected);
  });
  test('a doubled list counts once, as JSON has it: the last', () => {
    const text = collection(ok).replace('{', `{"features":\n\n[${JSON.stringify(ok)},5],`);
    expect(readSurvey(text).observations).toMatchObject([{ line: text.split('\n').indexOf('  {') + 1 }]);
  });
  test('a list is JSON but no survey', () => {
    expect(refusal('[1]', { format: 'geojson' })).toMatchObject({ code: 'malformed-file', argument: 'type' });
  });
  test('the position is the geometry, whatever the properties or the options say', () => {
    const text = collection(
      feature([1, 2], { received: 1, latitudeDeg: 50, latitude_deg: 51, longitude: 9 }),
    );
    expect(readSurvey(text).observations[0]).toMatchObject({ latitudeDeg: 2, longitudeDeg: 1 });
    expect(refusal(text, { columns: { latitudeDeg: 'latitudeDeg' } })).toMatchObject({
      code: 'unknown-option',
    });
  });
  test('keys of the prototype are harmless', () => {
    const text =
      '{"type":"FeatureCollection","__proto__":{"polluted":1},"features":[{"type":"Feature","geometry":{"type":"Point","coordinates":[1,2]},' +
      '"properties":{"__proto__":{"polluted":1,"received":1},"constructor":{"prototype":{"polluted":1}},"received":0}}]}';
    const { observations } = readSurvey(text);
    expect(observations).toEqual([{ latitudeDeg: 2, longitudeDeg: 1, received: false, line: 1 }]);
    expect(({} as { polluted?: number }).polluted).toBeUndefined();
    expect(Object.getPrototypeOf(observations[0])).toBe(Object.prototype);
    // Not inherited either: only an own property counts.
    expect(refusal(text.replace(',"received":0', ''))).toMatchObject({
      code: 'malformed-file',
      argument: 'received',
    });
  });
});

const number = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min, max, noNaN: true }).map((value) => (value === 0 ? 0 : value));
const optional = <Value>(arbitrary: fc.Arbitrary<Value>): fc.Arbitrary<Value | undefined> =>
  fc.option(arbitrary, { nil: undefined });
const name = fc
  .string({ unit: fc.constantFrom('a', 'Ω', '"', ',', ';', '\t', '|', '\n', '#', "'", ' ', '=', '{', '0') })
  .map((text) => text.trim())
  .filter((text) => text !== '');
const observation: fc.Arbitrary<Observation> = fc
  .record({
    timeUtc: optional(
      fc
        .date({ min: new Date('2000-01-01'), max: new Date('2099-12-31'), noInvalidDate: true })
        .map((date) => date.toISOString()),
    ),
    spot: optional(name),
    latitudeDeg: number(-90, 90),
    longitudeDeg: number(-180, 180),
    counter: optional(fc.integer({ min: 0, max: 4_294_967_295 })),
    spreadingFactor: optional(fc.integer({ min: 5, max: 12 })),
    bandwidthHz: optional(number(7800, 1_625_000)),
    frequencyHz: optional(number(100e6, 3e9)),
    received: fc.boolean(),
    rssiDbm: number(-200, 20),
    snrDb: optional(number(-60, 60)),
    conductedPowerDbm: optional(number(-60, 60)),
    distanceM: optional(number(0, 20_100_000)),
  })
  .map(({ rssiDbm, snrDb, ...rest }) => (rest.received ? { ...rest, rssiDbm, snrDb } : rest));
const present = (values: object): object =>
  Object.fromEntries(Object.entries(values).filter(([key, value]) => key !== 'line' && value !== undefined));

describe('surveyCsv and readSurvey', () => {
  test('what is written is read back, whatever the separator and the names', () => {
    const separator = fc.constantFrom(',', ';', '\t', '|', ' ', '§', '#', '^', '\\', '\u{1F4E1}');
    fc.assert(
      fc.property(fc.array(observation, { minLength: 1, maxLength: 8 }), separator, (frames, mark) => {
        const { observations, skipped } = readSurvey(surveyCsv(frames, { separator: mark }), {
          separator: mark,
        });
        expect(skipped).toEqual([]);
        expect(observations.map(present)).toEqual(frames.map(present));
      }),
      { numRuns: 300 },
    );
  });
  test('the usual separators are found without being told', () => {
    fc.assert(
      fc.property(
        fc.array(observation, { minLength: 1, maxLength: 4 }),
        fc.constantFrom(',', ';', '\t', '|'),
        (frames, mark) => {
          const { observations } = readSurvey(surveyCsv(frames, { separator: mark }));
          expect(observations.map(present)).toEqual(frames.map(present));
        },
      ),
    );
  });
  test('GeoJSON of the same frames reads the same', () => {
    fc.assert(
      fc.property(fc.array(observation, { minLength: 1, maxLength: 8 }), (frames) => {
        const features = frames.map(({ latitudeDeg, longitudeDeg, ...properties }) => ({
          type: 'Feature',
          geometry: { type: 'Point', coordinates: [longitudeDeg, latitudeDeg] },
          properties,
        }));
        const { observations } = readSurvey(JSON.stringify({ type: 'FeatureCollection', features }));
        expect(observations.map(present)).toEqual(frames.map(present));
      }),
    );
  });
  test('any text at all gives a survey or an InputError', () => {
    const text = fc.string({
      unit: fc.constantFrom('"', ',', '\n', '\r', '1', '{', '}', '[', ']', ':', 'a', '#', '\uFEFF'),
      maxLength: 60,
    });
    fc.assert(
      fc.property(
        text,
        fc.constantFrom('', `${header}\n`),
        fc.constantFrom('throw', 'skip'),
        (rest, start, onBadRow) => {
          const got = refusal(start + rest, { onBadRow, commentPrefix: '#' });
          expect(typeof got).toBe('object');
        },
      ),
      { numRuns: 500 },
    );
  });
  test('refusals', () => {
    const frame = { latitudeDeg: 1, longitudeDeg: 2, received: false };
    for (const [frames, options, argument] of [
      [[], {}, 'observations'],
      [[{ ...frame, snrDb: NaN }], {}, 'observations[0].snrDb'],
      [[frame], { separator: '.' }, 'separator'],
      [[frame], { separator: '"' }, 'separator'],
      [[frame], null, 'options'],
    ] as const) {
      expect(() => surveyCsv(frames as never, options as never)).toThrow(
        expect.objectContaining({ argument }),
      );
    }
  });
});

const ride = sharedData('lyon-bike/2024-07-25-morning.frames.csv');
test.skipIf(ride === undefined)('a real ride: every frame, in order, the missed ones too', () => {
  const { observations, rows } = readSurvey(ride ?? '');
  expect(rows).toBe(333);
  expect(observations.filter(({ received }) => received)).toHaveLength(119);
  expect(observations[0]).toEqual({
    timeUtc: '2024-07-25T06:24:03Z',
    counter: 1,
    spreadingFactor: 12,
    received: false,
    latitudeDeg: 45.7039001,
    longitudeDeg: 4.9390526,
    distanceM: 10253.2,
    line: 2,
  });
});
