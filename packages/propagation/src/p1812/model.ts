import type { PathModel } from '../path/RadioPath.js';
import { predict } from './predict.js';
import { checkSettings, type PredictionSettings } from './settings.js';

/**
 * The method as a model of paths with its settings fixed, for functions that take any model.
 *
 * The terms add up to the loss: `freeSpaceDb`, `focusingDb` (multipath and focusing for the time), `diffractionDb`, `otherModesDb` (what
 * ducting, troposcatter and their combination change; mostly below 0) and `locationDb` (locations, building, and the bound by line of
 * sight).
 *
 * @returns a function that takes a path and gives its loss in dB
 * @throws {@link InputError} as {@link basicTransmissionLoss} does, for the settings at once and for a path when it is given
 * @source Recommendation ITU-R P.1812-8 (09/2025), Annex 1
 * @example The terms of a path over a ridge
 * ```ts
 * import { p1812 } from '@finial/propagation';
 *
 * const model = p1812.model({ centreLatitudeDeg: 51.5, deltaN: 42.5, surfaceRefractivity: 326 });
 * const { lossDb, terms } = model({
 *   frequencyHz: 868.1e6,
 *   distanceM: [0, 1000, 2000, 3000, 4000, 5000],
 *   heightM: [50, 40, 90, 40, 35, 30],
 *   transmitterHeightM: 12,
 *   receiverHeightM: 1.5,
 * });
 * lossDb; // ≈ 136.87
 * terms['freeSpaceDb']; // ≈ 105.15
 * ```
 */
export function model(settings: PredictionSettings): PathModel {
  const checked = checkSettings(settings);
  return (path) => {
    const { lossDb, warnings, ...found } = predict(path, checked);
    const { freeSpaceLossDb, lineOfSightLossDb, diffractionPathLossDb, medianLocationLossDb } = found;
    return {
      lossDb,
      terms: {
        freeSpaceDb: freeSpaceLossDb,
        focusingDb: lineOfSightLossDb - freeSpaceLossDb,
        diffractionDb: found.diffractionLossDb,
        otherModesDb: medianLocationLossDb - diffractionPathLossDb,
        locationDb: lossDb - medianLocationLossDb,
      },
      warnings,
    };
  };
}
