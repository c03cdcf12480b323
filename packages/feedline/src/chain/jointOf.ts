import { adaptersBetween } from './adaptersBetween.js';
import type { ChainJoint } from './ChainCheck.js';
import type { ChainTerms } from './ChainTerms.js';
import type { CheckedPart } from './checkedParts.js';
import { endName } from './endName.js';
import { combinedUncertaintyDb, impedanceSteps, type LossDoubt } from './lossDoubts.js';
import { matingOf } from './mates.js';
import { pairLoss } from './pairLoss.js';
import type { StatedEnd } from './partEnd.js';

/** A joint before the loss of the whole chain is known, and what its loss may be off by. */
export interface JointLoss {
  readonly joint: Omit<ChainJoint, 'shareOfLossRatio'>;
  readonly doubts: readonly LossDoubt[];
}

/** The joint of two neighbours. One that does not mate counts with what would mend it: that is what will be bought. */
export function jointOf(radioSide: CheckedPart, antennaSide: CheckedPart, terms: ChainTerms): JointLoss {
  const { towardsAntenna: a } = radioSide;
  const { towardsRadio: b } = antennaSide;
  const between = `${radioSide.name} (${endName(a)}) and ${antennaSide.name} (${endName(b)})`;
  const mating = matingOf(a, b, terms.catalogue.connectors);
  const { lossDb, doubts, adapters } = mating.mates
    ? pairTerms(a, b, between, terms)
    : mendedTerms(a, b, between, terms);
  const lossUncertaintyDb = combinedUncertaintyDb(doubts);
  return { joint: { ...mating, between, lossDb, lossUncertaintyDb, adapters }, doubts };
}

type JointTerms = Pick<ChainJoint, 'lossDb' | 'adapters'> & { readonly doubts: readonly LossDoubt[] };

function pairTerms(a: StatedEnd, b: StatedEnd, between: string, terms: ChainTerms): JointTerms {
  const pair = pairLoss(a, b, terms.frequencyHz, terms.catalogue.connectors);
  return {
    lossDb: pair.contactLossDb + pair.mismatchLossDb,
    adapters: undefined,
    doubts: [
      { cause: `joint ${between}`, lossUncertaintyDb: pair.contactLossUncertaintyDb },
      { cause: impedanceSteps, lossUncertaintyDb: pair.mismatchLossDb },
    ],
  };
}

function mendedTerms(a: StatedEnd, b: StatedEnd, between: string, terms: ChainTerms): JointTerms {
  const { catalogue, frequencyHz } = terms;
  const adapters = adaptersBetween(a, b, { catalogue, frequencyHz });
  const doubts = [{ cause: `joint ${between}`, lossUncertaintyDb: adapters?.lossUncertaintyDb ?? 0 }];
  return { lossDb: adapters?.lossDb ?? 0, adapters, doubts };
}
