import { InputError } from '@finial/units';
import type { FeedlinePart } from './feedlinePart.js';
import { distanceToM } from './groundPath.js';
import type { GatewayPlan, LinkPlan, Plan } from './plan.js';
import type { TerrainPart } from './terrainPart.js';

/** A plan whose feedline loss and distance are known: stated, or computed from parts and places. */
export interface BuiltPlan extends Plan {
  readonly gateway: GatewayPlan & { readonly feedlineLossDb: number };
  readonly link: LinkPlan & { readonly distanceM: number; readonly groundDropM: number };
}

/** Fills in what the parts that were computed first know. */
export function builtPlan(
  plan: Plan,
  feedline: FeedlinePart | undefined,
  terrain: TerrainPart | undefined,
): BuiltPlan {
  const { gateway, link } = plan;
  const feedlineLossDb = oneOf(
    gateway.feedlineLossDb,
    feedline?.lossDb,
    'gateway.feedlineLossDb',
    'feedline',
  );
  const towardsM = link.to && distanceToM(gateway.position, link.to);
  const distanceM = oneOf(link.distanceM, towardsM, 'link.distanceM', 'link.to');
  const heights = terrain?.path?.heightM;
  const fallM = heights && (heights[0] as number) - (heights.at(-1) ?? 0);
  return {
    ...plan,
    gateway: { ...gateway, feedlineLossDb },
    link: { ...link, distanceM, groundDropM: link.groundDropM ?? fallM ?? 0 },
  };
}

/** A value that stands in the plan or follows from another key, never both: one of the two would be wrong without a word. */
function oneOf(stated: number | undefined, computed: number | undefined, key: string, other: string): number {
  const value = stated ?? computed;
  if (value !== undefined && (stated === undefined || computed === undefined)) return value;
  throw new InputError({
    code: value === undefined ? 'missing' : 'unknown-option',
    argument: key,
    received: stated,
    expected: `either ${key} or ${other}, and not both`,
  });
}
