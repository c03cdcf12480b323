import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isInputError, type ReadTrackOptions, readTrack } from '../src/index.js';
import { sharedData } from './sharedData.js';

const point = (lat: string, lon: string, time: string): string =>
  `<trkpt lat="${lat}" lon="${lon}"><ele>213.5</ele><time>${time}</time></trkpt>`;
const gpx = (...segments: string[]): string =>
  `<?xml version="1.0"?>\n<gpx xmlns="http://www.topografix.com/GPX/1/1"><trk>\n${segments
    .map((inner) => `<trkseg>${inner}</trkseg>`)
    .join('\n')}</trk></gpx>`;
const good = point('45.7', '4.9', '2024-07-24T06:00:00Z');

const refusal = (text: unknown, options?: ReadTrackOptions): string => {
  try {
    return JSON.stringify(readTrack(text as string, options));
  } catch (error) {
    return isInputError(error) ? error.message : `not an InputError: ${error}`;
  }
};

async function* pieces(text: string, length: number): AsyncGenerator<Uint8Array> {
  const bytes = new TextEncoder().encode(text);
  for (let at = 0; at < bytes.length; at += length) yield bytes.subarray(at, at + length);
}

describe('GPX', () => {
  test('points with time, place, elevation and segment', () => {
    expect(readTrack(gpx(good, point('-45.8', '-4.9', '2024-07-24T08:00:09.5+02:00')))).toEqual({
      points: [
        {
          timeUtc: '2024-07-24T06:00:00Z',
          latitudeDeg: 45.7,
          longitudeDeg: 4.9,
          elevationM: 213.5,
          segmentIndex: 0,
          line: 3,
        },
        {
          timeUtc: '2024-07-24T06:00:09.500Z',
          latitudeDeg: -45.8,
          longitudeDeg: -4.9,
          elevationM: 213.5,
          segmentIndex: 1,
          line: 4,
        },
      ],
      skipped: [],
      rows: 2,
    });
  });
  test('what stands in extensions is no time and no point', () => {
    const extensions = `<extensions><time>1999</time><trkpt lat="9" lon="9"><time>1999</time></trkpt></extensions>`;
    const inside = good.replace('</trkpt>', `${extensions}</trkpt>`);
    expect(readTrack(gpx(inside)).points).toEqual(readTrack(gpx(good)).points);
  });
  test('prefixes, comments, CDATA, entities of XML, a byte order mark', () => {
    const odd = `\uFEFF${gpx(good)}`
      .replaceAll(/(<\/?)(gpx|trk|trkseg|trkpt)\b/g, '$1g:$2')
      .replace('xmlns=', 'xmlns:g=')
      .replace('2024-07-24T06', '<!-- at --><![CDATA[2024-07-24]]>&#84;06');
    expect(readTrack(odd).points).toEqual(readTrack(gpx(good)).points);
  });
  test('waypoints and route points are listed, never taken', () => {
    const text = gpx(good).replace(
      '<trk>',
      '<wpt lat="1" lon="2"><time>2024-07-24T06:00:00Z</time></wpt><trk>',
    );
    const { points, skipped, rows } = readTrack(text);
    expect(points).toHaveLength(1);
    expect(rows).toBe(2);
    expect(skipped[0]?.reason).toContain('a track point');
    expect(skipped[0]?.text).toBe('<wpt lat="1" lon="2"><time>2024-07-24T06:00:00Z</time></wpt>');
  });
  test.each([
    ['no time', '<trkpt lat="1" lon="2"/>', 'timeUtc: expected a value (<time>)'],
    ['time without zone', point('1', '2', '2024-07-24T06:00:00'), 'timeUtc: expected a time'],
    ['no longitude', good.replace('lon', 'long'), 'longitudeDeg: expected a value (lon)'],
    [
      'off the earth',
      point('91', '2', '2024-07-24T06:00:00Z'),
      'latitudeDeg: expected -90 to 90 degrees (lat), got 91',
    ],
    ['decimal comma', point('45,7', '2', '2024-07-24T06:00:00Z'), 'latitudeDeg: expected a number'],
  ])('a bad point: %s', (_, bad, reason) => {
    const text = gpx(`${good}\n  ${bad}`);
    expect(refusal(text, { file: 'ride.gpx' })).toMatch(/^ride\.gpx \(line 4, column 3\): /);
    const { points, skipped } = readTrack(text, { onBadRow: 'skip' });
    expect(points).toHaveLength(1);
    expect(skipped).toHaveLength(1);
    expect(skipped[0]).toMatchObject({ line: 4, column: 3 });
    expect(skipped[0]?.reason).toContain(reason);
  });
  test.each([
    ['<gpx><trk>', 'line 1'],
    ['<gpx>\n<trk></gpx>', 'line 2'],
    ['<gpx>&unknown;</gpx>', 'well-formed XML'],
    ['<kml></kml>', 'an element <gpx>'],
    ['<gpx></gpx>', 'at least one track point'],
    ['<!DOCTYPE gpx [<!ENTITY a "aaaa">]><gpx>&a;</gpx>', 'well-formed XML'],
  ])('%s', (text, message) => {
    expect(refusal(text)).toContain(message);
  });
  test('columns are none of its business', () => {
    expect(refusal(gpx(good), { columns: { timeUtc: 'when' } })).toContain('columns.timeUtc');
  });
  test('in pieces cut anywhere, also within a character', async () => {
    const text = gpx(good).replace('<trk>', '<trk><name>Öl – ü</name>');
    for (const length of [1, 2, 3, 7, 1000])
      expect(await readTrack(pieces(text, length))).toEqual(readTrack(text));
    await expect(readTrack(pieces('<gpx><trk>', 3))).rejects.toThrow('well-formed XML');
  });
  test('any text at all gives a track or an InputError', () => {
    const part = fc.constantFrom(
      '<gpx>',
      '</gpx>',
      good,
      '<trkseg>',
      '</trkseg>',
      '<trkpt',
      ' lat="1"',
      '>',
      '&',
      'x',
      '<![CDATA[',
      '\n',
    );
    fc.assert(
      fc.property(fc.array(part, { maxLength: 12 }), (parts) => {
        expect(refusal(`<gpx>${parts.join('')}`)).not.toContain('not an InputError');
      }),
    );
  });
});

