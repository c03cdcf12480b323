import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { InputError, isInputError } from '@finial/units';
import { describe, expect, test } from 'vitest';
import type { Call, Calls, Exempt } from './refusals/Call.js';
import { type PublicFunction, publicFunctions } from './refusals/functions.js';
import {
  extremes,
  frozen,
  inAWord,
  mentioned,
  notFiniteIn,
  type Path,
  placesIn,
  valueAt,
  without,
  withValue,
  written,
  wrongValuesFor,
} from './refusals/trials.js';
import { programOfEntryPoints, root, workspacePackages } from './support/workspace.js';

const packages = workspacePackages();
const program = programOfEntryPoints(packages);

type Callable = (...args: readonly unknown[]) => unknown;

interface Exported {
  readonly found: PublicFunction;
  readonly specifier: string;
}

/** Each function by its name; where several entry points have one of that name, the entry point stands before it: `p526.model`. */
function keyed(exported: readonly Exported[]): ReadonlyMap<string, Exported> {
  const isShared = (name: string) => exported.filter(({ found }) => found.name === name).length > 1;
  return new Map(
    exported.map((each) => {
      const { found, specifier } = each;
      return [isShared(found.name) ? `${specifier.split('/').at(-1)}.${found.name}` : found.name, each];
    }),
  );
}

for (const { shortName, entryPoints } of packages) {
  const functions = keyed(
    entryPoints.flatMap(({ specifier, file }) =>
      publicFunctions(program, file).map((found) => ({ found, specifier })),
    ),
  );
  const { calls, exempt } = await entriesOf(shortName);
  const called = Object.entries(calls).map(([title, call]) => ({ title, name: nameOf(title), call }));

  describe(`${shortName} refuses bad input by name`, () => {
    test('every function that takes a number has a valid call here', () => {
      const numeric = [...functions].filter(([, { found }]) => found.takesNumbers);
      const missing = numeric.map(([name]) => name).filter((name) => !hasEntry(name));
      expect(missing, `without an entry in tests/refusals/${shortName}.ts`).toEqual([]);
    });

    test('every entry belongs to a function', () => {
      const stale = [...called.map(({ name }) => name), ...Object.keys(exempt)].filter(
        (name) => !functions.has(name),
      );
      expect(stale).toEqual([]);
    });

    for (const { title, name, call } of called) {
      const entry = functions.get(name);
      if (entry === undefined) continue;
      test(title, async () => {
        const module = (await import(/* @vite-ignore */ entry.specifier)) as Record<string, Callable>;
        const callable = module[entry.found.name];
        if (callable === undefined) throw new Error(`${name} is a type only`);
        expect(await faults(callable, entry.found, call)).toEqual([]);
      });
    }
  });

  function hasEntry(name: string): boolean {
    return name in exempt || called.some((entry) => entry.name === name);
  }
}

function nameOf(title: string): string {
  return title.split(' ')[0] ?? title;
}

async function entriesOf(shortName: string): Promise<{ readonly calls: Calls; readonly exempt: Exempt }> {
  const file = join(root, 'tests', 'refusals', `${shortName}.ts`);
  if (!existsSync(file)) return { calls: {}, exempt: {} };
  const module = (await import(/* @vite-ignore */ file)) as { calls: Calls; exempt?: Exempt };
  return { calls: module.calls, exempt: module.exempt ?? {} };
}

/** Everything that is wrong with how a function takes and refuses its arguments. */
async function faults(
  callable: Callable,
  { parameterNames, needsArguments, mayBeLeftOut }: PublicFunction,
  call: Call,
): Promise<readonly string[]> {
  const { args, constants = [], noData = [] } = 'args' in call ? call : { args: call };
  const isListed = (list: readonly string[]) => (path: Path) => list.includes(written(path, parameterNames));
  const found: string[] = [];

  const valid = await outcomeOf(() => callable(...(frozen(args) as unknown[])));
  if ('error' in valid) return [`the valid call threw ${String(valid.error)}`];
  const holesIn = (value: unknown) =>
    notFiniteIn(value, 'result').filter((hole) => noData.length === 0 || !hole.endsWith(' is NaN'));
  found.push(...holesIn(valid.value));

  if (needsArguments) found.push(...refusalFaults('no arguments', await outcomeOf(() => callable())));
  for (const path of placesIn(args, [], isListed(constants))) {
    const name = written(path, parameterNames);
    const value = valueAt(args, path);
    const isNumber = typeof value === 'number';
    const holder = valueAt(args, path.slice(0, -1));
    const mayBeNaN = isListed(noData)(path.slice(0, -1));
    for (const wrong of wrongValuesFor(value, ArrayBuffer.isView(holder))) {
      if (mayBeNaN && Number.isNaN(wrong)) continue;
      const outcome = await outcomeOf(() => callable(...(withValue(args, path, wrong) as unknown[])));
      const mention = isNumber ? mentioned(path, parameterNames) : '';
      found.push(...refusalFaults(`${name} = ${inAWord(wrong)}`, outcome, mention));
    }
    for (const extreme of isNumber ? extremes : []) {
      const outcome = await outcomeOf(() => callable(...(withValue(args, path, extreme) as unknown[])));
      found.push(...extremeFaults(`${name} = ${extreme}`, outcome, holesIn));
    }
    if (ArrayBuffer.isView(holder)) continue;
    const optional = mayBeLeftOut(path);
    const absent = await outcomeOf(() => callable(...(withValue(args, path, undefined) as unknown[])));
    if (optional === false && (isNumber || path.length === 1)) {
      found.push(
        ...refusalFaults(`${name} = undefined`, absent, isNumber ? mentioned(path, parameterNames) : ''),
      );
    } else if (optional === true && path.length > 1) {
      const omitted = await outcomeOf(() => callable(...(without(args, path) as unknown[])));
      if (described(absent) !== described(omitted)) {
        found.push(`${name}: undefined gave ${described(absent)}, leaving it out gave ${described(omitted)}`);
      }
    }
  }
  return found;
}

