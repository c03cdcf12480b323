import { vswrToMismatchLossDb } from '@finial/radio';
import { cableLoss } from '../cable/cableLoss.js';
import { cableNamed } from '../catalogue/cableNamed.js';
import type { Cable } from '../catalogue/parts.js';
import type { ChainTerms } from './ChainTerms.js';
import type { CheckedPart } from './checkedParts.js';
import { impedanceSteps, type LossDoubt } from './lossDoubts.js';

/** What a part loses by itself, and how surely. */
export interface PartLoss {
  readonly lossDb: number;
  readonly doubts: readonly LossDoubt[];
  readonly warnings: readonly string[];
  /** The share of the loss that is reflected where the cable meets its own connectors, dB. */
  readonly impedanceStepLossDb: number;
}

const none: PartLoss = { lossDb: 0, doubts: [], warnings: [], impedanceStepLossDb: 0 };

/** Loss of a part without the pairs that it forms with its neighbours. */
export function partLoss(checked: CheckedPart, terms: ChainTerms): PartLoss {
  const { part, name } = checked;
  if (part.kind === 'port') return none;
  if (part.kind === 'cable-run') {
    return lengthLoss(checked, part.cable, part.lengthM, {
      ...terms,
      temperatureC: part.temperatureC ?? terms.temperatureC,
    });
  }
  if (part.kind === 'pigtail') {
    return lengthLoss(checked, cableNamed(part.cable, terms.catalogue), part.lengthM, terms);
  }
  const doubts = [{ cause: `${part.kind} ${name}`, lossUncertaintyDb: part.lossUncertaintyDb }];
  return { ...none, lossDb: part.lossDb, doubts };
}

function lengthLoss(
  { name, towardsRadio, towardsAntenna }: CheckedPart,
  cable: Cable,
  lengthM: number,
  { frequencyHz, temperatureC, outsideValidity }: ChainTerms,
): PartLoss {
  const own = cableLoss({ cable, lengthM, frequencyHz, temperatureC, outsideValidity });
  const steps = [towardsRadio, towardsAntenna].map((end) => stepLossDb(cable.impedanceOhm, end.impedanceOhm));
  const impedanceStepLossDb = steps.reduce((sum, lossDb) => sum + lossDb, 0);
  return {
    lossDb: own.lossDb + impedanceStepLossDb,
    doubts: [
      { cause: `cable ${cable.designation}`, lossUncertaintyDb: own.lossUncertaintyDb },
      // Two steps reflect towards each other: by the length between them the loss lies anywhere from none to twice the sum.
      { cause: impedanceSteps, lossUncertaintyDb: impedanceStepLossDb },
    ],
    warnings: own.warnings.map((warning) => `${name}: ${warning}`),
    impedanceStepLossDb,
  };
}

function stepLossDb(cableOhm: number, endOhm: number): number {
  return vswrToMismatchLossDb(Math.max(cableOhm, endOhm) / Math.min(cableOhm, endOhm));
}
