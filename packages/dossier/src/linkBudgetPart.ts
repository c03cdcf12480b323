import { requiredSnrDb } from '@finial/lora';
import { freeSpaceLossDb, type LinkDirection, linkBudget } from '@finial/radio';
import type { Finding } from '@finial/units';
import type { PatternPart } from './antennaPart.js';
import type { BuiltPlan } from './feedlinePart.js';
import { loraModulation } from './loraModulation.js';

/** The link budget of the dossier, both ways. */
export interface LinkBudgetPart {
  /** Distance that the budget holds for, in metres. */
  readonly distanceM: number;
  /** Free-space loss at that distance in dB, without the plan's further losses. */
  readonly freeSpaceLossDb: number;
  /** Node to gateway. */
  readonly uplink: LinkDirection;
  /** Gateway to node. */
  readonly downlink: LinkDirection;
  /** What the budget says to a person. */
  readonly findings: readonly Finding[];
}

/**
 * Computes the link budget of a plan at its stated distance, over free space and the losses that the plan names.
 *
 * @param pattern - the gateway's pattern towards the node, where the plan describes one
 */
export function linkBudgetPart(plan: BuiltPlan, pattern: PatternPart | undefined): LinkBudgetPart {
  const { gateway, node, link } = plan;
  const uplink = loraModulation(plan, node.uplink.dataRate, 'uplink', 'node.uplink.dataRate');
  const downlinkRate = gateway.downlink?.dataRate;
  const downlink =
    downlinkRate === undefined
      ? uplink
      : loraModulation(plan, downlinkRate, 'downlink', 'gateway.downlink.dataRate');
  const frequencyHz = node.uplink.frequencyHz;
  const lossDb = freeSpaceLossDb({ frequencyHz, distanceM: link.distanceM });
  const budget = linkBudget({
    pathLossDb: lossDb,
    bandwidthHz: uplink.bandwidthHz,
    downlinkBandwidthHz: downlink.bandwidthHz,
    uplinkRequiredSnrDb: requiredSnrDb(uplink.spreadingFactor),
    downlinkRequiredSnrDb: requiredSnrDb(downlink.spreadingFactor),
    gateway: { ...gateway, receivedNoiseRiseDb: gateway.manMadeNoiseDb ?? 0 },
    node: { ...node, feedlineLossDb: node.feedlineLossDb ?? 0 },
    losses: [...(link.losses ?? []), ...patternLosses(pattern)],
  });
  const findings = [
    marginFinding('uplink', budget.uplink),
    marginFinding('downlink', budget.downlink),
  ].flat();
  return { distanceM: link.distanceM, freeSpaceLossDb: lossDb, ...budget, findings };
}

/** The gain of the plan is that of the strongest direction; the node may lie beside it. */
function patternLosses(pattern: PatternPart | undefined): { name: string; lossDb: number }[] {
  if (pattern === undefined || pattern.belowMaximumDb === 0) return [];
  return [{ name: 'gateway pattern towards the node', lossDb: pattern.belowMaximumDb }];
}

/** Below this margin an obstacle or a fade too many ends the link. */
const comfortableMarginDb = 10;

function marginFinding(name: 'uplink' | 'downlink', direction: LinkDirection): Finding[] {
  const { marginDb } = direction;
  if (marginDb >= comfortableMarginDb) return [];
  const shown = `${marginDb.toFixed(1)} dB`;
  return [
    {
      rule: `${name}-margin`,
      severity: marginDb < 0 ? 'stop' : 'fix',
      message:
        marginDb < 0
          ? `The ${name} does not close even over free ground: it lacks ${(-marginDb).toFixed(1)} dB. Choose a slower data rate, a better antenna or a shorter path.`
          : `The ${name} has ${shown} to spare over free ground; hills, houses and fading easily take more. Do not count on this distance.`,
      measured: shown,
      limit: `${comfortableMarginDb} dB`,
      source: 'common practice, no source (10 dB allowance for fading and obstacles)',
    },
  ];
}
