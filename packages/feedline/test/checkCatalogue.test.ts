import { readFileSync } from 'node:fs';
import { isInputError } from '@finial/units';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { builtInCatalogue } from '../src/catalogue/builtInCatalogue.js';
import { catalogueSchema } from '../src/catalogue/catalogueSchema.js';
import { checkCatalogue } from '../src/catalogue/checkCatalogue.js';
import { mergeCatalogues } from '../src/catalogue/mergeCatalogues.js';
import type { Adapter, Cable, Catalogue, Connector } from '../src/catalogue/parts.js';

const cable: Cable = {
  kind: 'cable',
  designation: 'attic reel',
  source: 'own measurement',
  status: 'read',
  construction: 'solid centre, foil and braid',
  impedanceOhm: 50,
  velocityFactor: 0.83,
  dielectric: 'foam PE',
  outerDiameterM: 0.0054,
  bendRadiusM: 0.03,
  attenuation: [
    { frequencyHz: 400e6, attenuationDbPerM: 0.24 },
    { frequencyHz: 868e6, attenuationDbPerM: 0.36 },
  ],
  attenuationUncertaintyRatio: 0.05,
};

const connector: Connector = {
  kind: 'connector',
  designation: 'N, 50 ohm',
  source: 'test',
  status: 'memory',
  series: 'N',
  impedanceOhm: 50,
  standard: 'IEC 61169-16',
  coupling: 'threaded',
  reversePolarityExists: true,
  highestFrequencyHz: 11e9,
  pairLossAtOneGigahertzDb: 0.05,
  leastPairLossDb: 0.05,
  greatestPairLossDb: 0.15,
  sealing: 'gasket',
  sealingPractice: 'own gasket',
};

const adapter: Adapter = {
  kind: 'adapter',
  designation: 'N jack to SMA plug',
  source: 'test',
  status: 'memory',
  ends: [
    { series: 'N', gender: 'jack' },
    { series: 'SMA', gender: 'plug' },
  ],
  lossDb: 0.1,
  lossUncertaintyDb: 0.05,
  lowestFrequencyHz: 0,
  highestFrequencyHz: 6e9,
};

const small = { cables: [cable], connectors: [connector], adapters: [adapter] };

function refusalOf(call: () => unknown): {
  readonly code: string;
  readonly argument: string;
  readonly message: string;
} {
  try {
    call();
  } catch (error) {
    if (isInputError(error)) return error;
    throw error;
  }
  throw new Error('accepted');
}

/** The catalogue with one place changed: `cables.0.attenuation.1.frequencyHz`. */
function changed(path: string, value: unknown): unknown {
  const data = structuredClone(small) as Record<string, unknown>;
  const keys = path.split('.');
  const last = keys.pop() ?? '';
  let holder = data;
  for (const key of keys) holder = holder[key] as Record<string, unknown>;
  holder[last] = value;
  return data;
}

