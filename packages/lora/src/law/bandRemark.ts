import { kilohertz, megahertz } from '../figures.js';
import { type BandPlace, type BandPlan, nearestLawfulHz } from './bandPlan.js';
import type { Remark, Signal } from './Jurisdiction.js';
import { notCoveredHere } from './notCoveredHere.js';

/** What to say about a channel that lies in no sub-band as a whole. */
export function bandRemark(
  plan: BandPlan,
  place: Exclude<BandPlace, { kind: 'inside' }>,
  signal: Pick<Signal, 'frequencyHz' | 'bandwidthHz'>,
): Remark {
  const nearestHz = nearestLawfulHz(plan, signal.frequencyHz, signal.bandwidthHz);
  const channel = `a ${kilohertz(signal.bandwidthHz)} channel on ${megahertz(signal.frequencyHz)}`;
  const advice = nearestHz === undefined ? '' : `: the nearest centre that fits is ${megahertz(nearestHz)}`;
  const common = {
    severity: 'stop' as const,
    measured: megahertz(signal.frequencyHz),
    remedies: nearestHz === undefined ? [] : [{ frequencyHz: nearestHz }],
  };
  if (place.kind === 'reserved') {
    const { reserved } = place;
    const message = `${channel} reaches into the part kept for ${reserved.use}${advice}`;
    return {
      ...common,
      rule: 'reserved-band',
      message,
      limit: edges(reserved),
      citation: reserved.citation,
    };
  }
  if (place.kind === 'across-an-edge') {
    const { subBand } = place;
    const message = `${channel} reaches over the edge of its sub-band${advice}`;
    // An edge known from memory cannot stop anybody, but beyond it nothing is known at all.
    const citation = subBand.citation.status === 'memory' ? notCoveredHere : subBand.citation;
    return { ...common, rule: 'occupied-bandwidth', message, limit: edges(subBand), citation };
  }
  const message = `no rule known here covers ${channel}, so it is not permitted${advice}`;
  return { ...common, rule: 'not-covered', message, citation: notCoveredHere };
}

/** A stretch in words. */
export function edges(band: { readonly minHz: number; readonly maxHz: number }): string {
  return `${Number((band.minHz / 1e6).toFixed(4))} to ${megahertz(band.maxHz)}`;
}
