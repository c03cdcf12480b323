import { readFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { InputError, isInputError } from '@finial/units';
import { parsePlan, placeInPlan } from '../parsePlan.js';
import type { Plan } from '../plan.js';

/** A plan with the text it was read from, so that refusals can point into it. */
export interface PlanFile {
  /** Path as it was typed. */
  readonly path: string;
  /** Name without folders, for refusals. */
  readonly name: string;
  /** Text of the file. */
  readonly text: string;
  /** What it says. */
  readonly plan: Plan;
}

/** A file that a plan names. */
export interface NamedFile {
  /** Key of the plan that names it. */
  readonly argument: string;
  /** Name in the plan. */
  readonly name: string;
  /** What it holds. */
  readonly bytes: Uint8Array;
}

/** Reads a plan and checks it. */
export async function readPlanFile(path: string): Promise<PlanFile> {
  const text = await readText(path, 'plan.json');
  const name = basename(path);
  return { path, name, text, plan: parsePlan(text, { file: name }) };
}

/** Reads every file that the plan names, or those whose key is wanted. */
export async function readNamedFiles(
  { plan, text, name: file, path }: PlanFile,
  isWanted: (argument: string) => boolean = () => true,
): Promise<readonly NamedFile[]> {
  const files: NamedFile[] = [];
  for (const [argument, name] of namedFiles(plan)) {
    if (!isWanted(argument)) continue;
    const place = { file, ...placeInPlan(text, argument) };
    files.push({ argument, name, bytes: await readBytes(join(dirname(path), name), argument, place) });
  }
  return files;
}

/** The files by their names, as `assembleDossier` takes them. */
export function byName(files: readonly NamedFile[]): Record<string, Uint8Array> {
  return Object.fromEntries(files.map(({ name, bytes }) => [name, bytes]));
}

/** Runs a piece of work; a refusal of a value that the plan holds gets the plan's name and the line of the value. */
export async function pointingInto<Result>(
  source: PlanFile,
  work: () => Result | Promise<Result>,
): Promise<Result> {
  try {
    return await work();
  } catch (error) {
    if (!isInputError(error) || error.file !== undefined) throw error;
    throw error.at({ file: source.name, ...placeInPlan(source.text, error.argument) });
  }
}

/** A text file in UTF-8. */
export async function readText(path: string, argument: string): Promise<string> {
  return textOf(await readBytes(path, argument));
}

/** Bytes in UTF-8 as text. */
export function textOf(bytes: Uint8Array): string {
  return new TextDecoder('utf-8').decode(bytes);
}

async function readBytes(path: string, argument: string, place: { file?: string } = {}): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (error) {
    const { code = 'unreadable' } = error as NodeJS.ErrnoException;
    const expected = `a file that can be read (${code})`;
    throw new InputError({ code: 'missing', argument, received: path, expected, ...place }, { cause: error });
  }
}

/** Every file that a plan names, with the key that names it. */
function namedFiles({
  feedline,
  terrain,
  antenna,
  walk,
  beacon,
}: Plan): readonly [argument: string, name: string][] {
  const entries: [string, string | undefined][] = [
    ['feedline.catalogue', feedline?.catalogue],
    ...(terrain?.elevation ?? []).map((name, index): [string, string] => [
      `terrain.elevation[${index}]`,
      name,
    ]),
    ...(antenna?.sweeps ?? []).map(({ file }, index): [string, string] => [
      `antenna.sweeps[${index}].file`,
      file,
    ]),
    ['walk.file', walk?.file],
    ['beacon.file', beacon?.file],
  ];
  return entries.flatMap(([argument, name]) =>
    name === undefined ? [] : [[argument, name] as [string, string]],
  );
}
