import { InputError } from '@finial/units';
import type { Command } from 'commander';
import { type FeedlinePart, feedlinePart } from '../feedlinePart.js';
import { codeOf, helpAfter } from './exitCodes.js';
import { decibels } from './figures.js';
import { facts, findingLines, table, wrapped, writeJson, writeLines } from './layout.js';
import { type PlanFile, pointingInto, readNamedFiles, readPlanFile, textOf } from './planFile.js';
import type { CommandSetting, Terminal } from './Terminal.js';

/** `finial chain`: the feedline of a plan alone. */
export function addChainCommand(program: Command, { terminal, end }: CommandSetting): void {
  program
    .command('chain')
    .description('check the feedline of a plan: whether its parts join, and what each loses')
    .argument('<plan.json>', 'the gateway plan, with its parts under "feedline"')
    .option('--json', 'print the result as JSON')
    .addHelpText(
      'after',
      helpAfter('finial chain plan.json', 'prints parts, joints, loss and what to mend; writes no files.'),
    )
    .action(async (planPath: string, { json }: { readonly json?: true }) => {
      const source = await readPlanFile(planPath);
      const part = await feedlineOf(source);
      if (json) writeJson(terminal, part);
      else writeLines(terminal, described(source, part, terminal));
      end(codeOf(part.findings));
    });
}

async function feedlineOf(source: PlanFile): Promise<FeedlinePart> {
  const files = await readNamedFiles(source, (argument) => argument.startsWith('feedline.'));
  return pointingInto(source, () => {
    const { plan } = source;
    if (plan.feedline === undefined) {
      const expected = "the parts from the gateway's port to the antenna's port";
      throw new InputError({ code: 'missing', argument: 'feedline', received: undefined, expected });
    }
    const catalogue = files[0];
    return feedlinePart(plan, plan.feedline, () => textOf(catalogue?.bytes ?? new Uint8Array()));
  });
}

function described({ plan }: PlanFile, part: FeedlinePart, terminal: Terminal): readonly string[] {
  const verdict = part.joins ? 'every joint mates' : 'not every joint mates';
  const { lossDb, lossUncertaintyDb, eirpDbm, systemNoiseFigureDb } = part;
  return [
    ...wrapped(`${plan.name}: ${verdict}.`, terminal),
    ...table([['part', 'loses'], ...part.parts.map(({ name, lossDb: lost }) => [name, decibels(lost)])]),
    ...facts(
      part.joints.map(({ mates, between, lossDb: lost }) => [
        mates ? 'joins' : 'does not',
        `${between}: ${decibels(lost)}`,
      ]),
      terminal,
    ),
    `Loss ${decibels(lossDb)} ± ${decibels(lossUncertaintyDb)}`,
    ...(eirpDbm === undefined ? [] : [`Radiated ${decibels(eirpDbm, 'dBm')} EIRP`]),
    ...(systemNoiseFigureDb === undefined
      ? []
      : [`Noise figure at the antenna ${decibels(systemNoiseFigureDb)}`]),
    ...part.otherRuns.map(
      ({ name, joins, lossDb: lost }) =>
        `${name}: ${joins ? 'joins' : 'does not join'}, loss ${decibels(lost)}`,
    ),
    ...findingLines(part.findings, terminal),
    ...part.warnings.flatMap((warning) => wrapped(warning, terminal, '  ')),
  ];
}
