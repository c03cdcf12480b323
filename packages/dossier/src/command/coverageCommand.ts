import { resolve } from 'node:path';
import { InputError } from '@finial/units';
import type { Command } from 'commander';
import { assembleDossier } from '../assembleDossier.js';
import type { CoveragePart, SweptCoverage } from '../coveragePart.js';
import type { Plan } from '../plan.js';
import { toGeoJson } from '../toGeoJson.js';
import { writeAll } from '../writeAll.js';
import { coverageFile } from './coverageFile.js';
import { codeOf, helpAfter } from './exitCodes.js';
import { decibels, distance, percent, squareKilometres } from './figures.js';
import { findingLines, table, wrapped, writeJson, writeLines, writtenLines } from './layout.js';
import { byName, pointingInto, readNamedFiles, readPlanFile } from './planFile.js';
import { progressLine } from './progressLine.js';
import type { CommandSetting, Terminal } from './Terminal.js';

interface CoverageOptions {
  readonly out: string;
  readonly json?: true;
}

/** `finial coverage`: only the prediction. */
export function addCoverageCommand(program: Command, { terminal, end }: CommandSetting): void {
  program
    .command('coverage')
    .description('predict where the node of a plan is heard, by data rate')
    .argument('<plan.json>', 'the gateway plan, with elevation files and "coverage" under "terrain"')
    .option(
      '--out <folder>',
      'folder for coverage.geojson and coverage.tif; made if it is not there',
      'coverage',
    )
    .option('--json', 'print the prediction as JSON to standard output and write no files')
    .addHelpText(
      'after',
      helpAfter(
        'finial coverage plan.json --out coverage',
        'writes coverage/coverage.geojson and coverage.tif, and prints the area by data rate.',
      ),
    )
    .action(async (planPath: string, options: CoverageOptions) => {
      end(await coverageOf(planPath, options, terminal));
    });
}

async function coverageOf(
  planPath: string,
  { out, json }: CoverageOptions,
  terminal: Terminal,
): Promise<number> {
  const source = await readPlanFile(planPath);
  const files = await readNamedFiles(source, (argument) => /^(feedline|terrain)\./.test(argument));
  let swept: SweptCoverage | undefined;
  const dossier = await pointingInto(source, () =>
    assembleDossier(groundOnly(source.plan), byName(files), {
      signal: terminal.signal,
      onProgress: progressLine(terminal),
      onCoverage: (found) => {
        swept = found;
      },
    }),
  );
  if (swept === undefined) throw new Error('a plan with coverage came back without it');
  const { part } = swept;
  if (json) writeJson(terminal, part);
  else {
    const written = { 'coverage.geojson': toGeoJson(dossier), 'coverage.tif': coverageFile(swept) };
    await writeAll(resolve(out), written, terminal.signal);
    writeLines(terminal, [
      ...described(source.plan, part, terminal),
      ...writtenLines(out, Object.keys(written), terminal),
    ]);
  }
  return codeOf(part.findings);
}

/** The plan without what the prediction does not need: sweeps, walk, beacon and site are neither read nor checked. */
function groundOnly(plan: Plan): Plan {
  if (plan.terrain?.coverage === undefined) {
    throw new InputError({
      code: 'missing',
      argument: 'terrain.coverage',
      received: undefined,
      expected: 'the radius and cell of the area to predict, beside elevation files',
    });
  }
  const { antenna, walk: _walk, beacon: _beacon, site: _site, ...rest } = plan;
  return { ...rest, ...(antenna && { antenna: { ...antenna, sweeps: undefined } }) };
}

function described(plan: Plan, part: CoveragePart, terminal: Terminal): readonly string[] {
  const { radiusM, cellM, knownAreaM2, bands, findings } = part;
  const area = `${distance(radiusM)} round the antenna in cells of ${cellM} m; ${squareKilometres(knownAreaM2)} have a prediction.`;
  const rows = bands.map(({ name, neededPowerDbm, areaM2 }) => [
    name,
    decibels(neededPowerDbm, 'dBm'),
    squareKilometres(areaM2),
    percent(knownAreaM2 === 0 ? 0 : areaM2 / knownAreaM2),
  ]);
  return [
    ...wrapped(`${plan.name}: ${area}`, terminal),
    ...table([['data rate', 'needs', 'area', 'share'], ...rows]),
    ...findingLines(findings, terminal),
  ];
}
