import { resolve } from 'node:path';
import { type Survey, surveyCsv } from '@finial/survey';
import type { Command } from 'commander';
import { type AssembleOptions, assembleDossier } from '../assembleDossier.js';
import type { SweptCoverage } from '../coveragePart.js';
import type { Dossier } from '../Dossier.js';
import { renderHtml } from '../renderHtml.js';
import { toGeoJson } from '../toGeoJson.js';
import { writeAll } from '../writeAll.js';
import { coverageFile } from './coverageFile.js';
import { codeOf, helpAfter } from './exitCodes.js';
import { decibels, distance } from './figures.js';
import { findingLines, wrapped, writeJson, writeLines, writtenLines } from './layout.js';
import { byName, pointingInto, readNamedFiles, readPlanFile } from './planFile.js';
import { progressLine } from './progressLine.js';
import type { CommandSetting, Terminal } from './Terminal.js';

interface DossierOptions {
  readonly out: string;
  readonly json?: true;
}

/** What is made beside the dossier. */
interface MadeBeside {
  coverage?: SweptCoverage;
  survey?: Survey;
}

/** `finial dossier`: the whole job. */
export function addDossierCommand(program: Command, { terminal, end }: CommandSetting): void {
  program
    .command('dossier')
    .description('compute the dossier of a gateway from its plan and the files that the plan names')
    .argument('<plan.json>', 'the gateway plan; files are looked up from its folder')
    .option('--out <folder>', 'folder for the files of the dossier; made if it is not there', 'dossier')
    .option('--json', 'print the dossier as JSON to standard output and write no files')
    .addHelpText(
      'after',
      helpAfter(
        'finial dossier plan.json --out dossier',
        'writes dossier/dossier.html, dossier.json and coverage.geojson; coverage.tif where the plan asks for\ncoverage, and survey.csv where it names a walk.',
      ),
    )
    .action(async (planPath: string, options: DossierOptions) => {
      end(await dossierOf(planPath, options, terminal));
    });
}

async function dossierOf(
  planPath: string,
  { out, json }: DossierOptions,
  terminal: Terminal,
): Promise<number> {
  const source = await readPlanFile(planPath);
  const files = byName(await readNamedFiles(source));
  const beside: MadeBeside = {};
  const options: AssembleOptions = {
    signal: terminal.signal,
    onProgress: progressLine(terminal),
    onCoverage: (swept) => {
      beside.coverage = swept;
    },
    onSurvey: (survey) => {
      beside.survey = survey;
    },
  };
  const dossier = await pointingInto(source, () => assembleDossier(source.plan, files, options));
  if (json) writeJson(terminal, dossier);
  else {
    const written = filesOf(dossier, beside);
    await writeAll(resolve(out), written, terminal.signal);
    writeLines(terminal, [
      ...summary(dossier, terminal),
      ...writtenLines(out, Object.keys(written), terminal),
    ]);
  }
  return codeOf(dossier.verdict.findings);
}

function filesOf(dossier: Dossier, { coverage, survey }: MadeBeside): Record<string, string | Uint8Array> {
  return {
    'dossier.html': renderHtml(dossier),
    'dossier.json': `${JSON.stringify(dossier)}\n`,
    'coverage.geojson': toGeoJson(dossier),
    ...(coverage && { 'coverage.tif': coverageFile(coverage) }),
    ...(survey && { 'survey.csv': surveyCsv(survey.observations) }),
  };
}

function summary({ plan, verdict, linkBudget, walk }: Dossier, terminal: Terminal): readonly string[] {
  const { uplink, downlink, distanceM, pathModel } = linkBudget;
  const margins = `Margin at ${distance(distanceM)} (${pathModel}): up ${decibels(uplink.marginDb)}, down ${decibels(downlink.marginDb)}.`;
  const walked =
    walk && `Walk: ${walk.delivery.received} of ${walk.delivery.sent} frames at ${walk.spots.length} spots.`;
  const grave = verdict.findings.filter(({ severity }) => severity !== 'note');
  const notes = verdict.findings.length - grave.length;
  return [
    ...wrapped(`${plan.name}: ${verdict.sentence}`, terminal),
    ...wrapped(margins, terminal),
    ...(walked === undefined ? [] : [walked]),
    ...findingLines(grave, terminal),
    ...(notes === 0
      ? []
      : [`  ${notes === 1 ? 'one note' : `${notes} notes`} and cautions stand in the dossier.`]),
  ];
}
