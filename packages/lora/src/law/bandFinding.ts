import type { Citation } from '../Citation.js';
import { kilohertz, megahertz } from '../figures.js';
import { findingUnder } from '../findingUnder.js';
import type { TransmissionFinding } from '../Transmission.js';
import { type BandPlace, type BandPlan, nearestLawfulHz } from './bandPlan.js';
import type { FrameOnAir } from './Judgement.js';

/** The finding about a channel that lies in no sub-band as a whole. */
export function bandFinding(
  plan: BandPlan,
  place: Exclude<BandPlace, { kind: 'inside' }>,
  frame: FrameOnAir,
  planCitation: Citation,
): TransmissionFinding {
  const nearestHz = nearestLawfulHz(plan, frame.frequencyHz, frame.bandwidthHz);
  const channel = `a ${kilohertz(frame.bandwidthHz)} channel on ${megahertz(frame.frequencyHz)}`;
  const advice = nearestHz === undefined ? '' : `: the nearest centre that fits is ${megahertz(nearestHz)}`;
  const common = {
    severity: 'stop' as const,
    measured: megahertz(frame.frequencyHz),
    remedies: nearestHz === undefined ? [] : [{ frequencyHz: nearestHz }],
  };
  if (place.kind === 'reserved') {
    const { reserved } = place;
    const message = `${channel} reaches into the part kept for ${reserved.use}${advice}`;
    return findingUnder(reserved.citation, {
      ...common,
      rule: 'reserved-band',
      message,
      limit: edges(reserved),
    });
  }
  if (place.kind === 'across-an-edge') {
    const { subBand } = place;
    const message = `${channel} reaches over the edge of its sub-band${advice}`;
    return findingUnder(subBand.citation, {
      ...common,
      rule: 'occupied-bandwidth',
      message,
      limit: edges(subBand),
    });
  }
  const message = `no rule known here covers ${channel}, so it is not permitted${advice}`;
  return findingUnder(planCitation, { ...common, rule: 'not-covered', message });
}

/** A stretch in words. */
export function edges(band: { readonly minHz: number; readonly maxHz: number }): string {
  return `${Number((band.minHz / 1e6).toFixed(4))} to ${megahertz(band.maxHz)}`;
}
