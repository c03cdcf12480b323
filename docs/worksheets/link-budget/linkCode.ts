import { about, literal } from '../frame/codeOf.js';
import type { Link } from './Link.js';

/** The code that computes the same link. */
export function linkCode({
  values,
  plan,
  budget,
  uplinkModulation,
  downlinkModulation,
  ...link
}: Link): string {
  const { frequencyHz, distanceM } = values;
  const uplink = literal({ ...uplinkModulation, noiseFigureDb: values.gatewayNoiseFigureDb });
  return `import { requiredSnrDb, sensitivityDbm } from '@finial/lora';
import { freeSpaceLossDb, linkBudget } from '@finial/radio';

const pathLossDb = freeSpaceLossDb(${literal({ frequencyHz, distanceM })});
pathLossDb; ${about(plan.pathLossDb)}

const { uplink, downlink } = linkBudget({
  pathLossDb,
  bandwidthHz: ${plan.bandwidthHz},
  downlinkBandwidthHz: ${plan.downlinkBandwidthHz},
  uplinkRequiredSnrDb: requiredSnrDb(${uplinkModulation.spreadingFactor}),
  downlinkRequiredSnrDb: requiredSnrDb(${downlinkModulation.spreadingFactor}),
  gateway: ${literal(plan.gateway, '  ')},
  node: ${literal(plan.node, '  ')},
  losses: ${literal(plan.losses, '  ')},
});
uplink.receivedPowerDbm; ${about(budget.uplink.receivedPowerDbm)}
uplink.marginDb; ${about(budget.uplink.marginDb)}
downlink.marginDb; ${about(budget.downlink.marginDb)}

sensitivityDbm(${uplink}); ${about(link.gatewaySensitivityDbm)}`;
}
