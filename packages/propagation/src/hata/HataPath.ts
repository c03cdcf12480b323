import { antennaHeightM, distanceM, frequencyHz } from '../models/possible.js';
import type { OutsideValidity, ValidityCheck } from '../models/validity.js';

/** A path from a base station over the roofs to a mobile among the houses. */
export interface HataPath {
  /** Frequency in hertz: 150e6 to 1500e6 for Okumura-Hata, 1500e6 to 2000e6 for COST 231-Hata. */
  readonly frequencyHz: number;
  /**
   * Effective height of the base station's antenna in metres, 30 to 200: above the average ground of the area, not above the roof that it
   * stands on. Most house-top gateways are lower and so outside the model.
   */
  readonly baseHeightM: number;
  /** Height of the mobile's antenna above ground in metres, 1 to 10. */
  readonly mobileHeightM: number;
  /** Length of the path in metres, 1000 to 20000. */
  readonly distanceM: number;
  /**
   * What to do with a number outside the range of the model.
   *
   * @defaultValue `refuse`
   */
  readonly outsideValidity?: OutsideValidity | undefined;
}

/** Loss by a formula of the Hata family, with what it is made of. */
export interface HataLoss {
  /** Median loss between isotropic antennas in dB. */
  readonly lossDb: number;
  /** Loss in dB at 1 km with a mobile of 1.5 m or so: before height of the mobile and surroundings. */
  readonly lossAtOneKilometreDb: number;
  /** What the height of the mobile takes off, in dB; negative where it adds. */
  readonly mobileHeightGainDb: number;
  /** Growth of the loss in dB when the distance grows tenfold. */
  readonly perDecadeDb: number;
  /** What the surroundings add in dB, against a town; negative for suburbs and open land. */
  readonly surroundingsDb: number;
  /** What lies outside the range of the model. */
  readonly warnings: readonly string[];
}

/** A checked path in the units of the formulas. */
export interface HataTerms {
  readonly frequencyMhz: number;
  readonly baseHeightM: number;
  readonly mobileHeightM: number;
  readonly distanceKm: number;
}

/** Range of one formula over frequency, in hertz. */
export interface HataBand {
  readonly min: number;
  readonly max: number;
}

export function checkHataPath(path: HataPath, band: HataBand, { within }: ValidityCheck): HataTerms {
  return {
    frequencyMhz: within(path.frequencyHz, 'frequencyHz', { possible: frequencyHz, ...band }) / 1e6,
    baseHeightM: within(path.baseHeightM, 'baseHeightM', { possible: antennaHeightM, min: 30, max: 200 }),
    mobileHeightM: within(path.mobileHeightM, 'mobileHeightM', { possible: antennaHeightM, min: 1, max: 10 }),
    distanceKm: within(path.distanceM, 'distanceM', { possible: distanceM, min: 1000, max: 20_000 }) / 1000,
  };
}

/** Height gain of the mobile in a small or medium city, dB. */
export function smallCityGainDb({ frequencyMhz, mobileHeightM }: HataTerms): number {
  const logFrequency = Math.log10(frequencyMhz);
  return (1.1 * logFrequency - 0.7) * mobileHeightM - (1.56 * logFrequency - 0.8);
}

/** The sum that both formulas share. */
export function hataLoss(
  { frequencyMhz, baseHeightM, distanceKm }: HataTerms,
  parts: {
    readonly constantDb: number;
    readonly frequencySlopeDb: number;
    readonly mobileHeightGainDb: number;
    readonly surroundingsDb: number;
    readonly warnings: readonly string[];
  },
): HataLoss {
  const { constantDb, frequencySlopeDb, mobileHeightGainDb, surroundingsDb, warnings } = parts;
  const logHeight = Math.log10(baseHeightM);
  const lossAtOneKilometreDb = constantDb + frequencySlopeDb * Math.log10(frequencyMhz) - 13.82 * logHeight;
  const perDecadeDb = 44.9 - 6.55 * logHeight;
  return {
    lossDb: lossAtOneKilometreDb - mobileHeightGainDb + perDecadeDb * Math.log10(distanceKm) + surroundingsDb,
    lossAtOneKilometreDb,
    mobileHeightGainDb,
    perDecadeDb,
    surroundingsDb,
    warnings,
  };
}
