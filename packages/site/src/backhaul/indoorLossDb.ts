import { checkInteger, checkObject, checkOneOf, checkRange, frequencyHints, InputError } from '@finial/units';

/** A path inside a building. */
export interface IndoorPath {
  /** Frequency in hertz: 2.4e9 to 2.5e9, or 5.15e9 to 5.85e9; for no other band are coefficients known here. */
  readonly frequencyHz: number;
  /** Distance in metres, 1 to 1000. */
  readonly distanceM: number;
  /** What the building is: a detached house, a block of flats, an office. */
  readonly building: 'house' | 'flats' | 'office';
  /**
   * How many floors lie between, 0 to 3. In an office the second and third add 4 dB each, elsewhere as much as the first (from memory): rough beyond one.
   *
   * @defaultValue 0
   */
  readonly floorsCount?: number | undefined;
}

/** What each further floor of an office adds, from memory. */
const nextOfficeFloorDb = 4;

interface IndoorCoefficients {
  /** Ten times the exponent with which power falls with distance. */
  readonly perDecadeDb: number;
  readonly floorDb: number;
}

type Building = IndoorPath['building'];

/** From memory, both; table of the Recommendation not seen. */
const at2400: Readonly<Record<Building, IndoorCoefficients>> = {
  house: { perDecadeDb: 28, floorDb: 5 },
  flats: { perDecadeDb: 28, floorDb: 10 },
  office: { perDecadeDb: 30, floorDb: 14 },
};
const at5200: Readonly<Record<Building, IndoorCoefficients>> = {
  house: { perDecadeDb: 28, floorDb: 7 },
  flats: { perDecadeDb: 30, floorDb: 13 },
  office: { perDecadeDb: 31, floorDb: 16 },
};

/**
 * Median loss between isotropic antennas inside a building, in dB: 20 lg f + N lg d + floors - 28, with MHz and metres.
 *
 * N stands for the walls and furniture of an ordinary building: inner walls must not be added again. The outer wall to a gateway on the roof is
 * not in it. Places differ by 8 to 12 dB about the median (from memory).
 *
 * @returns loss in dB; 8 to 12 dB uncertain
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number`, `out-of-range` or `outside-validity`
 * @source Recommendation ITU-R P.1238, site-general model of the editions before -10, tables 2 and 3, coefficients from memory
 * @example 10 m in a house, one floor up
 * ```ts
 * import { indoorLossDb } from '@finial/site';
 *
 * indoorLossDb({ frequencyHz: 2.437e9, distanceM: 10, building: 'house', floorsCount: 1 }); // ≈ 72.74
 * ```
 */
export function indoorLossDb(path: IndoorPath): number {
  checkObject(path, 'path');
  const { floorsCount = 0 } = path;
  const frequencyHz = checkRange(path.frequencyHz, 'frequencyHz', {
    min: 1e9,
    max: 10e9,
    unit: 'hertz',
    hints: frequencyHints,
  });
  const distanceM = checkRange(path.distanceM, 'distanceM', { min: 1, max: 1000, unit: 'metres' });
  const building = checkOneOf(path.building, 'building', ['house', 'flats', 'office']);
  const floors = checkInteger(floorsCount, 'floorsCount', { min: 0, max: 3, unit: 'floors' });
  const { perDecadeDb, floorDb } = coefficientsAt(frequencyHz)[building];
  const nextFloorDb = building === 'office' ? nextOfficeFloorDb : floorDb;
  const floorsDb = floors === 0 ? 0 : floorDb + nextFloorDb * (floors - 1);
  return 20 * Math.log10(frequencyHz / 1e6) + perDecadeDb * Math.log10(distanceM) + floorsDb - 28;
}

function coefficientsAt(frequencyHz: number): Readonly<Record<Building, IndoorCoefficients>> {
  if (frequencyHz >= 2.4e9 && frequencyHz <= 2.5e9) return at2400;
  if (frequencyHz >= 5.15e9 && frequencyHz <= 5.85e9) return at5200;
  const expected = '2.4e9 to 2.5e9 or 5.15e9 to 5.85e9 hertz';
  throw new InputError({
    code: 'outside-validity',
    argument: 'frequencyHz',
    received: frequencyHz,
    expected,
  });
}
