import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { isInputError } from '@finial/units';
import type { Call, Calls } from '../refusals/Call.js';
import { frozen, type Path, placesIn, valueAt, without, withValue, written } from '../refusals/trials.js';
import { root, workspacePackages } from '../support/workspace.js';
import { oddestValue, oddNumber, oddValue } from './mutations.js';
import type { Random } from './Random.js';
import type { Target } from './Target.js';

// Time on air is looked at with bitwise operations first, which throw a TypeError over a bigint or a symbol: its bundle has no room
// (1.5 kB) for another check.
const exceptOddest = 'lora.';

type Callable = (...args: readonly unknown[]) => unknown;

// Readers have grammars of their own (see the other targets), and one of these reads a disk.
const left = ['openElevationFiles'];

/** A target for each valid call that the refusals know of: one to three of its values replaced by others. */
export async function functionTargets(): Promise<readonly Target[]> {
  const targets: Target[] = [];
  for (const { shortName, entryPoints } of workspacePackages()) {
    const file = join(root, 'tests', 'refusals', `${shortName}.ts`);
    if (!existsSync(file)) continue;
    const modules = await Promise.all(
      entryPoints.map(async ({ specifier }) => ({
        specifier,
        exported: (await import(/* @vite-ignore */ specifier)) as Record<string, unknown>,
      })),
    );
    const { calls } = (await import(/* @vite-ignore */ file)) as { readonly calls: Calls };
    for (const [title, call] of Object.entries(calls)) {
      const [name = ''] = title.split(' ');
      if (left.includes(name)) continue;
      const [model, own = name] = name.includes('.') ? name.split('.') : [undefined, name];
      const callable = modules
        .filter(({ specifier }) => model === undefined || specifier.endsWith(`/${model}`))
        .map(({ exported }) => exported[own])
        .find((found) => typeof found === 'function');
      if (callable === undefined) throw new Error(`${shortName} exports no function ${name}`);
      targets.push(functionTarget(`${shortName}.${title}`, callable as Callable, call));
    }
  }
  return targets;
}

function functionTarget(name: string, callable: Callable, call: Call): Target {
  const { args, constants = [], noData = [] } = 'args' in call ? call : { args: call };
  const valid = frozen(args);
  // Constants go by the name of the parameter, which is not known here: what follows the name is.
  const tails = constants.map((constant) => constant.replace(/^\w+/, ''));
  const isConstant = (path: Path) => tails.includes(written(path, []).replace(/^argument \d+/, ''));
  const places = placesIn(valid, [], isConstant);
  let bounds: readonly (readonly number[])[] | undefined;
  return {
    name,
    hasNoData: noData.length > 0,
    call: async (...values: never[]) => listed(await callable(...values)),
    args: (random) => {
      bounds ??= places.map((path) => boundsAt(callable, valid, path));
      let changed: unknown = valid;
      for (let count = random.pick([1, 1, 1, 2, 3]); count > 0; count--) {
        const place = random.whole(0, places.length - 1);
        const path = places[place];
        if (path === undefined || !exists(changed, path)) continue;
        const isOddest = !name.startsWith(exceptOddest) && random.chance(0.02);
        changed = isOddest
          ? withOther(changed, path, oddestValue(random))
          : change(changed, path, bounds[place] ?? [], random);
      }
      return changed as readonly unknown[];
    },
  };
}

/** The same arguments with another value; a series of numbers holds nothing else. */
function withOther(args: unknown, path: Path, value: unknown): unknown {
  return ArrayBuffer.isView(valueAt(args, path.slice(0, -1))) ? args : withValue(args, path, value);
}

function change(args: unknown, path: Path, bounds: readonly number[], random: Random): unknown {
  const value = valueAt(args, path);
  const isInSeries = ArrayBuffer.isView(valueAt(args, path.slice(0, -1)));
  if (typeof value === 'number' && (isInSeries || random.chance(0.85))) {
    return withValue(args, path, oddNumber(random, value, bounds));
  }
  if (Array.isArray(value) && random.chance(0.7)) return withValue(args, path, otherList(value, random));
  if (isInSeries) return args;
  if (path.length > 1 && typeof path.at(-1) === 'string' && random.chance(0.2)) return without(args, path);
  return withValue(args, path, oddValue(random));
}

function otherList(list: readonly unknown[], random: Random): readonly unknown[] {
  const kind = random.whole(0, 4);
  if (kind === 0) return list.slice(0, random.whole(0, list.length));
  if (kind === 1) return list.slice(random.whole(0, list.length));
  if (kind === 2) return list.toReversed();
  if (kind === 3) return Array.from({ length: random.whole(1, 40) }, () => random.pick(list));
  return [...list, ...list];
}

function exists(args: unknown, path: Path): boolean {
  let value = args;
  for (const key of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return false;
    value = (value as Record<string | number, unknown>)[key];
  }
  return true;
}

/** The numbers that refusals of very large and very small values name: the ends of the range. */
function boundsAt(callable: Callable, args: unknown, path: Path): readonly number[] {
  if (typeof valueAt(args, path) !== 'number') return [];
  const found = new Set<number>();
  for (const extreme of [Number.MAX_VALUE, -Number.MAX_VALUE]) {
    try {
      const outcome = callable(...(withValue(args, path, extreme) as unknown[]));
      if (outcome instanceof Promise) outcome.catch(() => undefined);
    } catch (error) {
      if (!isInputError(error)) continue;
      for (const [text] of error.expected.matchAll(/-?\d+(?:\.\d+)?(?:e[+-]?\d+)?/g)) found.add(Number(text));
    }
  }
  return [...found];
}

async function listed(value: unknown): Promise<unknown> {
  if (typeof value !== 'object' || value === null || !(Symbol.asyncIterator in value)) return value;
  const items: unknown[] = [];
  for await (const item of value as AsyncIterable<unknown>) items.push(item);
  return items;
}
