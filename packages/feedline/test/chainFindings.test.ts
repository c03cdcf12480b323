import {
  type Catalogue,
  type CatalogueRow,
  type ChainConditions,
  type ChainPart,
  checkChain,
  partEnd,
} from '@finial/feedline';
import { describe, expect, test } from 'vitest';
import { adapter, aJack, aPlug, bJack, bPlug, cable, catalogue, connector, pigtail } from './byHand.js';

const radio: ChainPart = { kind: 'port', name: 'radio', end: aJack };
const antenna: ChainPart = { kind: 'port', name: 'antenna', end: aJack };
const run = { kind: 'cable-run', cable, lengthM: 1, ends: [aPlug, aPlug] } as const;
const tail = pigtail('tail', [aPlug, aPlug], 0.5);
const { kind: _kind, ...twoEnded } = adapter('row', [aPlug, aPlug]);
const arrestor = {
  ...twoEnded,
  kind: 'arrestor',
  passesDirectCurrent: true,
  principle: 'gas-discharge',
} as const;

function findingsOf(part: ChainPart, rows: Partial<Catalogue> = {}, terms: Partial<ChainConditions> = {}) {
  const conditions = { frequencyHz: 1e9, catalogue: catalogue(rows), ...terms };
  return checkChain([radio, part, antenna], conditions).findings;
}
const rulesOf = (...given: Parameters<typeof findingsOf>) =>
  findingsOf(...given).map(({ rule, severity }) => `${rule} ${severity}`);

describe('a sound chain of read figures', () => {
  test.each<[string, ChainPart]>([
    ['cable', run],
    ['a pigtail', tail],
    ['an arrestor', arrestor],
  ])('of %s calls for no remark', (_name, part) => expect(findingsOf(part)).toEqual([]));

  test('nor for a warning', () => {
    expect(
      checkChain([radio, arrestor, antenna], { frequencyHz: 1e9, catalogue: catalogue() }).warnings,
    ).toEqual([]);
  });
});

describe('limits: what lies at one is within it', () => {
  test.each([
    [80, []],
    [81, ['cable-too-hot fix']],
  ])('insulation for 80 degrees C at %d', (temperatureC, expected) => {
    const sturdy = { ...cable, maxTemperatureC: 80 };
    expect(rulesOf({ ...run, cable: sturdy, temperatureC })).toEqual(expected);
    expect(rulesOf(run, {}, { temperatureC })).toEqual([]);
    expect(rulesOf(tail, { cables: [sturdy] }, { temperatureC })).toEqual(expected);
  });

  test.each([
    [863e6, []],
    [870e6, []],
    [862e6, ['part-outside-band fix']],
    [871e6, ['part-outside-band fix']],
  ])('an arrestor for 863 to 870 MHz at %d Hz', (frequencyHz, expected) => {
    const narrow = { ...arrestor, lowestFrequencyHz: 863e6, highestFrequencyHz: 870e6 };
    expect(rulesOf(narrow, {}, { frequencyHz })).toEqual(expected);
  });

  test.each([
    [300e6, []],
    [301e6, ['connector-beyond-frequency fix']],
  ])('connectors up to 300 MHz at %d Hz', (frequencyHz, expected) => {
    const connectors = [connector('A', { highestFrequencyHz: 300e6 })];
    expect(rulesOf(arrestor, { connectors }, { frequencyHz })).toEqual(expected);
  });

  // Board connectors take about 30 joinings, the threaded series 500 (hardware reference, connector table).
  test.each([
    [undefined, []],
    [500, []],
    [51, []],
    [50, ['few-matings note']],
    [30, ['few-matings note']],
  ])('connectors for %s joinings', (matingCycles, expected) => {
    expect(rulesOf(arrestor, { connectors: [connector('A', { matingCycles })] })).toEqual(expected);
  });

  // 10 log(2) is 3.01 dB.
  test.each([
    [2.8, []],
    [2.81, ['half-the-power-lost note']],
  ])('half the power: %d dB of cable and 0.2 dB of joints', (lengthM, expected) => {
    expect(rulesOf({ ...run, lengthM })).toEqual(expected);
  });

  test('the figures are told as people say them', () => {
    const [finding] = findingsOf({ ...arrestor, highestFrequencyHz: 870e6 }, {}, { frequencyHz: 902.3e6 });
    expect(finding).toMatchObject({ measured: '902.3 MHz', limit: '0 MHz to 870 MHz' });
    expect(finding?.message).not.toContain('unverified');
  });
});

