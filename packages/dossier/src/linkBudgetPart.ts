import { requiredSnrDb } from '@finial/lora';
import { marginProbability } from '@finial/propagation';
import { freeSpaceLossDb, type LinkDirection, linkBudget } from '@finial/radio';
import type { Finding } from '@finial/units';
import type { PatternPart } from './antennaPart.js';
import type { BuiltPlan } from './builtPlan.js';
import { defaultLocationSigmaDb, type GroundPath } from './groundPath.js';
import { loraModulation } from './loraModulation.js';

/** How sure a predicted link is. */
export interface LinkCertainty {
  /** Probability that the uplink works at such a place, 0 to 1. */
  readonly uplinkRatio: number;
  /** Probability that the downlink works at such a place, 0 to 1. */
  readonly downlinkRatio: number;
  /** Spread of the loss from place to place in dB that it reckons with. */
  readonly locationSigmaDb: number;
  /** Error of the model in dB that it reckons with. */
  readonly modelErrorDb: number;
}

/** The link budget of the dossier, both ways. */
export interface LinkBudgetPart {
  /** Distance that the budget holds for, in metres. */
  readonly distanceM: number;
  /** Free-space loss at that distance in dB, without the plan's further losses. */
  readonly freeSpaceLossDb: number;
  /** Path loss of the budget in dB: over the ground where it is known, else that of free space. */
  readonly pathLossDb: number;
  /** What the path loss stands for. */
  readonly pathModel: 'free space' | 'ITU-R P.1812 over the ground';
  /** How sure both ways are at this place, over the ground; absent for free space, which says nothing of a place. */
  readonly certainty?: LinkCertainty | undefined;
  /** Node to gateway. */
  readonly uplink: LinkDirection;
  /** Gateway to node. */
  readonly downlink: LinkDirection;
  /** What the budget says to a person. */
  readonly findings: readonly Finding[];
}

/**
 * Computes the link budget of a plan: over the ground to the node where both are known, else over free space at the stated distance, and with
 * the losses that the plan names.
 *
 * @param ground - the path to the node
 * @param pattern - the gateway's pattern towards the node, where the plan describes one
 */
export function linkBudgetPart(
  plan: BuiltPlan,
  ground: GroundPath | undefined,
  pattern: PatternPart | undefined,
): LinkBudgetPart {
  const { gateway, node, link } = plan;
  const uplink = loraModulation(plan, node.uplink.dataRate, 'uplink', 'node.uplink.dataRate');
  const downlinkRate = gateway.downlink?.dataRate;
  const downlink =
    downlinkRate === undefined
      ? uplink
      : loraModulation(plan, downlinkRate, 'downlink', 'gateway.downlink.dataRate');
  const frequencyHz = node.uplink.frequencyHz;
  const freeDb = freeSpaceLossDb({ frequencyHz, distanceM: link.distanceM });
  const pathLossDb = ground?.prediction.lossDb ?? freeDb;
  const budget = linkBudget({
    pathLossDb,
    bandwidthHz: uplink.bandwidthHz,
    downlinkBandwidthHz: downlink.bandwidthHz,
    uplinkRequiredSnrDb: requiredSnrDb(uplink.spreadingFactor),
    downlinkRequiredSnrDb: requiredSnrDb(downlink.spreadingFactor),
    gateway: { ...gateway, receivedNoiseRiseDb: gateway.manMadeNoiseDb ?? 0 },
    node: { ...node, feedlineLossDb: node.feedlineLossDb ?? 0 },
    losses: [...(link.losses ?? []), ...patternLosses(pattern)],
  });
  const pathModel = ground ? 'ITU-R P.1812 over the ground' : 'free space';
  const findings = [
    marginFinding('uplink', budget.uplink, pathModel),
    marginFinding('downlink', budget.downlink, pathModel),
  ].flat();
  const { distanceM } = link;
  const certainty = ground && certaintyOf(budget, plan.terrain?.locationSigmaDb);
  return { certainty, distanceM, freeSpaceLossDb: freeDb, pathLossDb, pathModel, ...budget, findings };
}

/**
 * A model chosen without measurements on the spot errs by 12 to 15 dB (Phillips, Sicker, Grunwald 2012: the first row of `modelErrors`); a walk
 * is what brings this down.
 */
const modelErrorDb = 12;

function certaintyOf(
  { uplink, downlink }: { readonly uplink: LinkDirection; readonly downlink: LinkDirection },
  locationSigmaDb = defaultLocationSigmaDb,
): LinkCertainty {
  const ratio = ({ marginDb }: LinkDirection) =>
    marginProbability({ marginDb, locationSigmaDb, modelErrorDb });
  return { uplinkRatio: ratio(uplink), downlinkRatio: ratio(downlink), locationSigmaDb, modelErrorDb };
}

/** The gain of the plan is that of the strongest direction; the node may lie beside it. */
function patternLosses(pattern: PatternPart | undefined): { name: string; lossDb: number }[] {
  if (pattern === undefined || pattern.belowMaximumDb === 0) return [];
  return [{ name: 'gateway pattern towards the node', lossDb: pattern.belowMaximumDb }];
}

/** Below this margin an obstacle or a fade too many ends the link. */
const comfortableMarginDb = 10;

function marginFinding(
  name: 'uplink' | 'downlink',
  direction: LinkDirection,
  pathModel: LinkBudgetPart['pathModel'],
): Finding[] {
  const { marginDb } = direction;
  if (marginDb >= comfortableMarginDb) return [];
  const shown = `${marginDb.toFixed(1)} dB`;
  return [
    {
      rule: `${name}-margin`,
      severity: marginDb < 0 && pathModel === 'free space' ? 'stop' : 'fix',
      message: marginWords(name, marginDb, pathModel),
      measured: shown,
      limit: `${comfortableMarginDb} dB`,
      source: 'common practice, no source (10 dB allowance for fading and obstacles)',
    },
  ];
}

function marginWords(name: string, marginDb: number, pathModel: LinkBudgetPart['pathModel']): string {
  const lacks = `it lacks ${(-marginDb).toFixed(1)} dB. Choose a slower data rate, a better antenna or a shorter path.`;
  const spare = `${marginDb.toFixed(1)} dB to spare`;
  if (pathModel === 'free space') {
    return marginDb < 0
      ? `The ${name} does not close even over free ground: ${lacks}`
      : `The ${name} has ${spare} over free ground; hills, houses and fading easily take more. Do not count on this distance.`;
  }
  return marginDb < 0
    ? `The ${name} does not close over the ground to this place: ${lacks}`
    : `The ${name} has ${spare} over the ground to this place; houses and fading easily take more, and the model may err by as much.`;
}
