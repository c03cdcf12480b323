import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  isInputError,
  type Observation,
  type ReadSurveyStreamOptions,
  readSurvey,
  readSurveyStream,
  type SkippedRow,
} from '../src/index.js';

async function* pieces(text: string, length: number): AsyncGenerator<string> {
  for (let at = 0; at < text.length; at += length) yield text.slice(at, at + length);
}

async function gathered(
  text: string,
  length: number,
  options: ReadSurveyStreamOptions = {},
): Promise<{ readonly observations: readonly Observation[]; readonly skipped: readonly SkippedRow[] }> {
  const observations: Observation[] = [];
  const skipped: SkippedRow[] = [];
  const onSkippedRow = (row: SkippedRow): void => void skipped.push(row);
  for await (const one of readSurveyStream(pieces(text, length), { onSkippedRow, ...options })) {
    observations.push(one);
  }
  return { observations, skipped };
}

const header = 'spot,latitude_deg,longitude_deg,received,rssi_dbm';
const rows = [
  'bridge,45.7,4.9,1,-100',
  'bridge,45.7,4.9,0,',
  '"the ""old""\nmill",45.8,4.8,1,-90',
  'x,99,4.8,1,-90',
  'short,1',
  'a"b,45.8,4.8,1,-91',
  ',45.8,4.8,1,-92',
];

