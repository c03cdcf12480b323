import { isInputError } from '@finial/units';
import { describe, expect, test } from 'vitest';
import { readSurvey, readSurveyStream, readTrack, readUplinks } from '../src/index.js';

const point = '<trkpt lat="1" lon="2"><time>2024-07-24T06:00:00Z</time></trkpt>';

function refusalOf(read: () => unknown): string {
  try {
    read();
  } catch (error) {
    if (isInputError(error)) return error.message;
    throw error;
  }
  throw new Error('accepted');
}

describe('XML', () => {
  test.each([
    ['an entity of entities', '<!ENTITY a "x"><!ENTITY b "&a;&a;&a;&a;">'],
    ['a file', '<!ENTITY b SYSTEM "file:///etc/passwd">'],
  ])('%s is not expanded but refused', (_, entities) => {
    const text = `<!DOCTYPE gpx [${entities}]><gpx><trk><trkseg>${point.replace('2024', '&b;')}</trkseg></trk></gpx>`;
    expect(refusalOf(() => readTrack(text))).toMatch(/expected well-formed XML, got "undefined entity/);
  });

  test('a document type that nothing refers to is passed over', () => {
    const text = `<!DOCTYPE gpx SYSTEM "http://localhost/x"><gpx><trk><trkseg>${point}</trkseg></trk></gpx>`;
    expect(readTrack(text).points).toHaveLength(1);
  });

  test('elements within each other without end are refused, at once', () => {
    expect(refusalOf(() => readTrack(`<gpx>${'<a>'.repeat(200_000)}`))).toMatch(
      /at most 1000 levels of elements/,
    );
  });
});

describe('JSON', () => {
  test('keys with a meaning in JavaScript are keys like any other', () => {
    const text =
      '{"__proto__":{"polluted":1,"received":true},"constructor":{"prototype":{"polluted":1}},"latitudeDeg":1,"longitudeDeg":2}';
    expect(refusalOf(() => readSurvey(text))).toMatch(/received: expected a value, got nothing/);
    expect('polluted' in {}).toBe(false);
    const uplink = '{"timeUtc":"2024-07-24T06:00:00Z","__proto__":[{"counter":1}]}';
    expect(
      readUplinks(uplink, { each: '__proto__', columns: { counter: '__proto__.counter' } }).uplinks[0]
        ?.counter,
    ).toBe(1);
    expect('polluted' in {}).toBe(false);
  });

  test('columns of such names hold what the file says', () => {
    const text = 'latitudeDeg,longitudeDeg,received,__proto__\n1,2,0,mill\n';
    expect(readSurvey(text, { columns: { spot: '__proto__' } }).observations[0]?.spot).toBe('mill');
  });

  test('brackets without end are refused, at once', () => {
    for (const bracket of ['[', '{"a":']) {
      expect(refusalOf(() => readSurvey(`{"a":${bracket.repeat(100_000)}`))).toMatch(/JSON with/);
    }
  });

  test('features of ever other names do not fill the memory', () => {
    const features = Array.from({ length: 6000 }, (_, index) => ({
      type: 'Feature',
      properties: { [`p${index}`]: 1 },
    }));
    const text = JSON.stringify({ type: 'FeatureCollection', features });
    expect(refusalOf(() => readSurvey(text))).toMatch(/properties of few names/);
  });
});

test('a long line in small pieces is looked through once', async () => {
  async function* pieces(): AsyncGenerator<string> {
    yield 'latitudeDeg,longitudeDeg,received\r';
    yield '\n1,2,';
    for (let count = 0; count < 300_000; count++) yield ' ';
    yield '0\r';
    yield '3,4,1\n\n';
  }
  const lines: unknown[] = [];
  // The row of blanks is longer than a row may be.
  for await (const { line } of readSurveyStream(pieces(), { onBadRow: 'skip' })) lines.push(line);
  expect(lines).toEqual([3]);
});