describe('75 ohm cable between 50 ohm connectors', () => {
  const cables = [{ ...cable, impedanceOhm: 75 }];
  // Two steps of VSWR 1.5, 0.1773 dB each in the mismatch table of the hardware reference.
  test.each<[string, ChainPart]>([
    ['by the metre', { ...run, cable: { ...cable, impedanceOhm: 75 } }],
    ['as a pigtail', tail],
  ])('reflects twice: %s', (_name, part) => {
    expect(findingsOf(part, { cables })).toMatchObject([
      { rule: 'cable-impedance', severity: 'fix', measured: '0.35 dB' },
    ]);
  });
});

describe('figures from memory', () => {
  const memory = { status: 'memory' } as const;
  const fromMemory = (row: CatalogueRow) => `Figures from memory, unverified: ${row.designation}. `;
  const forgotten = { ...cable, ...memory };
  const connectors = [connector('A', memory)];
  test.each<[string, CatalogueRow, ChainPart, Partial<Catalogue>]>([
    ['of the cable', forgotten, { ...run, cable: forgotten }, {}],
    ['of a pigtail', tail, { ...tail, ...memory }, {}],
    ['of its cable', forgotten, tail, { cables: [forgotten] }],
    ['of an arrestor', arrestor, { ...arrestor, ...memory }, {}],
    ['of the connectors, said once', connector('A'), arrestor, { connectors }],
  ])('%s are named', (_name, row, part, rows) => {
    const [finding, ...others] = findingsOf(part, rows);
    expect(others).toEqual([]);
    expect(finding).toMatchObject({ rule: 'unverified-figures', severity: 'note' });
    expect(finding?.message).toContain(fromMemory(row));
  });

  // A figure that no document confirms advises; it never asks for a change.
  test.each<[string, ChainPart, Partial<ChainConditions>]>([
    ['part-outside-band', { ...arrestor, ...memory, highestFrequencyHz: 870e6 }, {}],
    ['cable-too-hot', { ...run, cable: { ...forgotten, maxTemperatureC: 80 } }, { temperatureC: 90 }],
  ])('%s is only a note then, and says so', (rule, part, terms) => {
    expect(findingsOf(part, {}, terms).find((finding) => finding.rule === rule)).toMatchObject({
      severity: 'note',
      message: expect.stringContaining('(unverified)'),
    });
  });
});

describe('open ends', () => {
  test('a port closes its side, a part leaves it open', () => {
    const conditions = { frequencyHz: 1e9, catalogue: catalogue() };
    const openEnd = (parts: readonly ChainPart[]) =>
      checkChain(parts, conditions).findings.find(({ rule }) => rule === 'open-end')?.message;
    const half = { ...run, ends: [aPlug, bPlug] } as const;
    expect(openEnd([radio, half])).toContain('joined: B plug.');
    expect(openEnd([half])).toContain('joined: A plug, B plug.');
    expect(openEnd([radio])).toBeUndefined();
  });
});