test('CSV and NDJSON give the same track', () => {
  const csv = 'when,latitude_deg,longitude_deg\n2024-07-24T06:00:00Z,45.7,4.9\n';
  const json = '{"fix":{"when":"2024-07-24T06:00:00Z"},"latitude_deg":45.7,"longitude_deg":4.9}\n';
  const { points } = readTrack(csv, { columns: { timeUtc: 'when' } });
  expect(points).toEqual([
    { timeUtc: '2024-07-24T06:00:00Z', latitudeDeg: 45.7, longitudeDeg: 4.9, line: 2 },
  ]);
  expect(readTrack(json, { columns: { timeUtc: 'fix.when' } }).points).toEqual([{ ...points[0], line: 1 }]);
});

const ride = sharedData('lyon-bike/2024-07-24-morning.gpx');
const table = sharedData('lyon-bike/2024-07-24-morning.track.csv');
test.skipIf(ride === undefined || table === undefined)(
  'a measured ride: GPX and the table made from it',
  () => {
    const fromGpx = readTrack(ride ?? '').points;
    const fromTable = readTrack(table ?? '').points;
    expect(fromGpx.length).toBeGreaterThan(800);
    expect(fromTable).toHaveLength(fromGpx.length);
    fromTable.forEach((row, index) => {
      expect(Date.parse(row.timeUtc)).toBe(Date.parse(fromGpx[index]?.timeUtc ?? ''));
      expect(Math.abs(row.latitudeDeg - (fromGpx[index]?.latitudeDeg ?? 0))).toBeLessThan(6e-8);
      expect(Math.abs((row.elevationM ?? 0) - (fromGpx[index]?.elevationM ?? 0))).toBeLessThan(0.006);
    });
  },
);
