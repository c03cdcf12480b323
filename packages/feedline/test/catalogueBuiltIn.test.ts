import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import {
  attenuationDb,
  bandFilters,
  builtInCatalogue,
  type Cable,
  cableNamed,
  coaxialCables,
  commonAdapters,
  commonPigtails,
  connectorOf,
  connectorSeries,
  surgeArrestors,
} from '../src/index.js';

const rows = Object.entries(builtInCatalogue).flatMap(([list, entries]) =>
  entries.map((row: { designation: string }) => [`${list}: ${row.designation}`, row] as const),
);

describe('every row', () => {
  test('there are enough to build a gateway from', () => {
    expect(coaxialCables).toHaveLength(23);
    expect(connectorSeries).toHaveLength(15);
    expect(commonAdapters.length).toBeGreaterThan(50);
    expect(commonPigtails.length).toBeGreaterThan(20);
    expect([...surgeArrestors, ...bandFilters].length).toBeGreaterThan(10);
  });
  test('has a name of its own', () => {
    const names = rows.map(([name]) => name.toUpperCase());
    expect(new Set(names).size).toBe(names.length);
  });
  test('says where its figures come from', () => {
    for (const [, row] of rows) {
      expect(row).toMatchObject({
        source: expect.stringMatching(/.{10}/),
        status: expect.stringMatching(/^(read|computed|memory)$/),
      });
    }
  });
  test('has ends whose series and impedance exist, and contacts that exist', () => {
    const parts = [...commonAdapters, ...commonPigtails, ...surgeArrestors, ...bandFilters];
    for (const end of parts.flatMap(({ ends }) => ends)) {
      const connector = connectorOf(end);
      if (end.polarity === 'reverse') expect(connector.reversePolarityExists).toBe(true);
    }
  });
  test('states a band and a loss that can be', () => {
    for (const part of [...commonAdapters, ...surgeArrestors, ...bandFilters]) {
      expect(part.lowestFrequencyHz).toBeLessThan(part.highestFrequencyHz);
      expect(part.lossDb).toBeGreaterThan(part.lossUncertaintyDb - 1e-12);
      for (const end of part.ends) {
        expect(part.highestFrequencyHz).toBeLessThanOrEqual(connectorOf(end).highestFrequencyHz);
      }
    }
    for (const { leastPairLossDb, pairLossAtOneGigahertzDb, greatestPairLossDb } of connectorSeries) {
      expect(leastPairLossDb).toBeLessThanOrEqual(pairLossAtOneGigahertzDb);
      expect(pairLossAtOneGigahertzDb).toBeLessThanOrEqual(greatestPairLossDb);
    }
  });
  test('of a pigtail names a cable of the catalogue', () => {
    for (const { cable } of commonPigtails)
      expect(coaxialCables.map((row) => row.designation)).toContain(cable);
  });
});

describe('connectors against the reference table', () => {
  // tests/reference/hardware-vectors.json, connectors; RP-SMA is a polarity here, and one board size has another name.
  const names: Readonly<Record<string, string>> = {
    'BNC 50 ohm': 'BNC',
    'BNC 75 ohm': 'BNC',
    'micro-coax 1.3 mm class': 'micro-coax 2.5 mm height',
  };
  const compared = vectors.connectors.filter(({ series }) => series !== 'RP-SMA');
  test('the file still holds its series', () => expect(compared).toHaveLength(11));
  test.each(compared)('$series', (row) => {
    const impedanceOhm = row.series === 'F' || row.series.includes('75') ? 75 : 50;
    const connector = connectorOf({ series: names[row.series] ?? row.series, impedanceOhm });
    expect(row.coupling).toContain(connector.coupling);
    if (connector.thread) expect(row.coupling).toContain(connector.thread.split(' ')[0]);
    if (typeof row.matingCycles === 'number') expect(connector.matingCycles).toBe(row.matingCycles);
    const numbers = [...row.torqueNm.matchAll(/[\d.]+/g)].map(Number);
    if (connector.leastTorqueNm !== undefined) {
      expect([connector.leastTorqueNm, connector.greatestTorqueNm]).toEqual(numbers.slice(0, 2));
    }
    const gigahertz = [...row.frequencyGHz.matchAll(/[\d.]+/g)].map(Number);
    expect(gigahertz).toContain(connector.highestFrequencyHz / 1e9);
    expect(connector.sealing).toBe(
      /^yes/.test(row.weatherSealed) ? 'gasket' : /^no/.test(row.weatherSealed) ? 'none' : 'splash',
    );
  });
  test.each(Object.entries(vectors.connectorLossRule))(
    'pair of N connectors at %s GHz',
    (gigahertz, lossDb) => {
      const rule = connectorOf({ series: 'N' }).pairLossAtOneGigahertzDb * Math.sqrt(Number(gigahertz));
      expect(Math.abs(rule - lossDb)).toBeLessThanOrEqual(0.000_051);
    },
  );
});

describe('what parts of the trade can do', () => {
  test('reverse polarity is sold in N, SMA, TNC and BNC at 50 ohms, and in nothing else (from memory)', () => {
    const reversible = connectorSeries.filter((row) => row.reversePolarityExists);
    expect(reversible.map(({ series, impedanceOhm }) => `${series} ${impedanceOhm}`).sort()).toEqual([
      'BNC 50',
      'N 50',
      'SMA 50',
      'TNC 50',
    ]);
  });
  // Hardware reference, surge arrestors: "gas-discharge (DC pass ...), quarter-wave stub (no DC pass ...)".
  test.each(surgeArrestors)('$designation', ({ principle, passesDirectCurrent, sparkOverV }) => {
    expect(passesDirectCurrent).toBe(principle === 'gas-discharge');
    expect(sparkOverV).toBe(principle === 'gas-discharge' ? 90 : undefined);
  });
});

