import { access } from 'node:fs/promises';
import { basename, dirname, join, relative, resolve } from 'node:path';
import { InputError } from '@finial/units';
import { type Command, Option } from 'commander';
import { parsePlan } from '../parsePlan.js';
import { writeAll } from '../writeAll.js';
import { answeredPlan } from './answeredPlan.js';
import { exitCodes, helpAfter } from './exitCodes.js';
import { flagOf, numberOption } from './numberOption.js';
import { type PlanAnswers, planOf } from './planAnswers.js';
import { planQuestions, textAnswers } from './planQuestions.js';
import type { CommandSetting, Terminal } from './Terminal.js';

interface NewOptions extends Partial<PlanAnswers> {
  readonly out: string;
  readonly force?: true;
  readonly json?: true;
}

const example = `finial plan new --name "Chapel loft" --region EU868 --latitude-deg 41.2 --longitude-deg -37.4 \\
    --antenna-height-m 9 --distance-m 3000 --out chapel.json`;

/** Where the schema lies in a folder where this package is installed. */
const installedSchema = 'node_modules/@finial/dossier/plan.schema.json';

/** `finial plan new`: a first plan from a few answers. */
export function addPlanNewCommand(program: Command, { terminal, end }: CommandSetting): void {
  const command = program
    .command('new')
    .description('make a plan from a few answers: asked for at a terminal, or given as options')
    .option('--out <file>', 'the plan to write', 'plan.json')
    .option('--force', 'write over a plan that is there')
    .option('--json', 'print the plan to standard output and write no file');
  for (const { key, help } of planQuestions) {
    const flag = flagOf(key);
    command.addOption(textAnswers.has(key) ? new Option(`${flag} <text>`, help) : numberOption(flag, help));
  }
  command
    .addHelpText('after', helpAfter(example, 'writes chapel.json, which finial dossier chapel.json takes.'))
    .action(async (options: NewOptions) => {
      await makePlan(options, terminal);
      end(exitCodes.fine);
    });
}

async function makePlan({ out, force, json, ...given }: NewOptions, terminal: Terminal): Promise<void> {
  const path = resolve(out);
  const isThere = !json && (await exists(path));
  // Before the questions: nobody likes to answer a dozen of them for nothing.
  if (isThere && !force) {
    const expected = 'the name of a file that is not there yet, or --force to write over it';
    throw new InputError({ code: 'unknown-option', argument: '--out', received: out, expected });
  }
  const $schema = await schemaFrom(json ? resolve('.') : dirname(path));
  const text = `${JSON.stringify({ $schema, ...planOf(await answeredPlan(given, terminal)) }, null, 2)}\n`;
  parsePlan(text, { file: basename(path) });
  if (json) {
    terminal.out(text);
    return;
  }
  await writeAll(dirname(path), { [basename(path)]: text }, terminal.signal);
  terminal.out(`Written: ${out}\nNext: finial plan check ${out}, then finial dossier ${out}\n`);
}

/**
 * Path of the schema as editors resolve it, from the plan's folder: in the nearest folder above where this package is installed, or where it
 * will be once it is installed beside the plan. The leading point matters: without it some editors take the path for an address.
 */
async function schemaFrom(folder: string): Promise<string> {
  for (let each = folder; ; each = dirname(each)) {
    const schema = join(each, installedSchema);
    if (await exists(schema)) {
      const path = relative(folder, schema).replaceAll('\\', '/');
      return path.startsWith('.') ? path : `./${path}`;
    }
    if (dirname(each) === each) return `./${installedSchema}`;
  }
}

async function exists(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  );
}
