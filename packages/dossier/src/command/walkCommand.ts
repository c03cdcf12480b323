import { basename } from 'node:path';
import {
  type DeliveryRatio,
  deliveryRatio,
  fitPathLoss,
  type Observation,
  type PathLossFit,
  type Position,
  readSurvey,
  type SpotRow,
  type Survey,
  spotTable,
} from '@finial/survey';
import { type Finding, InputError, isInputError } from '@finial/units';
import type { Command } from 'commander';
import { inPlan } from '../inPlan.js';
import { hollowFinding, optimismFinding } from '../walkPart.js';
import { codeOf, helpAfter } from './exitCodes.js';
import { decibels, distance, percent } from './figures.js';
import { findingLines, table, wrapped, writeJson, writeLines } from './layout.js';
import { flagOf, numberOption } from './numberOption.js';
import { readText } from './planFile.js';
import type { CommandSetting, Terminal } from './Terminal.js';

interface WalkOptions {
  readonly latitudeDeg?: number;
  readonly longitudeDeg?: number;
  readonly receivedOnly?: true;
  readonly decimal?: string;
  readonly skipBadRows?: true;
  readonly json?: true;
}

/** What a walk says without a plan. */
interface Walked {
  readonly rows: number;
  readonly skipped: Survey['skipped'];
  readonly delivery: DeliveryRatio;
  readonly spots: readonly SpotRow[];
  readonly fit?: PathLossFit | undefined;
  readonly findings: readonly Finding[];
}

/** `finial walk`: a survey alone. */
export function addWalkCommand(program: Command, { terminal, end }: CommandSetting): void {
  program
    .command('walk')
    .description(
      'read the log of a walk: delivery, spot by spot, and the law of distance where it can be told',
    )
    .argument('<log.csv>', 'one frame per row, received or missed (CSV, GeoJSON or NDJSON)')
    .addOption(numberOption('--latitude-deg', 'where the gateway stands, degrees north'))
    .addOption(numberOption('--longitude-deg', 'where the gateway stands, degrees east'))
    .option('--received-only', 'the log lists received frames only')
    .option('--decimal <mark>', 'decimal mark of the numbers: . or ,')
    .option('--skip-bad-rows', 'leave rows out that cannot be read, and list them')
    .option('--json', 'print the result as JSON')
    .addHelpText(
      'after',
      helpAfter(
        'finial walk walk.csv --latitude-deg 41.1901 --longitude-deg -37.4322',
        'prints delivery with its interval, the table of spots and the law of distance; writes no files.',
      ),
    )
    .action(async (path: string, options: WalkOptions) => {
      const walked = walkedOf(await readText(path, 'log.csv'), basename(path), options);
      if (options.json) writeJson(terminal, walked);
      else writeLines(terminal, described(walked, basename(path), terminal));
      end(codeOf(walked.findings));
    });
}

function walkedOf(text: string, file: string, options: WalkOptions): Walked {
  const gateway = gatewayOf(options);
  const { observations, skipped, rows } = inPlan(walkFlag, () =>
    readSurvey(text, {
      file,
      receivedOnly: options.receivedOnly,
      decimal: options.decimal as '.' | ',' | undefined,
      onBadRow: options.skipBadRows ? 'skip' : 'throw',
    }),
  );
  if (observations.length === 0) {
    throw new InputError({
      code: 'missing',
      argument: '',
      received: rows,
      expected: 'one good row or more',
      file,
    });
  }
  return inPlan(walkFlag, () => {
    const by = observations.every(({ spot }) => spot !== undefined) ? 'spot' : 'position';
    const { fit, finding } = lawOf(observations, gateway);
    const spots = spotTable(observations, { gateway, by });
    return {
      rows,
      skipped,
      delivery: deliveryRatio(observations),
      spots,
      fit,
      findings: [
        ...finding,
        ...provesNothing(options),
        ...hollowFinding(spots),
        ...optimismFinding(observations, fit),
      ],
    };
  });
}

