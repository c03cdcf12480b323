import type { RadioPath } from '../path/RadioPath.js';
import type { Prediction } from './Prediction.js';
import { predict } from './predict.js';
import { checkSettings, type PredictionSettings } from './settings.js';

/**
 * Basic transmission loss of a path over real ground, in dB, not exceeded for a share of the time and of the locations, with every
 * intermediate value.
 *
 * The method for a roof gateway and a node a few kilometres away: delta-Bullington diffraction over terrain and clutter, together with
 * ducting and troposcatter for rare strong signals from afar. Clutter enters by the profile (typical heights: 0 m open land, 10 m suburb,
 * 15 m town and trees, 20 m dense town); where houses are already in the heights, leave it out, or they count twice. It describes no
 * paths below 250 m, no reflections, and no street canyons; the spread of measured medians around it is several dB.
 *
 * The refractivity of the air must be given. {@link climateOf} lists values for some cities. The constants are those that the Recommendation
 * prints, rounded: free space reads 0.05 dB lower than the exact formula.
 *
 * @param path - at least five points; frequency 30 MHz to 6 GHz, antennas 1 m to 3000 m above ground, length 250 m to 3000 km
 * @returns the loss and its parts; differs from the published validation results of the Recommendation by less than 1e-7
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option`, `missing`, or `outside-validity` for a
 * number outside the range of the method that is not allowed
 * @source Recommendation ITU-R P.1812-8 (09/2025), Annex 1
 * @example A ridge between a roof gateway and a node 5 km away
 * ```ts
 * import { p1812 } from '@finial/propagation';
 *
 * const { lossDb, diffractionLossDb } = p1812.basicTransmissionLoss(
 *   {
 *     frequencyHz: 868.1e6,
 *     distanceM: [0, 1000, 2000, 3000, 4000, 5000],
 *     heightM: [50, 40, 90, 40, 35, 30],
 *     transmitterHeightM: 12,
 *     receiverHeightM: 1.5,
 *   },
 *   { centreLatitudeDeg: 51.5, deltaN: 42.5, surfaceRefractivity: 326 },
 * );
 * lossDb; // ≈ 136.87
 * diffractionLossDb; // ≈ 31.72
 * ```
 */
export function basicTransmissionLoss(path: RadioPath, settings: PredictionSettings): Prediction {
  return predict(path, checkSettings(settings));
}