type Outcome = { readonly value: unknown } | { readonly error: unknown };

/** What a call gives or throws, now or later. */
async function outcomeOf(call: () => unknown): Promise<Outcome> {
  try {
    const value = await call();
    if (typeof value !== 'object' || value === null || !(Symbol.asyncIterator in value)) return { value };
    const items: unknown[] = [];
    for await (const item of value as AsyncIterable<unknown>) items.push(item);
    return { value: items };
  } catch (error) {
    return { error };
  }
}

function refusalFaults(trial: string, outcome: Outcome, mention = ''): readonly string[] {
  if ('value' in outcome) return [`${trial}: accepted, gave ${inAWord(outcome.value)}`];
  if (!isInputError(outcome.error)) return [`${trial}: threw ${String(outcome.error)}`];
  if (outcome.error.argument.includes(mention)) return [];
  return [`${trial}: the refusal names ${outcome.error.argument || 'nothing'}, not ${mention}`];
}

function extremeFaults(
  trial: string,
  outcome: Outcome,
  holesIn: (value: unknown) => readonly string[],
): readonly string[] {
  if ('value' in outcome)
    return holesIn(outcome.value)
      .slice(0, 1)
      .map((hole) => `${trial}: ${hole}`);
  return isInputError(outcome.error) ? [] : [`${trial}: threw ${String(outcome.error)}`];
}

function described(outcome: Outcome): string {
  return 'error' in outcome ? String(outcome.error) : inAWord(outcome.value);
}

// The check itself: a test that cannot fail proves nothing.
describe('the check', () => {
  const declared: PublicFunction = {
    name: 'half',
    parameterNames: ['options'],
    needsArguments: true,
    takesNumbers: true,
    mayBeLeftOut: ([, key]) => key === 'offset',
  };
  const half = [{ size: 2, offset: 1 }];

  test('finds a function that checks nothing', async () => {
    const careless = ({ size, offset = 0 }: { size: number; offset?: number }) => size / 2 + offset;
    expect(await faults(careless as Callable, declared, half)).toEqual(
      expect.arrayContaining([
        expect.stringContaining('no arguments: threw TypeError'),
        'options.size = NaN: accepted, gave NaN',
        'options.size = "2": accepted, gave 2',
        'options.size = undefined: accepted, gave NaN',
        'options.offset = {}: accepted, gave "1[object Object]"',
        'options = "text": accepted, gave NaN',
      ]),
    );
  });

  test('finds a result that is not finite, and a written argument', async () => {
    const endless = (options: { size: number }) => ({ a: [options.size / 0] });
    expect(await faults(endless as Callable, declared, half)).toContain('result.a.0 is Infinity');
    const double = ({ size }: { size: number }) => {
      if (Number.isFinite(size)) return size * 2;
      throw new InputError({ code: 'not-a-finite-number', argument: 'size', received: size, expected: 'x' });
    };
    expect(await faults(double as Callable, declared, half)).toContain(
      'options.size = 1.7976931348623157e+308: result is Infinity',
    );
    const greedy = (options: { size: number }) => {
      options.size = 3;
    };
    expect(await faults(greedy as Callable, declared, half)).toEqual([
      expect.stringContaining('the valid call threw TypeError'),
    ]);
  });

  test('leaves constants and missing data alone', async () => {
    const mean = (levels: Float64Array) => ({ levels });
    const series = { ...declared, parameterNames: ['levels'], needsArguments: false };
    const one = { args: [Float64Array.of(1, 2)], noData: ['levels'] };
    const trials = await faults(mean as Callable, series, one);
    expect(trials).toContain('levels[0] = Infinity: accepted, gave {"levels":{"0":null,"1":2}}');
    expect(trials.filter((trial) => trial.includes('NaN'))).toEqual([]);
    expect(await faults(mean as Callable, series, { ...one, constants: ['levels'] })).toEqual(
      ['null', '"text"', '5', 'undefined'].map((wrong) =>
        expect.stringContaining(`levels = ${wrong}: accepted`),
      ),
    );
  });
});
