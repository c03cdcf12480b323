import {
  type CoverageStatement,
  type DeliveryRatio,
  deliveryRatio,
  effectiveSignalPowerDbm,
  groundDistanceM,
  type Observation,
  type PathLossFit,
  readSurvey,
  type SkippedRow,
  type SpotRow,
  type Survey,
  type SurveyColumns,
} from '@finial/survey';
import type { Finding } from '@finial/units';
import type { BuiltPlan } from './builtPlan.js';
import type { Plan, WalkPlan } from './plan.js';
import { lawOf, statementOf } from './walkEvidence.js';

/** One frame of the walk as the pictures need it. */
export interface WalkFrame {
  /** Ground distance to the gateway in metres. */
  readonly distanceM: number;
  /** Effective signal power in dBm; absent where the frame was missed. */
  readonly signalDbm?: number | undefined;
}

/** One spot of the walk. */
export type SpotSummary = SpotRow;

/** The walk part of the dossier. */
export interface WalkPart {
  /** Rows read from the log, skipped ones included. */
  readonly rows: number;
  /** Rows that could not be used, each with its reason. */
  readonly skipped: readonly SkippedRow[];
  /** Share of frames received over the whole walk. */
  readonly delivery: DeliveryRatio;
  /** The same by spot. */
  readonly spots: readonly SpotSummary[];
  /** Every frame, received or missed. */
  readonly frames: readonly WalkFrame[];
  /** Level against distance, missed frames counted where the log has them; absent where it holds too few received frames. */
  readonly fit?: PathLossFit | undefined;
  /** What may be published of it; absent where the log holds received frames only. */
  readonly statement?: CoverageStatement | undefined;
  /** What the walk says to a person. */
  readonly findings: readonly Finding[];
}

/** Reads the walk log as the plan says it is written. */
export function readWalk(walk: WalkPlan, logText: string): Survey {
  return readSurvey(logText, {
    file: walk.file,
    // The reader checks fields and units itself, and names them when they are wrong.
    columns: walk.columns as SurveyColumns | undefined,
    receivedOnly: walk.receivedOnly,
    decimal: walk.decimal,
    onBadRow: walk.onBadRow === 'skip' ? 'skip' : 'throw',
  });
}

/**
 * Says what a walk shows.
 *
 * @param spots - its spots, as `spotTable` gives them
 * @param verdict - what the comparison with a prediction came to, where there is one
 */
export function walkPart(
  plan: BuiltPlan,
  walk: WalkPlan,
  { observations, skipped, rows }: Survey,
  spots: readonly SpotSummary[],
  verdict: string | undefined,
): WalkPart {
  const fit = lawOf(plan, observations);
  return {
    rows,
    skipped,
    delivery: deliveryRatio(observations, {}),
    spots,
    frames: observations.map((observation) => walkFrame(observation, plan)),
    fit,
    statement: statementOf(plan, observations, fit, verdict),
    findings: [
      ...skippedFinding(skipped, walk),
      ...hollowFinding(spots),
      ...optimismFinding(observations, fit),
    ],
  };
}

function walkFrame(observation: Observation, plan: Plan): WalkFrame {
  const distanceM = observation.distanceM ?? groundDistanceM(plan.gateway.position, observation);
  const { rssiDbm, snrDb } = observation;
  if (!observation.received || rssiDbm === undefined) return { distanceM };
  return {
    distanceM,
    signalDbm: snrDb === undefined ? rssiDbm : effectiveSignalPowerDbm({ rssiDbm, snrDb }),
  };
}

function skippedFinding(skipped: readonly SkippedRow[], walk: WalkPlan): Finding[] {
  const first = skipped[0];
  if (first === undefined) return [];
  return [
    {
      rule: 'walk-rows-skipped',
      severity: 'fix',
      message: `${skipped.length} rows of ${walk.file} could not be used; the first is line ${first.line}: ${first.reason}.`,
      measured: `${skipped.length} rows`,
      source: 'the walk log',
    },
  ];
}

/** A spot whose delivery is poor although a farther one's is good: ground or houses in the way, not distance. */
export function hollowFinding(spots: readonly SpotSummary[]): Finding[] {
  const good = spots.filter(({ ratio, distanceM }) => ratio >= 0.9 && distanceM !== undefined);
  const farthestGoodM = Math.max(0, ...good.map(({ distanceM }) => distanceM ?? 0));
  const hollows = spots.filter(
    ({ ratio, distanceM }) => ratio < 0.4 && distanceM !== undefined && distanceM < farthestGoodM,
  );
  if (hollows.length === 0) return [];
  const names = hollows.map(({ spot, received, sent }) => `${spot} (${received} of ${sent})`);
  const listed = names.slice(0, 6).join(', ') + (names.length > 6 ? ` and ${names.length - 6} more` : '');
  return [
    {
      rule: 'hollow-spots',
      severity: 'note',
      message: `${hollows.length} spots nearer than ${(farthestGoodM / 1000).toFixed(1)} km deliver less than 40 % while farther ones deliver 90 %: ${listed}. A circle on the map would claim them; look for what shadows them.`,
      measured: `${hollows.length} spots`,
      source: 'the walk log',
    },
  ];
}

/** What missed frames do to a law of distance. */
export function optimismFinding(
  observations: readonly Observation[],
  fit: PathLossFit | undefined,
): Finding[] {
  const missed = observations.filter(({ received }) => !received).length;
  if (fit === undefined || missed === 0) return [];
  const far = fit.censoring?.optimism.at(-1);
  const cost =
    far === undefined
      ? 'The fitted line knows only the frames that arrived; the missed ones would pull it down. Do not read a range from it.'
      : `A line through the frames that arrived would promise ${far.optimismDb.toFixed(1)} dB too much at ${(far.distanceM / 1000).toFixed(1)} km; the law drawn counts the missed ones.`;
  return [
    {
      rule: 'missed-frames',
      severity: 'note',
      message: `${missed} frames were missed. ${cost}`,
      measured: `${missed} of ${observations.length} frames`,
      source:
        'Tobin, Econometrica 26 (1958) 24; Callebaut and Van der Perre, IEEE Internet of Things Journal 7 (2020) 1910',
    },
  ];
}
