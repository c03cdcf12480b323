import type { LawfulPace } from '@finial/lora';
import { checkInteger, checkList, checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import type { Calibration } from '../calibrate/calibrate.js';
import type { SpotDelivery } from '../deliveryBySpot.js';
import type { PathLossFit } from '../fitPathLoss.js';

/** The node that was carried. */
export interface WalkedNode {
  /** Height of its antenna above ground in metres, 0 to 500. */
  readonly heightM: number;
  /** LoRa spreading factor of every frame counted, 5 to 12. */
  readonly spreadingFactor: number;
  /** Radiated power in dBm over an isotropic antenna, -60 to 60, where it is known. */
  readonly eirpDbm?: number | undefined;
}

/** What a statement on coverage is made of. */
export interface CoverageQuestion {
  /**
   * Counts by spot, from `deliveryBySpot`: one gateway, one spreading factor, up to a million frames each. Missed frames must be counted: a
   * log of received frames only proves nothing, and looks as if it proved all.
   */
  readonly spots: readonly (Pick<SpotDelivery, 'spot' | 'received' | 'sent'> &
    Partial<Pick<SpotDelivery, 'distanceM'>>)[];
  /** The node that was carried. */
  readonly node: WalkedNode;
  /** Share of frames that shall arrive, 0.01 to 0.999. @defaultValue `0.9` */
  readonly targetRatio?: number | undefined;
  /** Confidence as a ratio, 0.5 to 0.9999; one-sided. @defaultValue `0.95` */
  readonly confidence?: number | undefined;
  /**
   * `'together'`: as sure that not one of the named spots is wrong; `'each'`: as sure of each by itself, so that of many some are
   * wrong. @defaultValue `'together'`
   */
  readonly claim?: 'together' | 'each' | undefined;
  /**
   * `'random'` if the spots were drawn by lot from the area before anything was heard: only then do they speak for it.
   * @defaultValue `'convenient'`
   */
  readonly spotChoice?: 'random' | 'convenient' | undefined;
  /** The law of distance from `fitPathLoss`, for an estimate; with `thresholdDbm`. */
  readonly fit?:
    | Pick<
        PathLossFit,
        'interceptDbm' | 'exponent' | 'shadowingDb' | 'nearestDistanceM' | 'farthestDistanceM' | 'excluded'
      >
    | undefined;
  /** Weakest signal in dBm that the gateway receives at that spreading factor, -170 to -60, such as lora's `sensitivityDbm`. */
  readonly thresholdDbm?: number | undefined;
  /** What `calibrate` says of the predicted map; its verdict is printed as it stands. */
  readonly calibration?: Pick<Calibration, 'verdict'> | undefined;
  /** How often such frames may be sent, from lora's `lawfulPace`; with `applicationBytes`. */
  readonly pace?: LawfulPace | undefined;
  /** Bytes of the application in each frame that the pace was worked out for, 0 to 242. */
  readonly applicationBytes?: number | undefined;
}

/** The question with its defaults, checked. */
export type CheckedQuestion = CoverageQuestion &
  Required<{
    [Key in 'targetRatio' | 'confidence' | 'claim' | 'spotChoice']: NonNullable<CoverageQuestion[Key]>;
  }>;

/** Refuses what cannot be a walk, a node, a law or a pace. */
export function checkQuestion(question: CoverageQuestion): CheckedQuestion {
  const {
    targetRatio = 0.9,
    confidence = 0.95,
    claim = 'together',
    spotChoice = 'convenient',
  } = checkObject(question, 'question');
  checkSpots(question.spots);
  checkNode(question.node);
  checkRange(targetRatio, 'targetRatio', { min: 0.01, max: 0.999, unit: 'as a ratio' });
  checkRange(confidence, 'confidence', { min: 0.5, max: 0.9999, unit: 'as a ratio' });
  checkOneOf(claim, 'claim', ['together', 'each']);
  checkOneOf(spotChoice, 'spotChoice', ['random', 'convenient']);
  checkFit(question);
  checkPace(question);
  if (question.calibration !== undefined) {
    checkText(checkObject(question.calibration, 'calibration').verdict, 'calibration.verdict');
  }
  return { ...question, targetRatio, confidence, claim, spotChoice };
}

function checkSpots(spots: CoverageQuestion['spots']): void {
  const names = new Set<string>();
  checkList(spots, 'spots').forEach((each, index) => {
    const path = `spots[${index}]`;
    const name = checkText(checkObject(each, path).spot, `${path}.spot`);
    const sent = checkInteger(each.sent, `${path}.sent`, { min: 1, max: 1e6, unit: 'frames' });
    checkInteger(each.received, `${path}.received`, { min: 0, max: sent, unit: 'frames' });
    if (each.distanceM !== undefined) {
      checkRange(each.distanceM, `${path}.distanceM`, { min: 0, max: 20_100_000, unit: 'metres' });
    }
    if (names.has(name)) {
      throw new InputError({
        code: 'out-of-range',
        argument: `${path}.spot`,
        received: name,
        expected: 'each spot once',
      });
    }
    names.add(name);
  });
}

function checkNode(node: WalkedNode): void {
  checkObject(node, 'node');
  checkRange(node.heightM, 'node.heightM', { min: 0, max: 500, unit: 'metres' });
  checkInteger(node.spreadingFactor, 'node.spreadingFactor', { min: 5, max: 12, unit: 'bits per symbol' });
  if (node.eirpDbm !== undefined)
    checkRange(node.eirpDbm, 'node.eirpDbm', { min: -60, max: 60, unit: 'dBm' });
}

function checkFit({ fit, thresholdDbm }: CoverageQuestion): void {
  if (thresholdDbm !== undefined)
    checkRange(thresholdDbm, 'thresholdDbm', { min: -170, max: -60, unit: 'dBm' });
  if (fit === undefined) return;
  checkObject(fit, 'fit');
  checkRange(fit.interceptDbm, 'fit.interceptDbm', { min: -3000, max: 3000, unit: 'dBm' });
  checkRange(fit.exponent, 'fit.exponent', { min: -1000, max: 1000, unit: 'as an exponent' });
  checkRange(fit.shadowingDb, 'fit.shadowingDb', { min: 0, max: 1000, unit: 'dB' });
  checkRange(fit.nearestDistanceM, 'fit.nearestDistanceM', { min: 1, max: 20_100_000, unit: 'metres' });
  const nearest = fit.nearestDistanceM;
  checkRange(fit.farthestDistanceM, 'fit.farthestDistanceM', {
    min: nearest,
    max: 20_100_000,
    unit: 'metres',
  });
  const excluded = checkObject(fit.excluded, 'fit.excluded');
  for (const name of ['missedFrames', 'tooNearFrames', 'noSignalFrames'] as const) {
    checkInteger(excluded[name], `fit.excluded.${name}`, { min: 0, max: 1e9, unit: 'frames' });
  }
  if (thresholdDbm !== undefined) return;
  throw new InputError({
    code: 'missing',
    argument: 'thresholdDbm',
    received: undefined,
    expected: 'the weakest level that is received, with a fit',
  });
}

function checkPace({ pace, applicationBytes }: CoverageQuestion): void {
  if (applicationBytes !== undefined) {
    checkInteger(applicationBytes, 'applicationBytes', { min: 0, max: 242, unit: 'bytes' });
  }
  if (pace === undefined) return;
  checkObject(pace, 'pace');
  if (checkOneOf(pace.possible, 'pace.possible', [true, false])) {
    const { timeOnAirSeconds, minimumIntervalSeconds, framesPerHour, book } = pace as Extract<
      LawfulPace,
      { possible: true }
    >;
    checkRange(timeOnAirSeconds, 'pace.timeOnAirSeconds', { min: 0, max: 3600, unit: 'seconds' });
    checkRange(minimumIntervalSeconds, 'pace.minimumIntervalSeconds', { min: 0, max: 1e9, unit: 'seconds' });
    checkRange(framesPerHour, 'pace.framesPerHour', { min: 0, max: 1e9, unit: 'frames' });
    if (book !== undefined) checkText(book, 'pace.book');
  } else {
    checkText((pace as Extract<LawfulPace, { possible: false }>).reason, 'pace.reason');
  }
  if (applicationBytes !== undefined) return;
  throw new InputError({
    code: 'missing',
    argument: 'applicationBytes',
    received: undefined,
    expected: 'the size of the frames that the pace was worked out for',
  });
}

function checkText(value: unknown, argument: string): string {
  if (typeof value === 'string' && value.trim() !== '') return value;
  throw new InputError({
    code: 'wrong-type',
    argument,
    received: value,
    expected: 'a text that is not empty',
  });
}
