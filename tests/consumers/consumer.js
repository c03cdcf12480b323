// @ts-check
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { smokeCalls, smokePlan } from './smokeCalls.js';

/**
 * @typedef {import('./pack.js').Packed} Packed
 * @typedef {Readonly<Record<string, readonly string[]>>} Names what each entry point exports
 */

/**
 * @param {readonly Packed[]} packed
 * @returns {Promise<Names>}
 */
export async function namesOf(packed) {
  /** @type {Record<string, readonly string[]>} */
  const names = {};
  for (const { entryPoints, home } of packed) {
    for (const [specifier, file] of Object.entries(entryPoints)) {
      names[specifier] = Object.keys(await import(pathToFileURL(join(home, file)).href));
    }
  }
  return names;
}

/**
 * A consumer in JavaScript: every name of the package is there, its error is the one error of all packages, and one
 * call per package gives a number. The code ends with `values`, the promise of these numbers by package.
 * @param {Names} names of the entry points to load
 * @param {(specifier: string) => string} load code by which this kind of module loads another
 */
export function consumerOf(names, load) {
  const checks = Object.keys(names).map((specifier) => {
    const call = smokeCalls[specifier] ?? 'undefined';
    return `  check(${JSON.stringify(specifier)}, ${load(specifier)}, async (all) => ${call}),`;
  });
  return `const names = ${JSON.stringify(names)};
const plan = ${JSON.stringify(smokePlan)};
const { InputError } = ${load('@finial/units')};
async function check(specifier, all, call) {
  const missing = names[specifier].filter((name) => !(name in all));
  if (missing.length > 0) throw new Error(specifier + ' lacks ' + missing.join(', '));
  if ('InputError' in all && all.InputError !== InputError) throw new Error(specifier + ' has an InputError of its own');
  const value = await call(all);
  if (value !== undefined && !Number.isFinite(value)) throw new Error(specifier + ' gave ' + value);
  return [specifier, value];
}
const values = Promise.all([
${checks.join('\n')}
]).then((entries) => Object.fromEntries(entries.filter(([, value]) => value !== undefined)));
`;
}

/** @type {{ where: string, values: Readonly<Record<string, number>> } | undefined} */
let first;

/**
 * Whether a consumer got the numbers that the first one got. Engines may differ in the last digits of a logarithm.
 * @param {string} where
 * @param {Readonly<Record<string, number>>} values
 * @returns {string | undefined} what differs
 */
export function disagreement(where, values) {
  if (first === undefined) {
    first = { where, values };
    const absent = Object.keys(smokeCalls).filter((name) => !Number.isFinite(values[name]));
    return absent.length === 0 ? undefined : `no number from ${absent.join(', ')}`;
  }
  const known = first;
  const differing = Object.entries(values).filter(([name, value]) => {
    const expected = known.values[name] ?? Number.NaN;
    return !(Math.abs(value - expected) <= 1e-9 * Math.abs(expected));
  });
  if (Object.keys(values).length === 0) return 'no number at all';
  return differing.length === 0
    ? undefined
    : differing
        .map(([name, value]) => `${name}: ${value}, but ${known.values[name]} in ${known.where}`)
        .join('\n');
}
