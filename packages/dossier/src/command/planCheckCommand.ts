import type { Command } from 'commander';
import { builtPlan } from '../builtPlan.js';
import { feedlinePart } from '../feedlinePart.js';
import { loraModulation } from '../loraModulation.js';
import type { Plan } from '../plan.js';
import { exitCodes, helpAfter } from './exitCodes.js';
import { facts, wrapped, writeJson, writeLines } from './layout.js';
import {
  type NamedFile,
  type PlanFile,
  pointingInto,
  readNamedFiles,
  readPlanFile,
  textOf,
} from './planFile.js';
import type { CommandSetting, Terminal } from './Terminal.js';

/** Parts that a plan may leave out, and what each brings to the dossier. */
const optionalParts = {
  feedline: 'what each part of the run loses, and whether they join',
  antenna: 'where the antenna resonates, and its gain by elevation',
  site: 'supply, heat, wind and dangers of the site',
  terrain: 'the ground round the gateway, and the coverage',
  walk: 'where a node was really heard',
  beacon: 'how the gateway ages',
} as const satisfies Partial<Record<keyof Plan, string>>;

type OptionalPart = keyof typeof optionalParts;
const partNames = Object.keys(optionalParts) as OptionalPart[];

/** `finial plan check`: whether a plan and its files are in order. */
export function addPlanCheckCommand(program: Command, { terminal, end }: CommandSetting): void {
  program
    .command('check')
    .description('check a plan: its values, its feedline, and that every file it names is there')
    .argument('<plan.json>', 'the gateway plan; files are looked up from its folder')
    .option('--json', 'print the result as JSON')
    .addHelpText(
      'after',
      helpAfter('finial plan check plan.json', 'prints what is given and what is not; writes no files.'),
    )
    .action(async (planPath: string, { json }: { readonly json?: true }) => {
      const source = await readPlanFile(planPath);
      const files = await readNamedFiles(source);
      await pointingInto(source, () => checkTogether(source.plan, files));
      if (json) writeJson(terminal, plainly(source, files));
      else writeLines(terminal, described(source, files, terminal));
      end(exitCodes.fine);
    });
}

/** What the values mean together: a data rate of the region, parts of the catalogue, one loss and one distance. */
function checkTogether(plan: Plan, files: readonly NamedFile[]): void {
  loraModulation(plan, plan.node.uplink.dataRate, 'uplink', 'node.uplink.dataRate');
  const textOfFile = (wanted: string) =>
    textOf(files.find(({ name }) => name === wanted)?.bytes ?? new Uint8Array());
  builtPlan(plan, plan.feedline && feedlinePart(plan, plan.feedline, textOfFile), undefined);
}

function plainly({ plan }: PlanFile, files: readonly NamedFile[]) {
  return {
    name: plan.name,
    files: files.map(({ argument, name, bytes }) => ({ argument, name, fileBytes: bytes.length })),
    given: partNames.filter((part) => plan[part] !== undefined),
    notGiven: partNames.filter((part) => plan[part] === undefined),
  };
}

function described(source: PlanFile, files: readonly NamedFile[], terminal: Terminal): readonly string[] {
  const { name, given, notGiven } = plainly(source, files);
  const filesOf = (part: OptionalPart) =>
    files.filter(({ argument }) => argument.startsWith(`${part}.`)).map((file) => file.name);
  const present = given.map((part): [string, string] => [part, ['fine', ...filesOf(part)].join(', ')]);
  const absent = notGiven.map((part): [string, string] => [
    part,
    `not given; it would add ${optionalParts[part]}`,
  ]);
  return [
    ...wrapped(`${name}: the plan is sound, and every file it names is there.`, terminal),
    ...facts([['gateway, node, link', 'fine'], ...present, ...absent], terminal),
  ];
}
