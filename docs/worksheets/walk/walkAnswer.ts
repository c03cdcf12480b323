import { gatewayNoise, type PathLossFit, spotTable as spotRows } from '@finial/survey';
import { type Finding, isInputError } from '@finial/units';
import { loraModulation } from '../../../packages/dossier/src/loraModulation.js';
import { levelOverDistance } from '../../../packages/dossier/src/page/levelOverDistance.js';
import { deliveryClasses, spotMap } from '../../../packages/dossier/src/page/spotMap.js';
import { decibels, decimal, distance, percent } from '../../../packages/dossier/src/page/wording.js';
import { uplinkThresholdDbm } from '../../../packages/dossier/src/uplinkMap.js';
import { type WalkPart, walkPart } from '../../../packages/dossier/src/walkPart.js';
import { legend } from '../frame/legend.js';
import type { Outcome, SheetFiles, SheetTable } from '../frame/sheet.js';
import { readFrames, type WalkFrames } from './readFrames.js';
import { walkCode } from './walkCode.js';
import { planOf, type WalkValues } from './walkValues.js';

/** What a walk says: delivery, spots, law of distance, and what may be published. */
export function walkAnswer(values: WalkValues, files: SheetFiles): Outcome {
  const plan = planOf(values);
  const { position } = plan.gateway;
  const { spreadingFactor } = loraModulation(plan, values.dataRate, 'uplink', 'dataRate');
  const frames = readFrames(values, files, position, spreadingFactor);
  const walk = {
    file: frames.files.map(({ name }) => name).join(' and '),
    receivedOnly: plan.walk?.receivedOnly,
  };
  const spots = spotRows(frames.observations, { gateway: position });
  const part = walkPart(plan, walk, frames, spots, undefined);
  const thresholdDbm = uplinkThresholdDbm(plan, spreadingFactor);
  return {
    lead: leadOf(part, walk.receivedOnly === true),
    facts: [
      ['Frames received', `${part.delivery.received} of ${part.delivery.sent}, ${intervalOf(part.delivery)}`],
      ['Spots', `${part.spots.length}`],
      ['Weakest frame that the gateway can read', `${decibels(thresholdDbm, 'dBm')} at SF${spreadingFactor}`],
      ...lawFacts(part.fit),
      ...noiseFacts(values, frames),
      ...(frames.join === undefined
        ? []
        : [['Added to the times of the track', `${String(frames.join.clockOffsetSeconds)}\u00a0s`] as const]),
      ['Rows read', `${part.rows}, of which ${part.skipped.length} skipped`],
    ],
    pictures: picturesOf(part, position),
    lists: statementLists(part, spreadingFactor),
    tables: [...openTables(part), spotTable(part, frames.isInSquares), ...skippedTables(part, frames)],
    findings: [...part.findings, ...frames.findings, ...receivedOnlyFindings(walk.receivedOnly === true)],
    code: walkCode(values, frames, part, (factor) => uplinkThresholdDbm(plan, factor)),
  };
}

function leadOf({ delivery, spots, statement }: WalkPart, isReceivedOnly: boolean): string {
  if (isReceivedOnly) {
    return `${delivery.received} received frames at ${spots.length} spots. What was missed is not in the log, so that no share of frames and no coverage follows from it.`;
  }
  const counted = `${delivery.received} of ${delivery.sent} frames arrived: ${percent(delivery.ratio)}, at ${spots.length} spots.`;
  return statement === undefined ? counted : `${counted} ${statement.claim}`;
}

function intervalOf({ ratio, lowerRatio, upperRatio }: WalkPart['delivery']): string {
  return `${percent(ratio)}, between ${percent(lowerRatio)} and ${percent(upperRatio)} at 95\u00a0% confidence`;
}

type Facts = readonly (readonly [string, string])[];

function lawFacts(fit: PathLossFit | undefined): Facts {
  if (fit === undefined) return [['Law of distance', 'too few levels at too few distances']];
  const { exponent, standardErrors, standardErrorsBySpot, shadowingDb, interceptDbm, censoring } = fit;
  const error = (standardErrorsBySpot ?? standardErrors).exponent;
  const missed =
    censoring === undefined
      ? 'knows nothing of missed frames'
      : `counts ${censoring.missedFrames} missed frames`;
  return [
    ['Law of distance', `exponent ${decimal(exponent, 2)} ± ${decimal(error, 2)}; ${missed}`],
    ['Level that it gives at 1 km', decibels(interceptDbm - 30 * exponent, 'dBm')],
    ['Spread around it (shadowing)', decibels(shadowingDb, 'dB')],
  ];
}

