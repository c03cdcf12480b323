import { percent } from '../delivery/percent.js';
import type { CheckedQuestion } from './CoverageQuestion.js';
import type { ProvedSpot, SpotVerdict } from './provedSpots.js';

/** The figures that the sentences speak of. */
export interface CoverageFigures {
  readonly spots: readonly ProvedSpot[];
  readonly provedCount: number;
  readonly farthestProvedM?: number | undefined;
  readonly areaShareRatio?: number | undefined;
  readonly estimatedRangeM?: number | undefined;
}

/** All sentences that may be published, the main claim first. */
export function coverageSentences(question: CheckedQuestion, figures: CoverageFigures): readonly string[] {
  return [
    claimSentence(question, figures),
    ...lawSentences(question),
    ...refutedSentences(question, figures),
    ...openSentences(figures),
    ...farthestSentences(figures),
    ...areaSentences(question, figures),
    ...rangeSentences(question, figures),
    ...(question.calibration === undefined ? [] : [question.calibration.verdict]),
  ];
}

function claimSentence(question: CheckedQuestion, { spots, provedCount }: CoverageFigures): string {
  const { node, targetRatio, pace, applicationBytes } = question;
  const power = node.eirpDbm === undefined ? '' : `, EIRP ${node.eirpDbm} dBm`;
  const subject = `node at ${node.heightM} m, SF${node.spreadingFactor}${power},`;
  const share = `at least ${percent(targetRatio)} of its frames`;
  const sure = surety(question);
  if (provedCount === 0) {
    const where = spots.length === 1 ? 'the one spot walked' : `any of the ${spots.length} spots walked`;
    return `It is not proved that a ${subject} reaches this gateway with ${share} at ${where} (${sure}).`;
  }
  const sending =
    pace?.possible === true
      ? `, sending ${applicationBytes} bytes at most every ${interval(pace.minimumIntervalSeconds)}`
      : '';
  return (
    `A ${subject} reaches this gateway with ${share} at ${provedCount} of the ${spots.length} spots walked: ` +
    `${names(spots, 'proved')} (${sure})${sending}.`
  );
}

function lawSentences({ pace, applicationBytes }: CheckedQuestion): readonly string[] {
  if (pace === undefined) return [];
  if (!pace.possible) {
    return [`By the law as given, frames of ${applicationBytes} bytes may not be sent so: ${pace.reason}.`];
  }
  const book = pace.book === undefined ? '' : ` (${pace.book}, all frames there together)`;
  return [
    `Each frame is on the air for ${Number(pace.timeOnAirSeconds.toPrecision(3))} s; the law allows one every ` +
      `${interval(pace.minimumIntervalSeconds)}${book}.`,
  ];
}

function refutedSentences(question: CheckedQuestion, { spots }: CoverageFigures): readonly string[] {
  const refuted = names(spots, 'refuted');
  if (refuted === '') return [];
  return [`Fewer than ${percent(question.targetRatio)} arrive from: ${refuted} (${surety(question)}).`];
}

/** A sentence with more names than this is not read; the list of spots has them all. */
const mostNames = 6;

function openSentences({ spots }: CoverageFigures): readonly string[] {
  const open = spots.filter(({ verdict }) => verdict === 'open');
  if (open.length === 0) return [];
  const nearest = open
    .toSorted((a, b) => (a.furtherFrames ?? 0) - (b.furtherFrames ?? 0))
    .slice(0, mostNames);
  const listed = nearest.map(
    ({ spot, received, sent, furtherFrames = 0 }) =>
      `${spot} (${received} of ${sent}; ${furtherFrames} more without a miss would prove it)`,
  );
  const rest = open.length > mostNames ? ` and ${open.length - mostNames} more` : '';
  return [`Too few frames to tell at: ${listed.join(', ')}${rest}.`];
}

