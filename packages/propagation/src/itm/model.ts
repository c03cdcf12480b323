import type { PathModel } from '../path/RadioPath.js';
import { checkSettings } from './checkSettings.js';
import type { ItmSettings } from './ItmSettings.js';
import { pointToPoint } from './pointToPoint.js';

/**
 * The irregular-terrain model as a path model with its settings fixed; see {@link pointToPoint}.
 *
 * @returns a function of a path that gives the loss in dB and its three terms, which sum to it
 * @throws {@link InputError} at once for bad settings, with the codes of {@link pointToPoint}
 * @source NTIA Report 82-100 (April 1982)
 * @example
 * ```ts
 * import { itm } from '@finial/propagation';
 *
 * const model = itm.model({ climate: 'continental-temperate', seaLevelRefractivity: 301 });
 * const distanceM = [0, 2500, 5000, 7500, 10_000];
 * const heightM = [210, 190, 180, 195, 205];
 * const path = { frequencyHz: 868.1e6, distanceM, heightM, transmitterHeightM: 20, receiverHeightM: 2 };
 * model(path).terms['freeSpaceLossDb']; // ≈ 111.22
 * ```
 */
export function model(settings: ItmSettings): PathModel {
  // A copy, ground and all, so that the settings stay fixed.
  const fixed = checkSettings(settings);
  return (path) => {
    const { lossDb, freeSpaceLossDb, referenceAttenuationDb, variabilityDb, warnings } = pointToPoint(
      path,
      fixed,
    );
    return { lossDb, terms: { freeSpaceLossDb, referenceAttenuationDb, variabilityDb }, warnings };
  };
}