/** The library knows the gateway as one argument; here its coordinates are options of their own. */
function walkFlag(argument: string): string {
  return flagOf(argument.replace(/^gateway\./, ''));
}

function gatewayOf({ latitudeDeg, longitudeDeg }: WalkOptions): Position | undefined {
  if (latitudeDeg !== undefined && longitudeDeg !== undefined) return { latitudeDeg, longitudeDeg };
  if (latitudeDeg === longitudeDeg) return undefined;
  const argument = latitudeDeg === undefined ? '--latitude-deg' : '--longitude-deg';
  const expected = 'both latitude and longitude of the gateway, or neither';
  throw new InputError({ code: 'missing', argument, received: undefined, expected });
}

/** Missed frames count where the log has them; where no law comes out, a note says why. */
function lawOf(
  observations: readonly Observation[],
  gateway: Position | undefined,
): { readonly fit?: PathLossFit; readonly finding: readonly Finding[] } {
  const hasSnr = observations.some(({ snrDb }) => snrDb !== undefined);
  const censored = hasSnr && observations.some(({ received }) => !received);
  try {
    const signal = hasSnr ? 'effective' : 'rssi';
    return { fit: fitPathLoss(observations, { gateway, signal, censored }), finding: [] };
  } catch (error) {
    if (!isInputError(error)) throw error;
    const message = `No law of distance: ${error.message}.`;
    return { finding: [{ rule: 'walk-no-law', severity: 'note', message, source: 'the walk log' }] };
  }
}

function provesNothing({ receivedOnly }: WalkOptions): readonly Finding[] {
  if (!receivedOnly) return [];
  const message =
    'The log holds received frames only: every delivery is 100 % by construction and proves nothing. Log the missed frames too, by their counters.';
  return [{ rule: 'walk-received-only', severity: 'note', message, source: 'the walk log' }];
}

function described(walked: Walked, file: string, terminal: Terminal): readonly string[] {
  const { rows, skipped, delivery, spots, fit, findings } = walked;
  const { received, sent, ratio, lowerRatio, upperRatio, confidence } = delivery;
  const sure = `${percent(lowerRatio)} to ${percent(upperRatio)} at ${percent(confidence)} confidence`;
  return [
    ...wrapped(`${file}: ${received} of ${sent} frames received, ${percent(ratio)} (${sure}).`, terminal),
    ...table([['spot', 'distance', 'received', 'share', 'to spare'], ...spots.map(spotCells)]),
    ...(fit === undefined ? [] : lawLines(fit, terminal)),
    ...(skipped.length === 0 ? [] : [`${skipped.length} of ${rows} rows could not be used:`]),
    ...skipped.flatMap(({ line, reason }) => wrapped(reason, terminal, `  line ${line}  `)),
    ...findingLines(findings, terminal),
    ...delivery.warnings.flatMap((warning) => wrapped(warning, terminal, '  ')),
  ];
}

function spotCells({ spot, distanceM, received, sent, ratio, meanMarginDb }: SpotRow): readonly string[] {
  return [
    spot,
    distanceM === undefined ? '-' : distance(distanceM),
    `${received} of ${sent}`,
    percent(ratio),
    meanMarginDb === undefined ? '-' : `${meanMarginDb.toFixed(1)} dB`,
  ];
}

function lawLines(fit: PathLossFit, terminal: Terminal): readonly string[] {
  const { interceptDbm, exponent, shadowingDb, usedFrames, nearestDistanceM, farthestDistanceM, censoring } =
    fit;
  const kind = censoring === undefined ? 'received frames only' : 'missed frames counted';
  const range = `${usedFrames} frames from ${distance(nearestDistanceM)} to ${distance(farthestDistanceM)}, ${kind}`;
  const law = `Law of distance: ${decibels(interceptDbm, 'dBm')} at 1 m, exponent ${exponent.toFixed(2)}, spread ${decibels(shadowingDb)} (${range}).`;
  return [...wrapped(law, terminal), ...fit.warnings.flatMap((warning) => wrapped(warning, terminal, '  '))];
}
