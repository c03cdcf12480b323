import { checkObject, checkOneOf, checkRange, normalQuantile } from '@finial/units';
import { checkProbability } from '../certainty/checkProbability.js';
import { elevationDeg as elevationBounds, frequencyHz as frequencyBounds } from '../models/possible.js';
import { type OutsideValidity, validityCheck } from '../models/validity.js';

/**
 * How well a building holds warmth, which decides what it lets through: metal-coated glass and foil-backed panels make
 * `thermally-efficient`; plain glass and no foil, whatever the wall, is `traditional`.
 */
export type BuildingClass = 'traditional' | 'thermally-efficient';

/** A building, and how sure the loss is to be. */
export interface BuildingEntry {
  /** Frequency in hertz, 80e6 to 100e9. */
  readonly frequencyHz: number;
  /** Kind of building. */
  readonly buildingClass: BuildingClass;
  /**
   * Share of places in buildings of this class whose loss is not greater, as a ratio, 1e-12 to 1 - 1e-12; 0.5 gives the median, 0.9 a
   * loss that nine places in ten stay below.
   */
  readonly probability: number;
  /**
   * Elevation of the path at the building's face in degrees above the horizon, -90 to 90.
   *
   * @defaultValue 0
   */
  readonly elevationDeg?: number | undefined;
}

/** {@link BuildingEntry}, and whether a frequency outside the model is allowed. */
export interface BuildingEntryQuestion extends BuildingEntry {
  /**
   * What to do with a frequency outside the range of the model.
   *
   * @defaultValue `refuse`
   */
  readonly outsideValidity?: OutsideValidity | undefined;
}

/** A building's entry loss with the two parts of its distribution. */
export interface BuildingEntryLoss {
  /** Loss in dB that is not exceeded with the probability asked for. */
  readonly lossDb: number;
  /** Median loss of a horizontal path in dB. */
  readonly horizontalLossDb: number;
  /** What the elevation of the path adds, in dB. */
  readonly elevationLossDb: number;
  /** Mean of the first part (walls) in dB. */
  readonly firstMeanDb: number;
  /** Standard deviation of the first part in dB. */
  readonly firstSigmaDb: number;
  /** Mean of the second part (openings, rooms near the face) in dB. */
  readonly secondMeanDb: number;
  /** Standard deviation of the second part in dB. */
  readonly secondSigmaDb: number;
  /** What lies outside the range of the model. */
  readonly warnings: readonly string[];
}

interface Coefficients {
  readonly r: number;
  readonly s: number;
  readonly t: number;
  readonly u: number;
  readonly v: number;
  readonly w: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** Table 1, by the letters that it prints. */
const coefficients: Readonly<Record<BuildingClass, Coefficients>> = {
  traditional: { r: 12.64, s: 3.72, t: 0.96, u: 9.6, v: 2.0, w: 9.1, x: -3.0, y: 4.5, z: -2.0 },
  'thermally-efficient': { r: 28.19, s: -3.0, t: 8.48, u: 13.5, v: 3.8, w: 27.8, x: -2.9, y: 9.4, z: -2.1 },
};

/** The third part of the sum: a floor for the luckiest places. */
const floorDb = -3;

/**
 * Loss that a building adds between outside at its face and a place inside, with the parts of its distribution.
 *
 * A statistic over many places in many buildings of a class: a given room may lie 20 dB off. It holds for the outside level at the same
 * height; it does not know floors underground, and one loss must not be added for each wall. Very small probabilities give less than
 * 0 dB, down to -3 dB: a place can stand in a stronger field than the mean outside.
 *
 * @returns the loss and its parts; within 0.001 dB of the reference values published for the Recommendation
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option`, or `outside-validity` for a
 * frequency outside 80 MHz to 100 GHz that is not allowed
 * @source Recommendation ITU-R P.2109-1 (08/2019), section 3, equations 1 to 10 and table 1
 * @example How wide the loss of houses spreads on 868 MHz
 * ```ts
 * import { buildingEntryLoss } from '@finial/propagation/p2109';
 *
 * const house = buildingEntryLoss({ frequencyHz: 868e6, buildingClass: 'traditional', probability: 0.9 });
 * house.lossDb; // ≈ 25.04
 * house.horizontalLossDb; // ≈ 12.41
 * ```
 */
export function buildingEntryLoss(building: BuildingEntryQuestion): BuildingEntryLoss {
  checkObject(building, 'building');
  const { elevationDeg: givenElevationDeg = 0 } = building;
  const { within, warnings } = validityCheck(building.outsideValidity);
  const frequencyHz = within(building.frequencyHz, 'frequencyHz', {
    possible: frequencyBounds,
    min: 80e6,
    max: 100e9,
  });
  const buildingClass = checkOneOf(building.buildingClass, 'buildingClass', [
    'traditional',
    'thermally-efficient',
  ]);
  const probability = checkProbability(building.probability, 'probability');
  const elevationDeg = checkRange(givenElevationDeg, 'elevationDeg', elevationBounds);

  const { r, s, t, u, v, w, x, y, z } = coefficients[buildingClass];
  const logFrequency = Math.log10(frequencyHz / 1e9);
  const horizontalLossDb = r + s * logFrequency + t * logFrequency ** 2;
  const elevationLossDb = 0.212 * Math.abs(elevationDeg);
  const firstMeanDb = horizontalLossDb + elevationLossDb;
  const firstSigmaDb = u + v * logFrequency;
  const secondMeanDb = w + x * logFrequency;
  const secondSigmaDb = y + z * logFrequency;
  const deviate = normalQuantile(probability);
  const parts = [firstMeanDb + firstSigmaDb * deviate, secondMeanDb + secondSigmaDb * deviate, floorDb];
  const lossDb = 10 * Math.log10(parts.reduce((sum, partDb) => sum + 10 ** (partDb / 10), 0));
  return {
    lossDb,
    horizontalLossDb,
    elevationLossDb,
    firstMeanDb,
    firstSigmaDb,
    secondMeanDb,
    secondSigmaDb,
    warnings,
  };
}

/**
 * Loss in dB that a building adds between outside and a place inside: {@link buildingEntryLoss} without its parts, and never outside the
 * range of the model.
 *
 * @returns loss in dB, positive for a weaker signal inside; within 0.001 dB of the reference values published for the Recommendation
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option`, or `outside-validity` for a
 * frequency outside 80 MHz to 100 GHz
 * @source Recommendation ITU-R P.2109-1 (08/2019), section 3, equations 1 to 10 and table 1
 * @example A node inside, median of places
 * ```ts
 * import { buildingEntryLossDb } from '@finial/propagation/p2109';
 *
 * buildingEntryLossDb({ frequencyHz: 868e6, buildingClass: 'traditional', probability: 0.5 }); // ≈ 14.22
 * buildingEntryLossDb({ frequencyHz: 868e6, buildingClass: 'thermally-efficient', probability: 0.5 }); // ≈ 31.21
 * ```
 */
export function buildingEntryLossDb(building: BuildingEntry): number {
  checkObject(building, 'building');
  return buildingEntryLoss({ ...building, outsideValidity: 'refuse' }).lossDb;
}