function farthestSentences({ farthestProvedM }: CoverageFigures): readonly string[] {
  if (farthestProvedM === undefined) return [];
  return [
    `The farthest of the proved spots is ${distance(farthestProvedM)} away; other places at that distance may hear nothing.`,
  ];
}

function areaSentences(question: CheckedQuestion, { areaShareRatio }: CoverageFigures): readonly string[] {
  if (areaShareRatio === undefined) return [];
  return [
    `The ${question.spots.length} spots were drawn by lot: at least ${percentBelow(areaShareRatio)} of the places of that area have such ` +
      `reception (${percent(question.confidence)} confidence).`,
  ];
}

function rangeSentences(
  { fit, targetRatio }: CheckedQuestion,
  { estimatedRangeM }: CoverageFigures,
): readonly string[] {
  if (fit === undefined || fit.excluded.missedFrames > 0) return [];
  if (estimatedRangeM === undefined) {
    return [
      `By the fitted law (an estimate), fewer than ${percent(targetRatio)} of frames arrive already at ${distance(fit.nearestDistanceM)}.`,
    ];
  }
  const bound = estimatedRangeM === fit.farthestDistanceM ? ', which is as far as the walk went' : '';
  return [
    `By the fitted law (an estimate, not a proof), ${percent(targetRatio)} of the frames sent from places at one distance arrive out to ` +
      `${distance(estimatedRangeM)}${bound}.`,
  ];
}

/** What a reader would like to take from the statement and must not. */
export function notClaimed(question: CheckedQuestion): readonly string[] {
  const { node, spots, fit, calibration, pace, spotChoice, claim, confidence } = question;
  const list = [
    'Places between and beyond the spots.',
    'Other seasons, weather, hours and traffic than on the walk.',
    `Nodes that stand lower than ${node.heightM} m, indoors, or with less radiated power or a worse antenna.`,
    `Frames faster than SF${node.spreadingFactor}, and confirmed frames or downlinks: only uplinks were counted.`,
  ];
  if (spots.every(({ received, sent }) => received === sent)) {
    list.push('Anything at all, if the log lists received frames only: it shows no miss by construction.');
  }
  if (node.eirpDbm === undefined) list.push('The radiated power of the node, which was not given.');
  if (claim === 'each') {
    list.push(
      `That all named spots hold at once: each was tested by itself, and about ${percent(1 - confidence)} of such tests may be wrong.`,
    );
  }
  if (spotChoice !== 'random') list.push('A share of the area: the spots were not drawn by lot.');
  if (fit !== undefined && fit.excluded.missedFrames > 0) {
    list.push(
      `A range from the fitted law: it left out ${fit.excluded.missedFrames} missed frames, which makes it look farther than it is.`,
    );
  }
  if (calibration === undefined)
    list.push('That the predicted map is right: it was not compared with this walk.');
  if (pace === undefined) list.push('How often a node may send by law, which was not worked out.');
  return list;
}

function surety({ confidence, claim, spots }: CheckedQuestion): string {
  if (spots.length === 1) return `${percent(confidence)} confidence`;
  return `${percent(confidence)} confidence, ${claim === 'together' ? 'for all named spots together' : 'for each by itself'}`;
}

function names(spots: readonly ProvedSpot[], verdict: SpotVerdict): string {
  return spots
    .filter((spot) => spot.verdict === verdict)
    .map(({ spot }) => spot)
    .join(', ');
}

/** A bound that was worked out: rounded down, never up. */
function percentBelow(ratio: number): string {
  return percent(Math.floor(ratio * 1000) / 1000, 1);
}

/** A shortest interval, rounded up: sooner would break the law. */
function interval(timeSeconds: number): string {
  if (timeSeconds <= 120) return `${Math.ceil(timeSeconds)} s`;
  return `${Math.ceil(timeSeconds / 6) / 10} minutes`;
}

/** A distance, rounded down. */
function distance(distanceM: number): string {
  return distanceM < 1000 ? `${Math.floor(distanceM)} m` : `${Math.floor(distanceM / 10) / 100} km`;
}