describe('losses of a chain, by hand', () => {
  const conditions = { frequencyHz: 1e9, catalogue: catalogue() };

  test('an arrestor with its two pairs', () => {
    const chain = checkChain([radio, arrestor, antenna], conditions);
    expect(chain.lossDb).toBeCloseTo(0.1 + 0.2 + 0.1, 12);
    expect(chain.parts[1]).toMatchObject({ lossDb: 0.2, lossUncertaintyDb: 0.03 });
    expect(chain.lossUncertaintyDb).toBeCloseTo(Math.hypot(0.04, 0.03, 0.04), 12);
  });

  test('a pigtail as the length of its cable', () => {
    const [, part] = checkChain([radio, tail, antenna], conditions).parts;
    expect(part?.lossDb).toBeCloseTo(0.5, 12);
    expect(part?.lossUncertaintyDb).toBeCloseTo(0.05, 12);
  });

  test('a joint that is mended counts as what mends it, and is no gap in the figures', () => {
    const rows = catalogue({ adapters: [adapter('mends', [aPlug, bPlug])] });
    const far: ChainPart = { kind: 'port', name: 'antenna', end: bJack };
    const chain = checkChain([radio, far], { frequencyHz: 1e9, catalogue: rows });
    expect(chain.joints[0]?.lossDb).toBeCloseTo(0.4, 12);
    expect(chain.lossUncertaintyDb).toBeCloseTo(Math.hypot(0.04, 0.03, 0.04), 12);
    expect(chain.warnings).toEqual([]);
  });

  test('one that nothing mends adds nothing, not even doubt', () => {
    const far: ChainPart = { kind: 'port', name: 'antenna', end: bJack };
    const { joints, warnings } = checkChain([radio, far], conditions);
    expect(joints[0]).toMatchObject({ lossDb: 0, lossUncertaintyDb: 0, adapters: undefined });
    expect(warnings).toHaveLength(1);
  });

  test('a pair of two impedances loses in its contacts and by reflection', () => {
    const connectors = [connector('BNC', { pairLossAtOneGigahertzDb: 0.2 })];
    const far: ChainPart = { kind: 'port', name: 'television', end: partEnd('BNC jack 75 ohm') };
    const near: ChainPart = { kind: 'port', name: 'radio', end: partEnd('BNC plug') };
    const { joints } = checkChain([near, far], { frequencyHz: 1e9, catalogue: catalogue({ connectors }) });
    expect(joints[0]?.lossDb).toBeCloseTo(0.2 + 0.1773, 4);
  });

  test('of two rows the worse counts, by impedance where there is one, with the root of frequency', () => {
    const rows: readonly (readonly [number, number, number])[] = [
      [50, 0.1, 0.14],
      [75, 0.3, 0.26],
    ];
    const connectors = rows.map(([impedanceOhm, pairLossAtOneGigahertzDb, greatestPairLossDb]) =>
      connector('BNC', {
        designation: `BNC ${impedanceOhm}`,
        impedanceOhm,
        pairLossAtOneGigahertzDb,
        greatestPairLossDb,
      }),
    );
    const contactsDb = (first: string, second: string) => {
      const parts: readonly ChainPart[] = [
        { kind: 'port', name: 'a', end: partEnd(first) },
        { kind: 'port', name: 'b', end: partEnd(second) },
      ];
      const { joints } = checkChain(parts, { frequencyHz: 4e9, catalogue: catalogue({ connectors }) });
      const { lossDb = 0, mismatchLossDb = 0, lossUncertaintyDb = 0 } = joints[0] ?? {};
      // The reflection is as uncertain as it is large; taken out of the sum of squares, the contacts are left.
      return [lossDb - mismatchLossDb, Math.sqrt(lossUncertaintyDb ** 2 - mismatchLossDb ** 2)];
    };
    const near = (got: readonly number[], lossDb: number, uncertaintyDb: number) => {
      expect(got[0]).toBeCloseTo(lossDb, 9);
      expect(got[1]).toBeCloseTo(uncertaintyDb, 9);
    };
    // At 4 GHz everything is twice that of 1 GHz.
    near(contactsDb('BNC plug', 'BNC jack'), 0.2, 0.08);
    near(contactsDb('BNC plug 75 ohm', 'BNC jack 75 ohm'), 0.6, 0.2);
    near(contactsDb('BNC plug', 'BNC jack 75 ohm'), 0.6, 0.2);
    // No row has 93 ohms: the first of the series is near enough.
    near(contactsDb('BNC plug 93 ohm', 'BNC jack 93 ohm'), 0.2, 0.08);
  });

  test('a chain that loses nothing has no shares, and radiates what it is told', () => {
    const alone = checkChain([radio], { ...conditions, conductedPowerDbm: 14, antennaGainDbi: 3 });
    expect(alone).toMatchObject({ lossDb: 0, eirpDbm: 17, parts: [{ shareOfLossRatio: 0 }] });
    expect(checkChain([radio], conditions)).not.toHaveProperty('eirpDbm');
  });

  test('a warning about a cable says which length it is about', () => {
    const parts = [{ ...run, lengthM: 7 }];
    const { warnings } = checkChain(parts, { ...conditions, frequencyHz: 3e9, outsideValidity: 'allow' });
    expect(warnings.length).toBeGreaterThan(0);
    for (const warning of warnings) expect(warning).toMatch(/^7 m of round: /);
  });
});
