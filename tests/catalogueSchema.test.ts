import { createRequire } from 'node:module';
import { join } from 'node:path';
import { builtInCatalogue, checkCatalogue } from '@finial/feedline';
import { type InputError, isInputError } from '@finial/units';
import { describe, expect, test } from 'vitest';
import schema from '../packages/feedline/catalogue.schema.json' with { type: 'json' };
import { root } from './support/workspace.js';

// The validator is a dependency of the dossier alone; here it reads the schema as a stranger would.
const zod = createRequire(join(root, 'packages', 'dossier', 'package.json'))('zod') as {
  fromJSONSchema(schema: object): { safeParse(data: unknown): { success: boolean } };
};
const validator = zod.fromJSONSchema(schema);

type Path = readonly (string | number)[];

/** One row of each kind, with as many members as the built-in rows have. */
const sample = Object.fromEntries(
  Object.entries(builtInCatalogue).map(([list, rows]) => {
    const richest = [...rows].sort((a, b) => Object.keys(b).length - Object.keys(a).length);
    return [list, richest.slice(0, 1)];
  }),
);

const wrongValues = [null, '', 'text', true, 0, -1, 1.5, 1e-9, 0.5, 1e12, [], {}, [1], undefined];

function placesIn(value: unknown, path: Path = []): readonly Path[] {
  if (typeof value !== 'object' || value === null) return [path];
  const inner = Object.entries(value).flatMap(([key, member]) =>
    placesIn(member, [...path, Array.isArray(value) ? Number(key) : key]),
  );
  return path.length === 0 ? inner : [path, ...inner];
}

function changedAt(path: Path, value: unknown): unknown {
  const data: unknown = structuredClone(sample);
  let holder = data as Record<string | number, unknown>;
  for (const key of path.slice(0, -1)) holder = holder[key] as Record<string | number, unknown>;
  holder[path.at(-1) ?? ''] = value;
  // As from a file: undefined members are gone.
  return JSON.parse(JSON.stringify(data));
}

function refusalOf(data: unknown): InputError | undefined {
  try {
    checkCatalogue(data);
    return undefined;
  } catch (error) {
    if (isInputError(error)) return error;
    throw error;
  }
}

/** What no schema can say: an order between two numbers. */
const betweenMembers = /rising frequencies|lowest frequency|the least/;

describe('catalogue.schema.json against checkCatalogue', () => {
  test('both accept the built-in catalogue', () => {
    expect(validator.safeParse(builtInCatalogue).success).toBe(true);
    expect(refusalOf(builtInCatalogue)).toBeUndefined();
  });

  test('they agree on every member changed to every kind of value', () => {
    const disagreements: string[] = [];
    const tried = { accepted: 0, refused: 0 };
    for (const path of placesIn(sample)) {
      for (const value of wrongValues) {
        const data = changedAt(path, value);
        const refusal = refusalOf(data);
        const accepted = validator.safeParse(data).success;
        tried[accepted ? 'accepted' : 'refused']++;
        if (accepted === (refusal === undefined)) continue;
        if (accepted && betweenMembers.test(refusal?.expected ?? '')) continue;
        disagreements.push(
          `${path.join('.')} = ${JSON.stringify(value)}: ${refusal?.message ?? 'accepted here only'}`,
        );
      }
    }
    expect(disagreements).toEqual([]);
    expect(tried.accepted).toBeGreaterThan(100);
    expect(tried.refused).toBeGreaterThan(500);
  });

  test('they refuse a member that the format does not know', () => {
    for (const path of placesIn(sample).filter((place) => place.at(-1) === 'kind')) {
      const data = changedAt([...path.slice(0, -1), 'colour'], 'blue');
      expect(validator.safeParse(data).success, path.join('.')).toBe(false);
      expect(refusalOf(data)?.code).toBe('unknown-option');
    }
  });
});
