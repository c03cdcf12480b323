import { parseSweepCsv, parseTouchstone, solveWires, type Wire } from '@finial/antenna';
import { parsePlan } from '@finial/dossier';
import { conductedLimitDbm, gatewayCapacity } from '@finial/lora';
import { readSurvey, readSurveyStream, readTrack, surveyCsv } from '@finial/survey';
import { openElevation } from '@finial/terrain';
import { degrees4326, writeGeotiff } from '../../packages/terrain/test/support/writeGeotiff.js';

/** An input that did harm once. Each must be refused, or give a sound result, within a second or so. */
export interface Found {
  /** What it was. */
  readonly what: string;
  readonly call: () => unknown;
}

const header = 'latitudeDeg,longitudeDeg,received,spot';

/** The least input of each kind of fault that the runs brought to light. */
export const found: readonly Found[] = [
  {
    what: 'a refusal that repeats a header of 20 000 names in its message (parseSweepCsv:1:155, parseTouchstone:1:168, readUplinks:1:609)',
    call: () =>
      parseSweepCsv(`${'name,'.repeat(20_000)}\n`.repeat(2), { columns: { frequency: 'f', vswr: 'v' } }),
  },
  {
    what: 'blanks inside a header cell, quadratic time (parseSweepCsv:1:536)',
    call: () => parseSweepCsv(`frequency (MHz),a${' '.repeat(300_000)}b\n868,1.5\n`),
  },
  {
    what: 'thousands of digits and no number, quadratic time (parseTouchstone:1:16171; the same in tables and grids)',
    call: () => parseTouchstone(`# MHz S RI R 50\n1 0 ${'1'.repeat(300_000)}x\n`),
  },
  {
    what: 'thousands of digits and no number in an ASCII grid',
    call: () =>
      openElevation([
        { name: 'a.asc', bytes: new TextEncoder().encode(`ncols 2\nnrows ${'1'.repeat(300_000)}x\n`) },
      ]),
  },
  {
    what: 'thousands of blank lines in an ASCII grid, quadratic time',
    call: () =>
      openElevation([
        { name: 'a.asc', bytes: new TextEncoder().encode(`ncols 2\n${'\n'.repeat(300_000)}nrows 2\n`) },
      ]),
  },
  {
    what: 'a long line in small pieces, quadratic time (readSurveyStream:1:175)',
    call: async () => {
      async function* pieces(): AsyncGenerator<string> {
        yield `${header}\n`;
        for (let count = 0; count < 200_000; count++) yield 'x';
      }
      const rows: unknown[] = [];
      for await (const row of readSurveyStream(pieces(), { onBadRow: 'skip' })) rows.push(row);
      return rows;
    },
  },
  {
    what: 'elements within each other without end, quadratic time (readTrack)',
    call: () => readTrack(`<gpx>${'<a>'.repeat(300_000)}`),
  },
  {
    what: 'brackets within each other, quadratic time in the search for the place (readSurvey)',
    call: () => readSurvey(`{"a":${'['.repeat(300_000)}`),
  },
  {
    what: 'features of ever other properties, quadratic memory (readSurvey)',
    call: () =>
      readSurvey(
        JSON.stringify({
          type: 'FeatureCollection',
          features: Array.from({ length: 20_000 }, (_, index) => ({ properties: { [index]: 1 } })),
        }),
      ),
  },
  { what: 'a stack overflow over brackets (parsePlan)', call: () => parsePlan('['.repeat(100_000)) },
  {
    what: 'a plan that is the prototype of an empty one (parsePlan)',
    call: () => parsePlan('{"__proto__":{"version":1}}'),
  },
  {
    what: 'a text cell that a spreadsheet runs (surveyCsv:2:4)',
    call: () => {
      const text = surveyCsv([{ latitudeDeg: 1, longitudeDeg: 2, received: false, spot: '=1+1' }]);
      if (/(?:^|[,"])=/m.test(text)) throw new Error('a cell begins a formula');
      return readSurvey(text).observations;
    },
  },
  {
    what: 'an image that claims more blocks than the file lists (openElevation GeoTIFF:1:223)',
    call: () => openElevation([{ name: 'a.tif', bytes: withRows(65_535) }]),
  },
  {
    what: 'wires a million metres apart, endless integration (solveWires:2:22)',
    call: () => {
      const wire = (xM: number): Wire => ({
        start: { xM, yM: 0, zM: 0 },
        end: { xM, yM: 0, zM: 0.16 },
        radiusM: 0.001,
      });
      return solveWires([wire(0), wire(1e6)], {
        frequencyHz: 868.1e6,
        source: { wire: 0, positionRatio: 0.5 },
      });
    },
  },
  {
    what: 'a search that halves between neighbouring numbers for ever (gatewayCapacity:3:11284)',
    call: () =>
      gatewayCapacity({
        groups: [{ spreadingFactor: 7, nodeCount: 20, timeOnAirSeconds: 1e-300, intervalSeconds: 900 }],
        targetDeliveryRatio: 0.9,
      }),
  },
  {
    what: 'a difference that no double holds (conductedLimitDbm:3:61701)',
    call: () => conductedLimitDbm({ baseConductedPowerDbm: -1e308, antennaGainDbi: 1e308 }),
  },
];

function withRows(rows: number): Uint8Array {
  const bytes = writeGeotiff({
    columns: 23,
    rows: 16,
    heights: new Float32Array(23 * 16),
    block: { tileColumns: 16, tileRows: 16 },
    compression: 'deflate',
    scale: [0.1, 0.1, 0],
    tie: [0, 0, 0, 7, 50, 0],
    geoKeys: degrees4326,
  });
  // The second entry of the directory is the image's length.
  new DataView(bytes.buffer).setUint16(10 + 12 + 8, rows, true);
  return bytes;
}
