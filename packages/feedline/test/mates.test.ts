import { endName, mates, type PartEnd, partEnd } from '@finial/feedline';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };

/** The table writes `N 50 plug` and `N plug (pin)`. */
function endOf(words: string): PartEnd {
  const plain = words.replace(/ \(.*\)$/, '');
  const [, series, impedance, gender] = /^(\w+) (50|75) (plug|jack)$/.exec(plain) ?? [];
  return partEnd(series === undefined ? plain : `${series} ${gender} ${impedance} ohm`);
}

const end: fc.Arbitrary<PartEnd> = fc.record({
  series: fc.constantFrom('N', 'SMA', 'TNC', 'BNC', 'UHF', 'F', 'MCX', 'MMCX', 'precision 3.5 mm', 'my own'),
  gender: fc.constantFrom('plug', 'jack'),
  polarity: fc.constantFrom('normal', 'reverse', undefined),
  impedanceOhm: fc.constantFrom(50, 75, 93.5, undefined),
});

describe('mates against the table of mating rules', () => {
  test('the table still holds its rows', () => expect(vectors.matingRules).toHaveLength(13));

  test.each(vectors.matingRules)('$a and $b', ({ a, b, mates: expected }) => {
    expect(mates(endOf(a), endOf(b)).mates).toBe(expected);
    expect(mates(endOf(b), endOf(a)).mates).toBe(expected);
  });

  // Column 'why' of the same table: what is said to damage or to look joined.
  test.each([
    ['SMA plug', 'RP-SMA jack', { harmful: true, looksJoined: true }],
    ['RP-SMA plug', 'SMA jack', { harmful: false, looksJoined: true }],
    ['N plug', 'N jack 75 ohm', { harmful: true, looksJoined: true }],
    ['N plug 75 ohm', 'N jack', { harmful: false, looksJoined: true }],
    ['UHF plug', 'N jack', { harmful: true, looksJoined: false }],
    ['N plug', 'UHF jack', { harmful: true, looksJoined: false }],
    ['MCX plug', 'MMCX jack', { harmful: false, looksJoined: false }],
    ['N jack', 'N jack', { harmful: false, looksJoined: false }],
    // One thread, but two moving halves never meet.
    ['UHF plug', 'N plug', { harmful: false, looksJoined: false }],
    // Of other series no parts of both impedances are known: nothing is claimed about how they would look.
    ['SMA plug', 'SMA jack 75 ohm', { harmful: false, looksJoined: false }],
    ['SMA plug 75 ohm', 'SMA jack', { harmful: false, looksJoined: false }],
  ])('%s on %s', (a, b, expected) => {
    expect(mates(partEnd(a), partEnd(b))).toMatchObject({ ...expected, mates: false });
  });

  test.each([
    ['N plug', 'N jack', /^one series/],
    ['SMA plug', 'precision 3.5 mm jack', /made to join; only with a clean contact/],
    ['BNC plug', 'BNC jack 75 ohm', /joins, and 50 ohms meet 75 ohms/],
  ])('%s and %s go together, unharmed, and it is said how', (a, b, reason) => {
    const mating = mates(partEnd(a), partEnd(b));
    expect(mating).toMatchObject({ mates: true, harmful: false, looksJoined: true });
    expect(mating.reason).toMatch(reason);
  });

  test('two series are named in the order of the alphabet where neither half is the plug', () => {
    expect(mates(partEnd('SMA plug'), partEnd('N plug')).reason).toBe('N and SMA are different series');
  });

  test('50 on 75 ohms is VSWR 1.5, with the loss of the mismatch table', () => {
    const row = vectors.mismatch.find(({ vswr }) => vswr === 1.5);
    const { vswr, mismatchLossDb } = mates(partEnd('BNC plug'), partEnd('BNC jack 75 ohm'));
    expect(vswr).toBe(1.5);
    expect(mismatchLossDb).toBeCloseTo(row?.mismatchLossDb ?? Number.NaN, 4);
  });

  test('other series of two impedances are not assumed to join', () => {
    expect(mates(partEnd('SMA plug'), partEnd('SMA jack 75 ohm')).mates).toBe(false);
  });
});

describe('mates', () => {
  test('does not depend on who is named first', () => {
    fc.assert(
      fc.property(end, end, (a, b) => {
        expect(mates(a, b)).toEqual(mates(b, a));
      }),
    );
  });

  test('never joins a half with its own kind', () => {
    fc.assert(
      fc.property(end, (a) => {
        expect(mates(a, a).mates).toBe(false);
      }),
    );
  });

  test('joins a half with its counterpart, without loss by reflection', () => {
    fc.assert(
      fc.property(end, (a) => {
        const counterpart = { ...a, gender: a.gender === 'plug' ? ('jack' as const) : ('plug' as const) };
        expect(mates(a, counterpart)).toMatchObject({
          mates: true,
          harmful: false,
          vswr: 1,
          mismatchLossDb: 0,
        });
      }),
    );
  });

  test('a harmful pair never counts as mating', () => {
    fc.assert(
      fc.property(end, end, (a, b) => {
        const { mates: joins, harmful } = mates(a, b);
        expect(joins && harmful).toBe(false);
      }),
    );
  });
});

describe('partEnd and endName', () => {
  test.each([
    ['N plug', { series: 'N', gender: 'plug', polarity: 'normal', impedanceOhm: 50 }],
    ['RP-SMA jack', { series: 'SMA', gender: 'jack', polarity: 'reverse', impedanceOhm: 50 }],
    ['BNC jack 75 ohm', { series: 'BNC', gender: 'jack', polarity: 'normal', impedanceOhm: 75 }],
    ['UHF plug 93.25 ohm', { series: 'UHF', gender: 'plug', polarity: 'normal', impedanceOhm: 93.25 }],
    [
      'micro-coax 2.5 mm height plug',
      { series: 'micro-coax 2.5 mm height', gender: 'plug', polarity: 'normal', impedanceOhm: 50 },
    ],
  ])('%s', (name, expected) => {
    expect(partEnd(name)).toEqual(expected);
    expect(endName(partEnd(name))).toBe(name);
  });

  test('blanks around the words do not count', () => {
    expect(partEnd('  N plug ')).toEqual(partEnd('N plug'));
  });

  test('what one writes the other reads', () => {
    fc.assert(
      fc.property(end, (a) => {
        const { polarity = 'normal', impedanceOhm = 50 } = a;
        expect(partEnd(endName(a))).toEqual({ ...a, polarity, impedanceOhm });
      }),
    );
  });

  test.each(['N male', 'N', '', 'plug', ' plug', 'N plug 75', 'RP- plug', 'RP-RP-SMA plug'])(
    "'%s' is refused",
    (name) => {
      expect(() => partEnd(name)).toThrow(expect.objectContaining({ name: 'InputError' }));
    },
  );

  test.each([0, 0.5, 501, Number.NaN, Number.POSITIVE_INFINITY, '75'])(
    'an impedance of %s is refused',
    (value) => {
      const bad = { series: 'N', gender: 'plug', impedanceOhm: value } as PartEnd;
      for (const call of [
        () => endName(bad),
        () => mates(bad, partEnd('N jack')),
        () => mates(partEnd('N jack'), bad),
      ]) {
        expect(call).toThrow(expect.objectContaining({ argument: expect.stringMatching(/impedanceOhm$/) }));
      }
    },
  );
});