/** Noise that the frames themselves tell of; a log without weak frames with both levels tells nothing. */
function noiseFacts({ noiseFigureDb }: WalkValues, { observations }: WalkFrames): Facts {
  try {
    const [noise] = gatewayNoise(observations, { noiseFigureDb }).byBandwidth;
    if (noise === undefined) return [];
    const { medianNoiseDbm, noiseRiseDb, usedFrames } = noise;
    const rise = `${decibels(noiseRiseDb, 'dB')} over the receiver's own`;
    return [
      [
        'Noise at the gateway, from the levels',
        `${decibels(medianNoiseDbm, 'dBm')}, ${rise} (${usedFrames} frames)`,
      ],
    ];
  } catch (error) {
    if (!isInputError(error)) throw error;
    return [];
  }
}

function picturesOf(
  part: WalkPart,
  gateway: Parameters<typeof spotMap>[0],
): NonNullable<Outcome['pictures']> {
  const classes = deliveryClasses.map(({ name }, index) => ({ name, className: `spot share-${index}` }));
  const key = legend('Share of frames received', 'dot', classes).markupText;
  const map = {
    svg: spotMap(gateway, part.spots).markupText + key,
    caption: 'Share of frames received at each spot.',
  };
  // A level needs an RSSI: a log without any has nothing to draw.
  if (part.frames.every(({ signalDbm }) => signalDbm === undefined)) return [map];
  const law = part.fit === undefined ? '' : ' Line: the law of distance.';
  const caption = `Level of each received frame over distance, cleared of the noise in it where the log has the SNR. Ticks below: frames that never arrived.${law}`;
  return [map, { svg: levelOverDistance(part).markupText, caption }];
}

function statementLists({ statement }: WalkPart, spreadingFactor: number): NonNullable<Outcome['lists']> {
  if (statement === undefined) {
    const why = `Nothing: no frame of the log counts for SF${spreadingFactor}, or it holds received frames only.`;
    return [{ caption: 'What may be published', sentences: [why] }];
  }
  return [
    { caption: 'What may be published', sentences: statement.sentences },
    { caption: 'What is not claimed', sentences: statement.notClaimed },
  ];
}

function openTables({ statement }: WalkPart): SheetTable[] {
  const open = statement?.spots.filter(({ verdict }) => verdict === 'open') ?? [];
  if (open.length === 0) return [];
  const rows = open.map(({ spot, received, sent, furtherFrames }) => [
    spot,
    String(received),
    String(sent),
    furtherFrames === undefined ? '–' : String(furtherFrames),
  ]);
  const caption = 'Frames still to be sent, all of them received, to prove a spot';
  return [{ caption, head: ['Spot', 'Received', 'Sent', 'Further frames'], rows, isFolded: true }];
}

function spotTable({ spots }: WalkPart, isInSquares: boolean): SheetTable {
  const rows = spots.map((spot) => [
    spot.spot,
    spot.distanceM === undefined ? '–' : distance(spot.distanceM),
    `${spot.received} of ${spot.sent}`,
    percent(spot.ratio),
    `${percent(spot.lowerRatio)} to ${percent(spot.upperRatio)}`,
    spot.meanRssiDbm === undefined ? '–' : decibels(spot.meanRssiDbm, 'dBm'),
    spot.meanSnrDb === undefined ? '–' : decibels(spot.meanSnrDb, 'dB'),
    spot.meanMarginDb === undefined ? '–' : decibels(spot.meanMarginDb, 'dB'),
  ]);
  const head = ['Spot', 'Distance', 'Received', 'Share', '95 % interval', 'RSSI', 'SNR', 'To spare'];
  const caption = `The spots${isInSquares ? ', squares named by the metres to their middle' : ''}; levels are means of received frames`;
  return { caption, head, rows, isFolded: true };
}

function skippedTables({ skipped }: WalkPart, { leftOut }: WalkFrames): SheetTable[] {
  const tables: SheetTable[] = [];
  if (skipped.length > 0) {
    tables.push({
      caption: 'Rows that were skipped',
      head: ['Line', 'Reason', 'Row'],
      rows: skipped.map(({ line, reason, text }) => [String(line), reason, text]),
    });
  }
  if (leftOut.length > 0) {
    tables.push({
      caption: 'Uplinks that are in no frame of the walk',
      head: ['Line', 'Reason'],
      rows: leftOut.map(({ line, reason }) => [line === undefined ? '–' : String(line), reason]),
      isFolded: true,
    });
  }
  return tables;
}

function receivedOnlyFindings(isReceivedOnly: boolean): Finding[] {
  if (!isReceivedOnly) return [];
  return [
    {
      rule: 'received-only',
      severity: 'fix',
      message:
        'The log holds received frames only: every share in it is 100 % by making. Have the node count its frames, and walk again.',
      source: 'the walk log',
    },
  ];
}
