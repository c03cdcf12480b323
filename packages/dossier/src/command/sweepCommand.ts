import { basename } from 'node:path';
import {
  type MatchBand,
  readSweep,
  type SweepReading,
  type TrimAdvice,
  type TrimmedPart,
} from '@finial/antenna';
import { InputError } from '@finial/units';
import { type Command, Option } from 'commander';
import { sweepOf, trimOf } from '../antennaPart.js';
import { inPlan } from '../inPlan.js';
import { codeOf, helpAfter } from './exitCodes.js';
import { megahertz, millimetres } from './figures.js';
import { facts, findingLines, table, wrapped, writeJson, writeLines } from './layout.js';
import { flagOf, numberOption, numbersOption } from './numberOption.js';
import { readText } from './planFile.js';
import type { CommandSetting, Terminal } from './Terminal.js';

interface SweepOptions {
  readonly targetHz: number;
  readonly lengthM: readonly number[];
  readonly trimmed?: TrimmedPart;
  readonly json?: true;
}

/** One sweep, read. */
interface Cut {
  readonly file: string;
  readonly elementLengthM?: number | undefined;
  readonly reading: SweepReading;
}

/** `finial sweep`: sweeps of an antenna and what to cut. */
export function addSweepCommand(program: Command, { terminal, end }: CommandSetting): void {
  program
    .command('sweep')
    .description('read sweeps of an antenna: where it resonates, how wide it is, how much to trim')
    .argument('<antenna.s1p...>', 'sweeps in the order of the cuts (Touchstone, or CSV by the ending)')
    .addOption(numberOption('--target-hz', 'where the antenna shall work').makeOptionMandatory())
    .addOption(
      numbersOption('--length-m', 'length of the element at each sweep, once for each; trim advice needs it'),
    )
    .addOption(
      new Option('--trimmed <part>', 'what is cut: the vertical over fixed radials, or all alike').choices([
        'vertical',
        'whole-antenna',
      ]),
    )
    .option('--json', 'print the result as JSON')
    .addHelpText(
      'after',
      helpAfter(
        'finial sweep antenna.s1p --target-hz 868.1e6 --length-m 0.079',
        'prints resonance, VSWR, band and how much to cut off; writes no files.',
      ),
    )
    .action(async (paths: readonly string[], options: SweepOptions) => {
      const cuts = await cutsOf(paths, options);
      const trim = adviceOf(cuts, options);
      if (options.json) writeJson(terminal, { targetHz: options.targetHz, cuts, trim });
      else writeLines(terminal, described(cuts, trim, options, terminal));
      end(codeOf(cuts.at(-1)?.reading.findings ?? []));
    });
}

async function cutsOf(
  paths: readonly string[],
  { targetHz, lengthM }: SweepOptions,
): Promise<readonly Cut[]> {
  if (lengthM.length !== 0 && lengthM.length !== paths.length) {
    const expected = `one length for each of the ${paths.length} sweeps, or none`;
    throw new InputError({ code: 'missing', argument: '--length-m', received: lengthM.length, expected });
  }
  const texts = await Promise.all(paths.map((path) => readText(path, 'antenna.s1p')));
  return texts.map((text, index) => {
    const file = basename(paths[index] ?? '');
    const reading = inPlan(flagOf, () => readSweep(sweepOf(file, text), { targetHz }));
    return { file, elementLengthM: lengthM[index], reading };
  });
}

function adviceOf(cuts: readonly Cut[], { targetHz, trimmed }: SweepOptions): TrimAdvice | undefined {
  const measured = cuts.map(({ elementLengthM, reading: { resonanceHz } }) => ({
    elementLengthM,
    resonanceHz,
  }));
  const flag = (argument: string) =>
    argument.startsWith('cuts') ? `--length-m (${argument})` : flagOf(argument);
  return inPlan(flag, () => trimOf(measured, targetHz, trimmed));
}

function described(
  cuts: readonly Cut[],
  trim: TrimAdvice | undefined,
  { targetHz }: SweepOptions,
  terminal: Terminal,
): readonly string[] {
  const target = megahertz(targetHz);
  const rows = cuts.map(({ file, elementLengthM, reading }) => [
    file,
    elementLengthM === undefined ? '-' : millimetres(elementLengthM),
    reading.resonanceHz === undefined ? 'not inside' : megahertz(reading.resonanceHz),
    reading.atTarget.vswr?.toFixed(2) ?? 'infinite',
  ]);
  const last = cuts.at(-1)?.reading;
  return [
    ...table([['sweep', 'element', 'resonance', `VSWR at ${target}`], ...rows]),
    ...facts(
      [
        ['band with VSWR 2 or less', bandInWords(last?.vswr2Band)],
        ['band with return loss 10 dB', bandInWords(last?.tenDbBand)],
        ['trim', trim?.reason ?? 'no advice without the length at each sweep and a resonance in it'],
      ],
      terminal,
    ),
    ...findingLines(last?.findings ?? [], terminal),
    ...(trim?.warnings ?? []).flatMap((warning) => wrapped(warning, terminal, '  ')),
  ];
}

function bandInWords(band: MatchBand | undefined): string {
  if (band === undefined) return 'nowhere';
  const { lowerHz, upperHz, widthHz } = band;
  const edge = (hertz: number | undefined) => (hertz === undefined ? 'beyond the sweep' : megahertz(hertz));
  return `${edge(lowerHz)} to ${edge(upperHz)}${widthHz === undefined ? '' : `, ${megahertz(widthHz)} wide`}`;
}
