import { expect } from 'vitest';
import type { Outcome, Sheet, SheetFiles, Value } from '../../docs/worksheets/frame/sheet.js';
import { type Fence, typeFaults } from '../docExamples/fences.js';
import { runSnippet } from './runSnippet.js';

const work = { signal: new AbortController().signal, onProgress: () => undefined };

/** What a worksheet answers to its defaults with some values changed. */
export async function askSheet(
  sheet: Sheet,
  values: Readonly<Record<string, Value>> = {},
  files: SheetFiles = {},
): Promise<Outcome> {
  return await sheet.compute({ ...sheet.defaults, ...values }, files, work);
}

/** The text of a named fact. */
export function fact(outcome: Outcome, name: string): string {
  const found = outcome.facts.find(([each]) => each === name);
  if (found === undefined)
    throw new Error(`no fact ${name} among ${outcome.facts.map(([each]) => each).join(', ')}`);
  return found[1].replaceAll('\u00a0', ' ').replaceAll('\u2212', '-').replaceAll('\u202f', '');
}

/** The first number in a fact. */
export function numberIn(outcome: Outcome, name: string): number {
  return Number(/-?\d+(?:\.\d+)?/.exec(fact(outcome, name))?.[0] ?? Number.NaN);
}

/** Which field the page marks when an argument is refused: the same rule as in the frame. */
export async function refusedField(
  sheet: Sheet,
  values: Readonly<Record<string, Value>>,
  files: SheetFiles = {},
): Promise<string | undefined> {
  const keys = new Set(sheet.groups.flatMap(({ fields }) => fields.map(({ key }) => key)));
  try {
    await askSheet(sheet, values, files);
  } catch (error) {
    expect(error).toMatchObject({ name: 'InputError' });
    const { argument, file } = error as { argument: string; file?: string };
    const [held] = Object.entries(files).find(([, each]) => each.some(({ name }) => name === file)) ?? [];
    return held ?? sheet.fieldOf?.[argument] ?? argument.split(/[.[\]]+/).findLast((part) => keys.has(part));
  }
  throw new Error('it was not refused');
}

const shown: Fence[] = [];

/** Runs the code that is shown, and keeps it for {@link codeFaults}. */
export async function checkCode(code: string): Promise<void> {
  shown.push({ file: `snippet ${shown.length + 1}`, line: 1, code });
  await runSnippet(code);
}

/** What the compiler says against all code that was run before: one program for all, since each takes seconds. */
export function codeFaults(): readonly string[] {
  if (shown.length === 0) throw new Error('no code was run before');
  return typeFaults(shown);
}
