import type { FeedlineLead } from '@finial/antenna';
import type { AntennaValues } from './AntennaValues.js';

/** Whether there is a lead to take out. */
export function hasLead({ leadLossDb, leadLengthM }: AntennaValues): boolean {
  return leadLossDb !== 0 || leadLengthM !== 0;
}

/** The lead as the package takes it. */
export function leadOfSweep({
  frequencyHz,
  leadLossDb,
  leadLengthM,
  leadVelocityFactor,
}: AntennaValues): FeedlineLead {
  return {
    lossDb: leadLossDb,
    lossReferenceHz: frequencyHz,
    lengthM: leadLengthM,
    velocityFactor: leadVelocityFactor,
  };
}