describe('readSurveyStream', () => {
  test.each(['\n', '\r\n', '\r'])(
    'gives what readSurvey gives, wherever the pieces are cut (%j)',
    async (end) => {
      const text = `\uFEFF# a comment${end}${[header, ...rows, ''].join(end)}`;
      const options = { onBadRow: 'skip', commentPrefix: '#' } as const;
      const { observations, skipped } = readSurvey(text, options);
      expect(observations).toHaveLength(4);
      for (const length of [1, 2, 3, 10, 10_000]) {
        expect(await gathered(text, length, options)).toEqual({ observations, skipped });
      }
      await expect(gathered(text, 7, { commentPrefix: '#' })).rejects.toThrow('latitudeDeg');
    },
  );
  test('over the edge of many lots, with quoted line ends', async () => {
    const many = Array.from(
      { length: 12_000 },
      (_, index) => `"spot\n${index}",45.7,4.9,1,-${80 + (index % 40)}`,
    );
    const text = [header, ...many].join('\n');
    const { observations } = readSurvey(text);
    expect((await gathered(text, 4099)).observations).toEqual(observations);
  });
  test('NDJSON, with places by path', async () => {
    const text = '{"p":[4.9,45.7],"ok":true,"rssiDbm":-90}\n{"p":[4.8,45.6],"ok":false}\n';
    const options = {
      format: 'ndjson',
      columns: { longitudeDeg: 'p.0', latitudeDeg: 'p.1', received: 'ok' },
    } as const;
    const { observations } = readSurvey(text, options);
    expect(observations.map(({ latitudeDeg, received }) => [latitudeDeg, received])).toEqual([
      [45.7, true],
      [45.6, false],
    ]);
    expect((await gathered(text, 9, options)).observations).toEqual(observations);
    expect(readSurvey(text, { columns: options.columns })).toEqual(readSurvey(text, options));
  });
  test('a zero that the writer dropped', () => {
    const text =
      '{"latitudeDeg":1,"longitudeDeg":2,"received":true,"rssiDbm":-90}\n{"latitudeDeg":1,"longitudeDeg":2,"received":false}';
    const snr = (absentIsZero?: readonly 'snrDb'[]): unknown[] =>
      readSurvey(text, { absentIsZero }).observations.map(({ snrDb }) => snrDb);
    expect(snr()).toEqual([undefined, undefined]);
    expect(snr(['snrDb'])).toEqual([0, undefined]);
  });
  test.each([
    ['', 'at least one row'],
    [header, 'at least one row'],
    [`${header.replace('received', 'heard')}\n1`, '"received"'],
    [`${header},spot\n1`, 'every column name once'],
  ])('%j is refused', async (text, message) => {
    await expect(gathered(text, 5)).rejects.toThrow(message);
  });
  test('a quote that nobody closes costs a row, not the memory', async () => {
    const good = '1,45.7,4.9,1,-100';
    const text = [header, '"open,45.7,4.9,1,-100', ...Array.from({ length: 20_000 }, () => good)].join('\n');
    const { observations, skipped } = await gathered(text, 60_000, { onBadRow: 'skip' });
    expect(observations.length + skipped.length).toBe(20_001);
    expect(skipped).toHaveLength(1);
  });
  test('what is no text', async () => {
    const refusal = async (input: unknown, options?: unknown): Promise<string> => {
      try {
        for await (const _ of readSurveyStream(input as never, options as never));
        return 'nothing';
      } catch (error) {
        return isInputError(error) ? `${error.code} ${error.argument}` : String(error);
      }
    };
    async function* numbers(): AsyncGenerator<number> {
      yield 1;
    }
    async function* latin1(): AsyncGenerator<Uint8Array> {
      yield Uint8Array.of(0x61, 0xe9, 0x0a);
    }
    async function* endless(): AsyncGenerator<string> {
      for (;;) yield 'x'.repeat(100_000);
    }
    expect(await refusal('text')).toBe('wrong-type input');
    expect(await refusal(numbers())).toBe('wrong-type input');
    expect(await refusal(latin1())).toBe('malformed-file ');
    expect(await refusal(endless())).toBe('malformed-file ');
    expect(await refusal(pieces(header, 3), { format: 'geojson' })).toBe('unknown-option format');
    expect(await refusal(pieces(header, 3), null)).toBe('wrong-type options');
  });
  test('readSurvey takes pieces too, GeoJSON among them', async () => {
    const text = [header, rows[0]].join('\n');
    expect(await readSurvey(pieces(text, 4))).toEqual(readSurvey(text));
    await expect(readSurvey(pieces(text, 4), { maximumCharacters: 20 })).rejects.toThrow('at most 20');
    const collection = JSON.stringify({
      type: 'FeatureCollection',
      features: [
        {
          type: 'Feature',
          geometry: { type: 'Point', coordinates: [4.9, 45.7] },
          properties: { received: 1 },
        },
      ],
    });
    expect(await readSurvey(pieces(collection, 11))).toEqual(readSurvey(collection));
  });
  test('any rows, any cut', async () => {
    const cell = fc.constantFrom('45.7', '4.9', '1', '0', '"q,\n"', '"', '', 'x', '-90');
    const row = fc.array(cell, { minLength: 4, maxLength: 6 }).map((cells) => cells.join(','));
    await fc.assert(
      fc.asyncProperty(
        fc.array(row, { minLength: 1, maxLength: 8 }),
        fc.integer({ min: 1, max: 30 }),
        async (log, length) => {
          const text = [header, ...log].join('\n');
          const { observations, skipped } = readSurvey(text, { onBadRow: 'skip' });
          expect(await gathered(text, length, { onBadRow: 'skip' })).toEqual({ observations, skipped });
        },
      ),
      { numRuns: 60 },
    );
  });
});

/** Collects what nobody holds any longer, so that only what is kept is counted. */
function heldBytes(): number {
  setFlagsFromString('--expose-gc');
  (runInNewContext('gc') as () => void)();
  return process.memoryUsage().heapUsed;
}

test('twenty megabytes, of which less than two are held at a time', async () => {
  const lines = Array.from({ length: 1000 }, (_, index) => {
    const spot = `a spot with a rather long name, as people give them, number ${index % 9}`;
    return `${spot.replaceAll(',', '')},45.7${index},4.9,${index % 2},${index % 2 === 1 ? -100 : ''}`;
  });
  const piece = `${lines.join('\n')}\n`;
  const repeats = Math.ceil(20e6 / piece.length);
  async function* log(): AsyncGenerator<string> {
    yield `${header}\n`;
    for (let index = 0; index < repeats; index += 1) yield piece;
  }
  let count = 0;
  let most = 0;
  const before = heldBytes();
  for await (const _ of readSurveyStream(log())) {
    count += 1;
    if (count % 50_000 === 0) most = Math.max(most, heldBytes() - before);
  }
  expect(count).toBe(repeats * 1000);
  expect(most).toBeGreaterThan(0);
  expect(most).toBeLessThan(2e6);
}, 60_000);