describe('checkCatalogue', () => {
  test('gives a sound catalogue back as a copy, absent lists empty', () => {
    const checked = checkCatalogue(small);
    expect(checked).toEqual({ ...small, pigtails: [], arrestors: [], filters: [] });
    expect(checked.cables[0]).not.toBe(cable);
  });

  test('accepts the built-in catalogue, also after a journey as JSON', () => {
    expect(checkCatalogue(builtInCatalogue)).toEqual(builtInCatalogue);
    expect(checkCatalogue(JSON.parse(JSON.stringify(builtInCatalogue)))).toEqual(builtInCatalogue);
  });

  test('takes undefined for left out', () => {
    expect(checkCatalogue(changed('cables.0.maxTemperatureC', undefined)).cables).toEqual([cable]);
  });

  test.each<[string, unknown, string, string]>([
    [
      'cables.0.attenuation.1.frequencyHz',
      '868e6',
      'not-a-finite-number',
      'cables[0].attenuation[1].frequencyHz',
    ],
    [
      'cables.0.attenuation.1.frequencyHz',
      Number.NaN,
      'not-a-finite-number',
      'cables[0].attenuation[1].frequencyHz',
    ],
    ['cables.0.attenuation.1.frequencyHz', 400e6, 'out-of-range', 'cables[0].attenuation[1].frequencyHz'],
    ['cables.0.attenuation.1.frequencyHz', 200e9, 'out-of-range', 'cables[0].attenuation[1].frequencyHz'],
    ['cables.0.attenuation', [], 'missing', 'cables[0].attenuation'],
    ['cables.0.attenuation', {}, 'wrong-type', 'cables[0].attenuation'],
    ['cables.0.attenuationUncertaintyRatio', undefined, 'missing', 'cables[0].attenuationUncertaintyRatio'],
    ['cables.0.velocityFactor', 1.01, 'out-of-range', 'cables[0].velocityFactor'],
    ['cables.0.velocityFactor', 0, 'out-of-range', 'cables[0].velocityFactor'],
    ['cables.0.velocityFaktor', 0.8, 'unknown-option', 'cables[0].velocityFaktor'],
    ['cables.0.toString', 'x', 'unknown-option', 'cables[0].toString'],
    ['cables.0.designation', '', 'out-of-range', 'cables[0].designation'],
    ['cables.0.status', 'guessed', 'unknown-option', 'cables[0].status'],
    ['cables.0.kind', 'pigtail', 'unknown-option', 'cables[0].kind'],
    ['cables.0.sunlightResistant', 'yes', 'wrong-type', 'cables[0].sunlightResistant'],
    ['cables.1', cable, 'malformed-file', 'cables[1].designation'],
    ['cables.3', { ...cable, designation: 'other' }, 'wrong-type', 'cables[1]'],
    [
      'cables.0.powerLimits',
      [{ frequencyHz: 1e9, powerW: -3 }],
      'out-of-range',
      'cables[0].powerLimits[0].powerW',
    ],
    ['connectors.0.matingCycles', 2.5, 'out-of-range', 'connectors[0].matingCycles'],
    ['connectors.0.greatestPairLossDb', 0.01, 'out-of-range', 'connectors[0].greatestPairLossDb'],
    ['connectors.1', { ...connector, designation: 'N too' }, 'malformed-file', 'connectors[1].series'],
    ['adapters.0.ends', [adapter.ends[0]], 'missing', 'adapters[0].ends'],
    ['adapters.0.ends.1.gender', 'male', 'unknown-option', 'adapters[0].ends[1].gender'],
    ['adapters.0.lowestFrequencyHz', 7e9, 'out-of-range', 'adapters[0].highestFrequencyHz'],
    ['adapters.0.lowestFrequencyHz', 6e9, 'out-of-range', 'adapters[0].highestFrequencyHz'],
    ['adapters.0.ends', [...adapter.ends, adapter.ends[0]], 'out-of-range', 'adapters[0].ends'],
    ['adapters.0.lossDb', -0.1, 'out-of-range', 'adapters[0].lossDb'],
    ['cables.0.designation', 5, 'wrong-type', 'cables[0].designation'],
    ['cables.0.designation', 'x'.repeat(121), 'out-of-range', 'cables[0].designation'],
    ['wires', [], 'unknown-option', 'wires'],
  ])('refuses %s = %j', (path, value, code, argument) => {
    expect(refusalOf(() => checkCatalogue(changed(path, value)))).toMatchObject({ code, argument });
  });

  test.each<[string, unknown]>([
    ['cables.0.velocityFactor', 1],
    ['cables.0.attenuationUncertaintyRatio', 0],
    ['cables.0.designation', 'x'.repeat(120)],
    // Letters outside the basic plane count once, as JSON Schema counts them.
    ['cables.0.designation', '\u{1D4D0}'.repeat(120)],
    ['cables.0.attenuation.1.frequencyHz', 400e6 + 1],
    ['connectors.0.greatestPairLossDb', connector.leastPairLossDb],
    ['connectors.0.leastTorqueNm', 1],
  ])('accepts %s = %j, at its limit', (path, value) => {
    expect(() => checkCatalogue(changed(path, value))).not.toThrow();
  });

  test('a greatest torque must not be below the least', () => {
    const tightened = (greatestTorqueNm: number) =>
      checkCatalogue({ connectors: [{ ...connector, leastTorqueNm: 1, greatestTorqueNm }] });
    expect(tightened(1).connectors).toHaveLength(1);
    expect(refusalOf(() => tightened(0.9))).toMatchObject({
      code: 'out-of-range',
      argument: 'connectors[0].greatestTorqueNm',
    });
  });

  test.each<[string, unknown, string]>([
    ['cables.0.kind', undefined, "'cable'"],
    ['cables.0.kind', 'pigtail', "'cable'"],
    ['cables.0.status', undefined, "'read' or 'computed' or 'memory'"],
    ['cables.0.designation', undefined, 'a text (name by an open designation)'],
    ['cables.0.velocityFactor', undefined, 'more than 0 to 1 ('],
    ['cables.0.attenuation', undefined, 'a list (attenuation at rising frequencies)'],
    ['cables.0.attenuation', [], 'at least one entry'],
    ['adapters.0.lossDb', -1, '0 to 60 (insertion loss in dB in its band)'],
    ['adapters.0.ends', [], 'at least 2 entries'],
    ['adapters.0.ends', [1, 2, 3], 'at most 2 entries'],
    ['connectors.0.matingCycles', 0, 'a whole number, 1 to 1000000 (how often a pair may be joined)'],
    ['connectors.0.reversePolarityExists', undefined, 'true or false, got'],
    ['connectors.0.reversePolarityExists', 'no', 'true or false, got'],
  ])('%s = %j: says in words what it wants', (path, value, words) => {
    expect(refusalOf(() => checkCatalogue(changed(path, value))).message).toContain(`expected ${words}`);
  });

  test.each([null, undefined, 5, 'text', []])('refuses %j as a catalogue', (data) => {
    expect(refusalOf(() => checkCatalogue(data)).code).toBe('wrong-type');
  });

  test('names the file', () => {
    const { message } = refusalOf(() => checkCatalogue(changed('cables.0.bendRadiusM', -1), 'attic.json'));
    expect(message).toBe(
      'attic.json: cables[0].bendRadiusM: expected more than 0 to 5 (least bend radius in metres), got -1',
    );
  });

  test('without a file the refusal stands by itself, and what is no refusal passes as it is', () => {
    try {
      checkCatalogue({ cables: 5 });
    } catch (error) {
      expect((error as Error).cause).toBeUndefined();
    }
    const trap = new TypeError('a getter of the caller failed');
    const data = {
      get cables() {
        throw trap;
      },
    };
    expect(() => checkCatalogue(data)).toThrow(trap);
    expect(() => checkCatalogue(data, 'attic.json')).toThrow(trap);
  });

  test('a member named __proto__ in a file is refused', () => {
    const data: unknown = JSON.parse('{ "cables": [], "__proto__": { "adapters": [] } }');
    expect(refusalOf(() => checkCatalogue(data))).toMatchObject({
      code: 'unknown-option',
      argument: '__proto__',
    });
  });

  test('whatever comes is accepted or refused by an InputError', () => {
    fc.assert(
      fc.property(
        fc.anything(),
        fc.constantFrom('cables', 'connectors', 'pigtails', 'filters'),
        (data, list) => {
          for (const trial of [data, { [list]: data }, { [list]: [data] }]) {
            try {
              checkCatalogue(trial);
            } catch (error) {
              expect(isInputError(error)).toBe(true);
            }
          }
        },
      ),
    );
  });
});

