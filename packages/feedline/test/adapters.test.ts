import {
  type Adapter,
  adaptersBetween,
  builtInCatalogue,
  type Catalogue,
  type Connector,
  mates,
  type PartEnd,
  partEnd,
} from '@finial/feedline';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const template = builtInCatalogue.connectors[0] as Connector;
/** Three series of no standard, with losses of their own. */
const connectors: readonly Connector[] = ['A', 'B', 'C'].map((series, index) => ({
  ...template,
  designation: series,
  series,
  thread: undefined,
  pairLossAtOneGigahertzDb: 0.05 * (index + 1),
}));
const end: fc.Arbitrary<PartEnd> = fc.record({
  series: fc.constantFrom('A', 'B', 'C'),
  gender: fc.constantFrom('plug', 'jack'),
  polarity: fc.constantFrom('normal', 'reverse'),
});
const adapters = fc.array(fc.tuple(end, end, fc.integer({ min: 0, max: 20 })), { maxLength: 7 }).map((rows) =>
  rows.map(
    ([first, second, tenths], index): Adapter => ({
      kind: 'adapter',
      designation: `adapter ${index}`,
      ends: [first, second],
      lossDb: tenths / 10,
      lossUncertaintyDb: 0.01,
      lowestFrequencyHz: 0,
      highestFrequencyHz: 2e9,
      source: 'drawn at random',
      status: 'computed',
    }),
  ),
);
const catalogueOf = (rows: readonly Adapter[]): Catalogue => ({
  ...builtInCatalogue,
  connectors,
  adapters: rows,
  pigtails: [],
});

function pairDb({ series }: PartEnd): number {
  return connectors.find((row) => row.series === series)?.pairLossAtOneGigahertzDb ?? Number.NaN;
}

/** Every path of exactly so many adapters, tried one by one without any shortcut: the losses of those that join. */
function lossesByTrial(a: PartEnd, b: PartEnd, rows: readonly Adapter[], count: number): readonly number[] {
  if (count === 0) return mates(a, b).mates ? [pairDb(b)] : [];
  return rows.flatMap((row) =>
    [row.ends, [row.ends[1], row.ends[0]] as const].flatMap(([entry, exit]) =>
      mates(a, entry).mates
        ? lossesByTrial(exit, b, rows, count - 1).map((rest) => pairDb(entry) + row.lossDb + rest)
        : [],
    ),
  );
}

describe('adaptersBetween', () => {
  test('mates from end to end, with as few parts as any trial and then the least loss', () => {
    let longest = 0;
    fc.assert(
      fc.property(end, end, adapters, (a, b, rows) => {
        const path = adaptersBetween(a, b, { catalogue: catalogueOf(rows) });
        const trials = [0, 1, 2, 3].map((count) => lossesByTrial(a, b, rows, count));
        const fewest = trials.findIndex((losses) => losses.length > 0);
        if (path === undefined) {
          expect(fewest).toBe(-1);
          return;
        }
        longest = Math.max(longest, path.parts.length);
        expect(path.parts).toHaveLength(fewest);
        expect(path.lossDb).toBeCloseTo(Math.min(...(trials[fewest] ?? [])), 9);
        const halves = [a, ...path.parts.flatMap(({ ends }) => ends), b];
        for (let index = 0; index < halves.length; index += 2) {
          expect(mates(halves[index] as PartEnd, halves[index + 1] as PartEnd).mates).toBe(true);
        }
        for (const { part, ends } of path.parts) {
          expect([part.ends, [part.ends[1], part.ends[0]]]).toEqual(
            expect.arrayContaining([
              ends.map((placed) => expect.objectContaining({ series: placed.series, gender: placed.gender })),
            ]),
          );
        }
      }),
      { numRuns: 300 },
    );
    // The draw must reach beyond the easy cases.
    expect(longest).toBeGreaterThan(1);
  });

  test('finds the same number of parts from either side', () => {
    fc.assert(
      fc.property(end, end, adapters, (a, b, rows) => {
        const search = { catalogue: catalogueOf(rows) };
        expect(adaptersBetween(a, b, search)?.parts.length).toBe(adaptersBetween(b, a, search)?.parts.length);
      }),
    );
  });

  test('halves that mate need nothing', () => {
    expect(adaptersBetween(partEnd('N plug'), partEnd('N jack'))).toMatchObject({
      parts: [],
      inWords: 'nothing: they mate',
    });
  });

  test('what a gateway builder meets: one part each', () => {
    for (const [a, b] of [
      ['RP-SMA jack', 'N plug'],
      ['SMA jack', 'N jack'],
      ['RP-SMA plug', 'SMA jack'],
      ['N jack', 'N jack'],
    ] as const) {
      const path = adaptersBetween(partEnd(a), partEnd(b), { frequencyHz: 868.1e6 });
      expect(path?.parts, `${a} to ${b}`).toHaveLength(1);
    }
  });

  test('leaves out parts and series that are not meant for the frequency', () => {
    const path = (frequencyHz: number) =>
      adaptersBetween(partEnd('BNC plug'), partEnd('UHF jack'), { frequencyHz });
    expect(path(144e6)?.parts).toHaveLength(1);
    expect(path(868.1e6)).toBeUndefined();
  });

  test('no more parts than wanted', () => {
    const search = { greatestPartsCount: 0 };
    expect(adaptersBetween(partEnd('SMA jack'), partEnd('N plug'), search)).toBeUndefined();
  });

  test.each([-1, 7, 1.5, Number.NaN, '2'])('%s parts are refused', (greatestPartsCount) => {
    const search = { greatestPartsCount: greatestPartsCount as number };
    expect(() => adaptersBetween(partEnd('N plug'), partEnd('N jack'), search)).toThrow(
      expect.objectContaining({ argument: 'search.greatestPartsCount' }),
    );
  });
});
