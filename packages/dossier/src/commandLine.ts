import { readFile } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { coverageGeotiff } from '@finial/propagation/export';
import { InputError, isInputError } from '@finial/units';
import { Command, CommanderError } from 'commander';
import { assembleDossier, type PlanFiles, type Progress } from './assembleDossier.js';
import type { SweptCoverage } from './coveragePart.js';
import type { Dossier } from './Dossier.js';
import { parsePlan, placeInPlan } from './parsePlan.js';
import type { Plan } from './plan.js';
import { renderHtml } from './renderHtml.js';
import { toGeoJson } from './toGeoJson.js';
import { writeAll } from './writeAll.js';

/** Where the command writes to; apart so that tests can listen. */
export interface Terminal {
  /** Writes to standard output. */
  readonly out: (text: string) => void;
  /** Writes to standard error. */
  readonly err: (text: string) => void;
  /** Whether a person watches standard error: progress is shown only then. */
  readonly isTerminal: boolean;
}

/** Exit codes of the command. */
const exit = { fine: 0, mustStop: 1, badInput: 2 } as const;

const help = `
Exit codes: 0 nothing forbids the gateway, 1 a finding says stop, 2 the input is wrong.

Example:
  finial dossier examples/fennimara/plan.json --out dossier
writes dossier/dossier.html, dossier.json and coverage.geojson, and coverage.tif where the plan asks for coverage.`;

/**
 * Runs the `finial` command and returns its exit code; nothing is thrown for what a person typed or wrote.
 */
export async function run(words: readonly string[], terminal: Terminal): Promise<number> {
  let code: number = exit.fine;
  const program = command(terminal);
  program
    .command('dossier')
    .description('compute the dossier of a gateway from its plan and the files that the plan names')
    .argument('<plan.json>', 'the gateway plan; files are looked up from its folder')
    .option('--out <folder>', 'folder for the files of the dossier; made if it is not there', 'dossier')
    .option('--json', 'print the dossier as JSON to standard output and write no files')
    .addHelpText('after', help)
    .action(async (planPath: string, options: { out: string; json?: true }) => {
      code = await writeDossier(planPath, options, terminal);
    });
  try {
    await program.parseAsync(words, { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? exit.fine : exit.badInput;
    if (!isInputError(error)) throw error;
    terminal.err(`${error.message}\n`);
    return exit.badInput;
  }
}

function command(terminal: Terminal): Command {
  return new Command('finial')
    .description('Plan, check and prove a community LoRaWAN gateway.')
    .exitOverride()
    .configureOutput({ writeOut: terminal.out, writeErr: terminal.err })
    .configureHelp({ helpWidth: 100 })
    .addHelpText('after', help)
    .showHelpAfterError('(finial --help shows what there is)');
}

async function writeDossier(
  planPath: string,
  { out, json }: { out: string; json?: true },
  terminal: Terminal,
): Promise<number> {
  const planText = new TextDecoder('utf-8').decode(await readBytes(planPath, 'plan.json'));
  const plan = parsePlan(planText, { file: basename(planPath) });
  const files = await readPlanFiles(plan, planText, planPath);
  let swept: SweptCoverage | undefined;
  const dossier = await assembleDossier(plan, files, {
    onProgress: progressLine(terminal),
    onCoverage: (found) => {
      swept = found;
    },
  }).catch((error) => {
    throw withPlace(error, planText, basename(planPath));
  });
  const text = `${JSON.stringify(dossier)}\n`;
  if (json) terminal.out(text);
  else {
    const written = {
      'dossier.html': renderHtml(dossier),
      'dossier.json': text,
      'coverage.geojson': toGeoJson(dossier),
      ...(swept && { 'coverage.tif': coverageFile(swept) }),
    };
    await writeAll(resolve(out), written);
    terminal.out(summary(dossier, out, Object.keys(written)));
  }
  return dossier.verdict.severity === 'stop' ? exit.mustStop : exit.fine;
}

/** A refusal of a value that the plan holds gets the plan's name and the line of the value; one that names a file keeps it. */
function withPlace(error: unknown, planText: string, file: string): unknown {
  if (!isInputError(error) || error.file !== undefined) return error;
  return error.at({ file, ...placeInPlan(planText, error.argument) });
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

async function readPlanFiles(plan: Plan, planText: string, planPath: string): Promise<PlanFiles> {
  const files: Record<string, Uint8Array> = {};
  for (const [argument, name] of namedFiles(plan)) {
    const place = { file: basename(planPath), ...placeInPlan(planText, argument) };
    files[name] = await readBytes(join(dirname(planPath), name), argument, place);
  }
  return files;
}

/** Every file that a plan names, with the key that names it. */
function namedFiles(plan: Plan): [argument: string, name: string][] {
  const sweeps = plan.antenna?.sweeps ?? [];
  const catalogue = plan.feedline?.catalogue;
  return [
    ...(catalogue === undefined ? [] : [['feedline.catalogue', catalogue] satisfies [string, string]]),
    ...(plan.terrain?.elevation ?? []).map((name, index): [string, string] => [
      `terrain.elevation[${index}]`,
      name,
    ]),
    ...sweeps.map(({ file }, index): [string, string] => [`antenna.sweeps[${index}].file`, file]),
    ...(plan.walk === undefined ? [] : [['walk.file', plan.walk.file] satisfies [string, string]]),
  ];
}

/** One line that is written over, on a terminal; nothing in a pipe. */
function progressLine({ err, isTerminal }: Terminal): ((progress: Progress) => void) | undefined {
  if (!isTerminal) return undefined;
  return ({ step, doneRatio }) => {
    const filled = Math.round(doneRatio * 20);
    const bar = '█'.repeat(filled) + '░'.repeat(20 - filled);
    err(doneRatio < 1 ? `\r${bar} ${step.padEnd(16)}` : `\r${' '.repeat(40)}\r`);
  };
}

/** Power of the node at the gateway, cell by cell, for any map program. */
function coverageFile({ raster, powerDbm }: SweptCoverage): Uint8Array {
  const description = 'Predicted uplink power at the gateway receiver in dBm (ITU-R P.1812, median)';
  return coverageGeotiff({ raster, figures: powerDbm, description });
}

function summary(dossier: Dossier, out: string, written: readonly string[]): string {
  const { uplink, downlink, distanceM, pathModel } = dossier.linkBudget;
  const margins = `Margin at ${Math.round(distanceM)} m (${pathModel}): up ${uplink.marginDb.toFixed(1)} dB, down ${downlink.marginDb.toFixed(1)} dB.`;
  const { walk } = dossier;
  const lines = [
    `${dossier.plan.name}: ${dossier.verdict.sentence}`,
    margins,
    ...(walk
      ? [`Walk: ${walk.delivery.received} of ${walk.delivery.sent} frames at ${walk.spots.length} spots.`]
      : []),
    ...dossier.verdict.findings.map(({ severity, message }) => `  ${severity.padEnd(5)}${message}`),
    `Written: ${written.map((name) => join(out, name)).join(', ')}`,
  ];
  return `${lines.join('\n')}\n`;
}
