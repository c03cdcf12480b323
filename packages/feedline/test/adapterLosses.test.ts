import { adaptersBetween, type PartEnd, partEnd } from '@finial/feedline';
import { describe, expect, test } from 'vitest';
import {
  adapter,
  aJack,
  aPlug,
  bJack,
  bPlug,
  catalogue,
  cJack,
  connector,
  cPlug,
  pigtail,
} from './byHand.js';

describe('what joins two halves, by hand', () => {
  const aToB = adapter('A to B', [aPlug, bJack]);
  const bToC = adapter('B to C', [bPlug, cJack], { lossDb: 0.3, lossUncertaintyDb: 0.04 });

  test('an adapter and its two pairs: 0.1 + 0.2 + 0.1 dB, three independent doubts', () => {
    const path = adaptersBetween(aJack, bPlug, { catalogue: catalogue({ adapters: [aToB] }) });
    expect(path?.lossDb).toBeCloseTo(0.4, 12);
    expect(path?.lossUncertaintyDb).toBeCloseTo(Math.hypot(0.04, 0.03, 0.04), 12);
    expect(path?.mismatchLossDb).toBe(0);
    expect(path?.inWords).toBe('A to B (A plug to B jack)');
  });

  test('a part serves either way round', () => {
    const path = adaptersBetween(bPlug, aJack, { catalogue: catalogue({ adapters: [aToB] }) });
    expect(path?.parts[0]?.ends.map(({ series }) => series)).toEqual(['B', 'A']);
  });

  test('two adapters err apart, two lengths of one cable together', () => {
    const rigid = adaptersBetween(aJack, cPlug, { catalogue: catalogue({ adapters: [aToB, bToC] }) });
    expect(rigid?.lossDb).toBeCloseTo(0.2 + 0.3 + 3 * 0.1, 12);
    expect(rigid?.lossUncertaintyDb).toBeCloseTo(Math.hypot(0.03, 0.04, 0.04, 0.04, 0.04), 12);

    const pigtails = [pigtail('first', [aPlug, bJack], 0.3), pigtail('second', [bPlug, cJack], 0.4)];
    const flexible = adaptersBetween(aJack, cPlug, { catalogue: catalogue({ pigtails }) });
    expect(flexible?.lossDb).toBeCloseTo(0.7 + 3 * 0.1, 12);
    expect(flexible?.lossUncertaintyDb).toBeCloseTo(Math.hypot(0.07, 0.04, 0.04, 0.04), 12);
  });

  test('contacts lose with the root of the frequency, cable of one point too', () => {
    const pigtails = [pigtail('short', [aPlug, bJack], 0.5)];
    const search = { catalogue: catalogue({ pigtails }), frequencyHz: 4e9 };
    const path = adaptersBetween(aJack, bPlug, search);
    expect(path?.lossDb).toBeCloseTo(2 * (0.1 + 0.5 + 0.1), 12);
  });

  // The hardware reference's mismatch table: VSWR 1.5 costs 0.1773 dB. Reflections may meet in phase, so their doubts add.
  test('75 ohms between 50 ohms: two steps of 0.177 dB, as uncertain as they are large', () => {
    const bnc = ([50, 75] as const).map((impedanceOhm) =>
      connector('BNC', { designation: `BNC ${impedanceOhm}`, impedanceOhm }),
    );
    const television = adapter('75 ohm coupler', [partEnd('BNC jack 75 ohm'), partEnd('BNC jack 75 ohm')]);
    const search = { catalogue: catalogue({ connectors: bnc, adapters: [television] }) };
    const path = adaptersBetween(partEnd('BNC plug'), partEnd('BNC plug'), search);
    expect(path?.mismatchLossDb).toBeCloseTo(2 * 0.1773, 3);
    expect(path?.lossDb).toBeCloseTo(0.4 + 2 * 0.1773, 3);
    expect(path?.lossUncertaintyDb).toBeCloseTo(Math.hypot(0.04, 0.03, 0.04, 2 * 0.1773), 3);
  });

  test('of several that do, the one of least loss, and of equals the first of the catalogue', () => {
    const ends: readonly [PartEnd, PartEnd] = [aPlug, bJack];
    const adapters = [0.3, 0.1, 0.1, 0.2].map((lossDb, index) => adapter(`row ${index}`, ends, { lossDb }));
    const path = adaptersBetween(aJack, bPlug, { catalogue: catalogue({ adapters }) });
    expect(path?.parts.map(({ part }) => part.designation)).toEqual(['row 1']);
  });
});

describe('what is meant for a frequency', () => {
  const found = (rows: Parameters<typeof catalogue>[0], frequencyHz?: number) =>
    adaptersBetween(aJack, bPlug, { catalogue: catalogue(rows), frequencyHz }) !== undefined;

  test.each([
    [799e6, false],
    [800e6, true],
    [900e6, true],
    [901e6, false],
    [undefined, true],
  ])('an adapter for 800 to 900 MHz at %s Hz: %s', (frequencyHz, expected) => {
    const band = { lowestFrequencyHz: 800e6, highestFrequencyHz: 900e6 };
    expect(found({ adapters: [adapter('narrow', [aPlug, bJack], band)] }, frequencyHz)).toBe(expected);
  });

  test.each([
    [300e6, true],
    [301e6, false],
    [undefined, true],
  ])('a part with one series that ends at 300 MHz, at %s Hz: %s', (frequencyHz, expected) => {
    const connectors = [connector('A'), connector('B', { highestFrequencyHz: 300e6 })];
    expect(found({ connectors, adapters: [adapter('wide', [aPlug, bJack])] }, frequencyHz)).toBe(expected);
    expect(found({ connectors, pigtails: [pigtail('short', [aPlug, bJack], 0.3)] }, frequencyHz)).toBe(
      expected,
    );
  });
});

describe('refusals of adaptersBetween', () => {
  const sound = catalogue();
  test.each<[string, string, unknown]>([
    ['wrong-type', 'search', null],
    ['wrong-type', 'search.catalogue', { catalogue: 5 }],
    ['wrong-type', 'search.catalogue.connectors', { catalogue: { ...sound, connectors: {} } }],
    ['wrong-type', 'search.catalogue.cables', { catalogue: { ...sound, cables: undefined } }],
    ['wrong-type', 'search.catalogue.adapters', { catalogue: { ...sound, adapters: 'none' } }],
    ['wrong-type', 'search.catalogue.pigtails', { catalogue: { ...sound, pigtails: {} } }],
    ['out-of-range', 'search.frequencyHz', { frequencyHz: 868.1 }],
    ['not-a-finite-number', 'search.frequencyHz', { frequencyHz: '868 MHz' }],
  ])('%s %s', (code, argument, search) => {
    expect(() => adaptersBetween(partEnd('N jack'), partEnd('N plug'), search as never)).toThrow(
      expect.objectContaining({ name: 'InputError', code, argument }),
    );
  });

  test('a series that the catalogue does not have', () => {
    expect(() => adaptersBetween(aJack, partEnd('N plug'), { catalogue: sound })).toThrow(
      expect.objectContaining({
        code: 'unknown-option',
        argument: 'b.series',
        expected: expect.stringContaining('A, B, C'),
      }),
    );
  });

  test('the cable of a pigtail that the catalogue does not have', () => {
    const pigtails = [{ ...pigtail('short', [aPlug, bJack], 0.3), cable: 'lost' }];
    expect(() => adaptersBetween(aJack, bPlug, { catalogue: catalogue({ pigtails }) })).toThrow(
      expect.objectContaining({ code: 'unknown-option' }),
    );
  });
});
