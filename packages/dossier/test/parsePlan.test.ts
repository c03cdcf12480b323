import { isInputError } from '@finial/units';
import { describe, expect, test } from 'vitest';
import { parsePlan } from '../src/parsePlan.js';
import { planJsonSchema } from '../src/planJsonSchema.js';
import { examplePlan } from './examplePlan.js';

const planText = JSON.stringify(examplePlan, null, 2);

test('a valid plan comes back as it was written', () => {
  expect(parsePlan(planText)).toEqual(examplePlan);
});

/** The refusal of a plan in which one piece of text was replaced. */
function refusalOf(wanted: string, replacement: string): { message: string; code: string; argument: string } {
  expect(planText).toContain(wanted);
  try {
    parsePlan(planText.replace(wanted, replacement), { file: 'plan.json' });
  } catch (error) {
    if (isInputError(error)) return error;
    throw error;
  }
  throw new Error('the plan was accepted');
}

describe('refusals name the file, the place, the key and what was expected', () => {
  test.each([
    [
      'a number below its range',
      '"antennaHeightM": 9',
      '"antennaHeightM": -9',
      'out-of-range',
      'gateway.antennaHeightM',
      '0.5 or more',
    ],
    [
      'a number above its range',
      '"feedlineLossDb": 1.5',
      '"feedlineLossDb": 61',
      'out-of-range',
      'gateway.feedlineLossDb',
      '60 or less',
    ],
    [
      'megahertz for hertz',
      '868100000',
      '868.1',
      'out-of-range',
      'node.uplink.frequencyHz',
      '400000000 or more',
    ],
    [
      'a unit in the wrong key',
      '"distanceM": 3000',
      '"distanceKm": 3',
      'unknown-option',
      'link.distanceKm',
      'the key distanceM',
    ],
    [
      'an unknown key',
      '"heightM"',
      '"colour": "red", "heightM"',
      'unknown-option',
      'node.colour',
      'one of the keys heightM',
    ],
    [
      'a text for a number',
      '"noiseFigureDb": 4',
      '"noiseFigureDb": "4"',
      'not-a-finite-number',
      'gateway.noiseFigureDb',
      'number',
    ],
    [
      'null for a number',
      '"noiseFigureDb": 4',
      '"noiseFigureDb": null',
      'not-a-finite-number',
      'gateway.noiseFigureDb',
      'number',
    ],
    [
      'a fraction for a data rate',
      '"dataRate": 3',
      '"dataRate": 3.5',
      'wrong-type',
      'node.uplink.dataRate',
      'whole number',
    ],
    ['another region', '"EU868"', '"EU900"', 'unknown-option', 'region', 'EU868 or US915 or AU915'],
    ['an empty name', '"Chapel loft"', '""', 'out-of-range', 'name', 'not empty'],
    [
      'a loss without its number',
      '"lossDb": 3',
      '"lossDb": []',
      'not-a-finite-number',
      'link.losses[0].lossDb',
      'number',
    ],
    ['NaN', '"antennaGainDbi": 2.15', '"antennaGainDbi": NaN', 'malformed-file', '', 'valid JSON'],
    [
      'Infinity by overflow',
      '"antennaGainDbi": 2.15',
      '"antennaGainDbi": 1e999',
      'not-a-finite-number',
      'gateway.antennaGainDbi',
      'number',
    ],
    [
      'a key that stands twice',
      '"antennaHeightM": 9',
      '"antennaHeightM": 9, "antennaHeightM": 10',
      'malformed-file',
      '',
      'only once',
    ],
    ['a text cut off', '"link"', '', 'malformed-file', '', 'valid JSON'],
  ])('%s', (_, wanted, replacement, code, argument, words) => {
    const error = refusalOf(wanted, replacement);
    expect(error).toMatchObject({ code, argument });
    expect(error.message).toContain(words);
    expect(error.message).toMatch(/^plan\.json \(line \d+, column \d+\): /);
    expect(error.message).not.toContain('\n');
  });

  test('a missing key points at the object that lacks it', () => {
    const error = refusalOf('"heightM": 1.5,\n', '');
    expect(error).toMatchObject({ code: 'missing', argument: 'node.heightM' });
  });

  test('the line is the line of the value', () => {
    const line = planText.split('\n').findIndex((text) => text.includes('"heightM"')) + 1;
    expect(refusalOf('"heightM": 1.5', '"heightM": "1.5"').message).toContain(`(line ${line}, column`);
  });

  test.each(['', '   ', '[]', '3', '"plan"', 'null'])('%j is no plan', (text) => {
    expect(() => parsePlan(text)).toThrow(expect.objectContaining({ name: 'InputError' }));
  });

  test.each([undefined, null, 7, {}])('%s is no text', (value) => {
    expect(() => parsePlan(value as unknown as string)).toThrow(
      expect.objectContaining({ code: 'wrong-type' }),
    );
  });

  test('a prototype cannot be smuggled in', () => {
    expect(() =>
      parsePlan(planText.replace('"version"', '"__proto__": {"polluted": true}, "version"')),
    ).toThrow(expect.objectContaining({ name: 'InputError' }));
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });
});

describe('the published schema', () => {
  test('is the file that the package carries', async () => {
    await expect(`${JSON.stringify(planJsonSchema(), null, 2)}\n`).toMatchFileSnapshot('../plan.schema.json');
  });

  test('explains every key', () => {
    const unexplained: string[] = [];
    const visit = (node: unknown, path: string): void => {
      if (typeof node !== 'object' || node === null) return;
      const { properties } = node as { properties?: Record<string, { description?: string }> };
      for (const [key, property] of Object.entries(properties ?? {})) {
        if (property.description === undefined) unexplained.push(`${path}.${key}`);
      }
      for (const [key, value] of Object.entries(node)) visit(value, `${path}.${key}`);
    };
    visit(planJsonSchema(), '');
    expect(unexplained).toEqual([]);
  });
});

describe('plans of strangers', () => {
  test.each([
    ['brackets without end', `{"a":${'['.repeat(100_000)}`, 'at most 100 brackets within each other'],
    ['objects without end', '{"a":'.repeat(100_000), 'at most 100 brackets within each other'],
    ['a prototype', `{"__proto__":${planText}}`, 'no key of this name'],
    [
      'a prototype inside',
      planText.replace('{', '{"gateway":{"__proto__":{"polluted":1}},'),
      'no key of this name',
    ],
  ])('%s', (_, text, expected) => {
    expect(() => parsePlan(text)).toThrow(expect.objectContaining({ code: 'malformed-file', expected }));
    expect('polluted' in {}).toBe(false);
  });

  test('brackets inside a text do not count', () => {
    const name = JSON.stringify('{["\\'.repeat(60).slice(0, 80));
    const text = planText.replace(/"name": "[^"]*"/, `"name": ${name}`);
    expect(parsePlan(text).name).toBe(JSON.parse(name));
  });
});