describe('catalogueSchema', () => {
  test('the published file holds the same', () => {
    const file = new URL('../catalogue.schema.json', import.meta.url);
    expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual(catalogueSchema);
  });

  test('every object of the format is closed, and asks only for members that it has', () => {
    const { $defs = {} } = catalogueSchema;
    const rules = Object.values($defs) as {
      properties: object;
      required: string[];
      additionalProperties: boolean;
    }[];
    expect(rules).toHaveLength(9);
    for (const rule of rules) {
      expect(rule.additionalProperties).toBe(false);
      expect(Object.keys(rule.properties)).toEqual(expect.arrayContaining(rule.required));
    }
  });
});

describe('mergeCatalogues', () => {
  const other = { ...cable, designation: 'shed reel' };

  test('puts the added rows behind those of the base and changes neither', () => {
    const base = checkCatalogue(small);
    const merged = mergeCatalogues(base, { cables: [other] });
    expect(merged).toEqual({ ...base, cables: [cable, other] });
    expect(base.cables).toEqual([cable]);
  });

  test('refuses a name that both have', () => {
    expect(refusalOf(() => mergeCatalogues(small, { cables: [cable] }))).toMatchObject({
      code: 'malformed-file',
      argument: 'merged.cables[1].designation',
    });
  });

  test('replaces in place where asked to, a connector also by series and impedance', () => {
    const better = { ...cable, attenuationUncertaintyRatio: 0.01 };
    const renamed = { ...connector, designation: 'N, measured', pairLossAtOneGigahertzDb: 0.06 };
    const merged = mergeCatalogues(
      { ...small, cables: [cable, other] },
      { cables: [better], connectors: [renamed] },
      { sameName: 'replace' },
    );
    expect(merged.cables).toEqual([better, other]);
    expect(merged.connectors).toEqual([renamed]);
  });

  test('each row goes to its own place, whatever the order, and a new one to the end', () => {
    const better = { ...cable, attenuationUncertaintyRatio: 0.01 };
    const betterOther = { ...other, attenuationUncertaintyRatio: 0.02 };
    const third = { ...cable, designation: 'third reel' };
    const base = { cables: [cable, other], adapters: [adapter] };
    const secondAdapter = { ...adapter, designation: 'another of the same ends' };
    const added = { cables: [third, betterOther, better], adapters: [secondAdapter] };
    const merged = mergeCatalogues(base, added, { sameName: 'replace' });
    expect(merged.cables).toEqual([better, betterOther, third]);
    expect(merged.adapters).toEqual([adapter, secondAdapter]);
  });

  test('a connector of another impedance, or another series, is a row of its own', () => {
    const television = { ...connector, designation: 'N, 75 ohm', impedanceOhm: 75 };
    const threaded = { ...connector, designation: 'TNC', series: 'TNC' };
    const merged = mergeCatalogues(small, { connectors: [television, threaded] }, { sameName: 'replace' });
    expect(merged.connectors).toEqual([connector, television, threaded]);
  });

  test('says which of the two is wrong', () => {
    const broken = { cables: [{ ...cable, bendRadiusM: 50 }] };
    expect(refusalOf(() => mergeCatalogues(broken, small)).argument).toBe('base.cables[0].bendRadiusM');
    expect(refusalOf(() => mergeCatalogues(small, broken)).argument).toBe('added.cables[0].bendRadiusM');
    expect(refusalOf(() => mergeCatalogues(small, undefined as unknown as Catalogue)).argument).toBe('added');
    expect(refusalOf(() => mergeCatalogues(small, {}, { sameName: 'keep' as 'refuse' })).code).toBe(
      'unknown-option',
    );
  });

  test('replacing a catalogue by itself changes nothing', () => {
    expect(mergeCatalogues(builtInCatalogue, builtInCatalogue, { sameName: 'replace' })).toEqual(
      builtInCatalogue,
    );
  });
});
