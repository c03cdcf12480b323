import { isInputError } from '@finial/units';
import type { Target } from './Target.js';

const ownKeys = [Object.prototype, Array.prototype, Function.prototype].map(keysOf);

/** What is wrong with how a target took some input, or nothing. */
export async function faultOf(target: Target, args: readonly unknown[]): Promise<string | undefined> {
  const fault = await faultOfCall(target, args);
  return pollution() ?? fault;
}

async function faultOfCall(
  { call, hasNoData = false }: Target,
  args: readonly unknown[],
): Promise<string | undefined> {
  try {
    const called: unknown = call(...(args as never[]));
    const value = called instanceof Promise ? await called : called;
    return holeIn(value, 'result', hasNoData, new Set());
  } catch (error) {
    if (!isInputError(error)) return `threw ${inShort(error)}`;
    // A message that carries the input with it fills logs.
    const { length } = error.message;
    return length <= 3000 ? undefined : `a message of ${length} characters`;
  }
}

function inShort(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const frame = /at .*packages.*/.exec(error.stack ?? '')?.[0] ?? error.stack?.split('\n')[1]?.trim() ?? '';
  return `${error.name}: ${error.message.slice(0, 200)} ${frame}`;
}

/** The first number of a result that is not finite. */
function holeIn(value: unknown, path: string, mayBeNaN: boolean, seen: Set<object>): string | undefined {
  if (typeof value === 'number') {
    return Number.isFinite(value) || (mayBeNaN && Number.isNaN(value)) ? undefined : `${path} is ${value}`;
  }
  if (typeof value !== 'object' || value === null || seen.has(value)) return undefined;
  seen.add(value);
  if (value instanceof Uint8Array || value instanceof Int16Array) return undefined;
  if (ArrayBuffer.isView(value) || Array.isArray(value)) {
    const list = value as ArrayLike<unknown>;
    for (let index = 0; index < list.length; index++) {
      const hole = holeIn(list[index], `${path}[${index}]`, mayBeNaN, seen);
      if (hole !== undefined) return hole;
    }
    return undefined;
  }
  const entries = value instanceof Map ? value.entries() : Object.entries(value);
  for (const [key, item] of entries) {
    const hole = holeIn(item, `${path}.${String(key)}`, mayBeNaN, seen);
    if (hole !== undefined) return hole;
  }
  return undefined;
}

function keysOf(prototype: object): number {
  return Reflect.ownKeys(prototype).length;
}

/** Whether something was written into what every object inherits from. */
function pollution(): string | undefined {
  const grown = [Object.prototype, Array.prototype, Function.prototype].some(
    (prototype, index) => keysOf(prototype) !== ownKeys[index],
  );
  return grown || 'polluted' in {} ? 'wrote into a prototype that all objects share' : undefined;
}