describe('low-loss 7 mm class', () => {
  test('lies between its neighbours at every point', () => {
    for (const { frequencyHz, attenuationDbPerM } of cableNamed('low-loss 7 mm class').attenuation) {
      const of = (cable: string) => attenuationDb({ cable, lengthM: 1, frequencyHz });
      expect(attenuationDbPerM).toBeLessThan(of('low-loss 6 mm class'));
      expect(attenuationDbPerM).toBeGreaterThan(of('low-loss 10 mm class'));
    }
  });
  test('is near a cable of that size in the trade', () => {
    // 7.3 mm foam cables are sold with about 21 dB per 100 m at 1 GHz (from memory).
    const got = attenuationDb({ cable: 'low-loss 7 mm class', lengthM: 100, frequencyHz: 1e9 });
    expect(Math.abs(got / 21 - 1)).toBeLessThan(0.05);
  });
});

describe('cableNamed', () => {
  test.each([
    ['RG-213/U', 'RG-213/U'],
    ['rg213', 'RG-213/U'],
    ['RG 316', 'RG-316/U'],
    ['RG-58C', 'RG-58C/U'],
    ['RG-8X', 'RG-8X (foam)'],
    ['RG-6', 'RG-6 / EN 50117 6.9 mm class'],
    ['Low-loss 10 mm', 'low-loss 10 mm class'],
    ['micro-coax 1.37', 'micro-coax 1.37 mm class'],
  ])('%s', (name, designation) => expect(cableNamed(name).designation).toBe(designation));

  test.each([
    ['RG-58', /RG-58C\/U.*RG-58\/U solid/],
    ['RG-8', /RG-8\/U.*RG-8X/],
    ['RG-21', /RG-213\/U/],
    ['', /RG-58C\/U/],
    ['low-loss', /5 mm class.*15 mm class/],
  ])('%j is not one cable', (name, listed) => {
    expect(() => cableNamed(name)).toThrow(
      expect.objectContaining({ code: 'unknown-option', argument: 'designation' }),
    );
    expect(() => cableNamed(name)).toThrow(listed);
  });
  const named = (designation: string, ...designations: string[]) => {
    const cables = designations.map((own) => ({ ...cableNamed('RG-213'), designation: own }));
    return cableNamed(designation, { ...builtInCatalogue, cables }).designation;
  };
  test('a whole name goes before the beginning of another', () => {
    expect(named('reel', 'reel two', 'reel')).toBe('reel');
  });
  test('a number must be whole, the rest of a name may be left off', () => {
    expect(() => named('RG-21', 'RG-213')).toThrow(expect.objectContaining({ code: 'unknown-option' }));
    expect(named('RG-213', 'RG-213/U')).toBe('RG-213/U');
    expect(named('class 50 type', 'class 50 type 3')).toBe('class 50 type 3');
    expect(named('50 ohm 7', '50 ohm 7 mm')).toBe('50 ohm 7 mm');
  });
  test('no name names nothing, not even an only cable', () => {
    expect(() => named('', 'reel')).toThrow(/one cable: 'reel'/);
  });
  test('where several begin alike, only those are offered', () => {
    expect(() => named('reel', 'reel one', 'reel two', 'other')).toThrow(
      /one cable: 'reel one' or 'reel two', got/,
    );
    expect(() => named('drum', 'reel one', 'other')).toThrow(/one cable: 'reel one' or 'other', got/);
  });
  test('other catalogues', () => {
    const own = { ...cableNamed('RG-213'), designation: 'own reel' } as Cable;
    expect(cableNamed('own reel', { ...builtInCatalogue, cables: [own] })).toBe(own);
    expect(() => cableNamed('RG-213', { ...builtInCatalogue, cables: [own] })).toThrow(/'own reel'/);
    expect(() => cableNamed('RG-213', null as never)).toThrow(
      expect.objectContaining({ argument: 'catalogue' }),
    );
    expect(() => cableNamed('RG-213', {} as never)).toThrow(
      expect.objectContaining({ argument: 'catalogue.cables' }),
    );
    expect(() => cableNamed(213 as never)).toThrow(expect.objectContaining({ code: 'wrong-type' }));
  });
});

describe('connectorOf', () => {
  test('50 ohm unless said', () => expect(connectorOf({ series: 'BNC' }).impedanceOhm).toBe(50));
  test('what is not there is refused with what is', () => {
    expect(() => connectorOf({ series: 'RP-SMA' })).toThrow(/'SMA' at 50 ohm/);
    expect(() => connectorOf({ series: 'RP-SMA' })).toThrow(
      expect.objectContaining({ argument: 'end.series', received: 'RP-SMA' }),
    );
    expect(() => connectorOf({ series: 'F' })).toThrow(
      expect.objectContaining({ argument: 'end.impedanceOhm', received: 50, expected: "'F' at 75 ohm" }),
    );
    expect(() => connectorOf({ series: 5 as never })).toThrow(
      expect.objectContaining({ code: 'wrong-type', argument: 'end.series' }),
    );
  });
  test.each([
    ['end', 5],
    ['end.series', {}],
    ['end.impedanceOhm', { series: 'N', impedanceOhm: -50 }],
    ['end.impedanceOhm', { series: 'N', impedanceOhm: Number.NaN }],
  ])('%s', (argument, end) => {
    expect(() => connectorOf(end as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  });
});
