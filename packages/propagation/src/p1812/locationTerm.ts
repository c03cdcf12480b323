import { buildingEntryLoss } from '../p2109/buildingEntryLoss.js';
import { locationLossDb, outdoorSigmaDb } from './locationVariability.js';
import type { CheckedSettings, IndoorReceiver } from './settings.js';

/** What building and locations add, with what it is made of. */
export interface LocationTerm {
  readonly sigmaDb: number;
  readonly buildingLossDb: number;
  readonly buildingSigmaDb: number;
  readonly lossDb: number;
  readonly warnings: readonly string[];
}

/** Receiver as the location variability sees it. */
export interface ReceiverSurroundings {
  readonly frequencyHz: number;
  readonly antennaM: number;
  /** Clutter at the receiver itself, which counts here and not in the profile. */
  readonly clutterM: number;
  readonly atSea: boolean;
}

/** Location variability outdoors, joined with that of a building where the receiver stands in one. */
export function locationTerm(receiver: ReceiverSurroundings, settings: CheckedSettings): LocationTerm {
  const { locationPercent, building } = settings;
  const sigmaDb = receiver.atSea ? 0 : outdoorSigma(receiver, settings);
  if (building === undefined) {
    const lossDb = sigmaDb === 0 ? 0 : locationLossDb(locationPercent, sigmaDb);
    return { sigmaDb, buildingLossDb: 0, buildingSigmaDb: 0, lossDb, warnings: [] };
  }
  const entry = buildingEntry(building, receiver.frequencyHz, settings);
  return {
    sigmaDb,
    buildingLossDb: entry.lossDb,
    buildingSigmaDb: entry.sigmaDb,
    lossDb: entry.lossDb + locationLossDb(locationPercent, Math.hypot(sigmaDb, entry.sigmaDb)),
    warnings: [
      ...entry.warnings,
      'building: how the spreads of building and location join is unverified (from memory of the Recommendation)',
    ],
  };
}

function outdoorSigma(
  { frequencyHz, antennaM, clutterM }: ReceiverSurroundings,
  { locationSigmaDb, resolutionM }: CheckedSettings,
): number {
  if (locationSigmaDb !== undefined) return locationSigmaDb;
  return resolutionM === undefined ? 0 : outdoorSigmaDb(frequencyHz / 1e9, resolutionM, antennaM, clutterM);
}

/** Share of a normal distribution that lies below one standard deviation above its mean. */
const oneSigmaProbability = 0.841_344_746_068_542_9;

/** Median, and half the distance between the quantiles that lie one standard deviation to either side in a normal distribution. */
function buildingEntry(
  building: IndoorReceiver,
  frequencyHz: number,
  { outsideValidity }: CheckedSettings,
): { readonly lossDb: number; readonly sigmaDb: number; readonly warnings: readonly string[] } {
  const at = (probability: number) =>
    buildingEntryLoss({ ...building, frequencyHz, probability, outsideValidity });
  const { lossDb, warnings } = at(0.5);
  const sigmaDb = (at(oneSigmaProbability).lossDb - at(1 - oneSigmaProbability).lossDb) / 2;
  return { lossDb, sigmaDb, warnings };
}
