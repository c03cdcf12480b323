import { lawfulPace } from '@finial/lora';
import { eirpDbm } from '@finial/radio';
import {
  type CoverageStatement,
  coverageStatement,
  deliveryBySpot,
  fitPathLoss,
  groundDistanceM,
  type Observation,
  type PathLossFit,
} from '@finial/survey';
import { isInputError } from '@finial/units';
import type { BuiltPlan } from './builtPlan.js';
import { loraModulation } from './loraModulation.js';
import { planRegion } from './planRegion.js';
import { uplinkThresholdDbm } from './uplinkMap.js';

/** Nearer frames say more of the roof than of the way. */
const nearestFitM = 50;
const spreadingFactors = [5, 6, 7, 8, 9, 10, 11, 12] as const;

/**
 * The law of distance that the walk supports. With missed frames in the log each of them says that its level lay below what the gateway can
 * read; a log without missed frames gets the line through what arrived, which is too good. A log that holds no SNR is fitted by its
 * RSSI, and one with too few levels not at all.
 */
export function lawOf(plan: BuiltPlan, observations: readonly Observation[]): PathLossFit | undefined {
  const gateway = plan.gateway.position;
  const received = observations.filter(({ rssiDbm }) => rssiDbm !== undefined);
  const withSnr = received.filter(({ snrDb }) => snrDb !== undefined);
  const signal = withSnr.length === 0 ? 'rssi' : 'effective';
  const distances = (signal === 'rssi' ? received : withSnr)
    .map((observation) => Math.round(groundDistanceM(gateway, observation)))
    .filter((distanceM) => distanceM > nearestFitM);
  if (distances.length < 10 || new Set(distances).size < 3) return undefined;
  const settings = { gateway, minimumDistanceM: nearestFitM, signal } as const;
  const hasMissed = observations.some((observation) => !observation.received);
  if (!hasMissed || signal === 'rssi') return fitPathLoss(observations, settings);
  try {
    return fitPathLoss(observations, { ...settings, censored: true, thresholdDbm: thresholds(plan) });
  } catch (error) {
    // A walk whose frames do not determine the law with its missed ones still has its line.
    if (!isInputError(error)) throw error;
    return fitPathLoss(observations, settings);
  }
}

/** The least level that the gateway reads, by spreading factor. */
function thresholds(plan: BuiltPlan): Record<number, number> {
  return Object.fromEntries(spreadingFactors.map((factor) => [factor, uplinkThresholdDbm(plan, factor)]));
}

/**
 * What may be published of the walk: of the frames with the plan's spreading factor, or of all where the log states none. A log that
 * holds received frames only proves nothing, and gets no statement.
 */
export function statementOf(
  plan: BuiltPlan,
  observations: readonly Observation[],
  fit: PathLossFit | undefined,
  verdict: string | undefined,
): CoverageStatement | undefined {
  const { node } = plan;
  const { spreadingFactor } = loraModulation(plan, node.uplink.dataRate, 'uplink', 'node.uplink.dataRate');
  const counted = observations.filter(
    (frame) => frame.spreadingFactor === undefined || frame.spreadingFactor === spreadingFactor,
  );
  if (counted.length === 0 || plan.walk?.receivedOnly === true) return undefined;
  const { applicationBytes, frequencyHz, dataRate } = node.uplink;
  return coverageStatement({
    spots: deliveryBySpot(counted, { gateway: plan.gateway.position }),
    node: {
      heightM: node.heightM,
      spreadingFactor,
      eirpDbm: eirpDbm({ ...node, feedlineLossDb: node.feedlineLossDb ?? 0 }),
    },
    fit: fit?.censoring !== undefined && isLawOfDistance(fit) ? fit : undefined,
    thresholdDbm: uplinkThresholdDbm(plan, spreadingFactor),
    calibration: verdict === undefined ? undefined : { verdict },
    pace: lawfulPace({
      region: planRegion(plan),
      jurisdiction: plan.jurisdiction,
      frequencyHz,
      dataRate,
      applicationBytes,
    }),
    applicationBytes,
  });
}

/** A walk at nearly one distance fits any slope; nothing is read from a law that no ground could have. */
function isLawOfDistance({ exponent }: PathLossFit): boolean {
  return exponent > 1 && exponent < 10;
}
