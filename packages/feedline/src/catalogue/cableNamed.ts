import { checkList, checkObject } from '@finial/units';
import { builtInCatalogue } from './builtInCatalogue.js';
import { cableAmong } from './cableAmong.js';
import type { Cable, Catalogue } from './parts.js';

/**
 * The cable of a designation. Case, blanks and hyphens do not matter, and the beginning of a designation is enough where only one cable
 * begins so: `rg213` is RG-213/U. `RG-58` alone is refused, since the cables of that number differ by half in loss.
 *
 * @param designation - as the catalogue's rows state it, or its beginning
 * @param catalogue - where to look; the built-in one when left out
 * @returns the row of the catalogue, with the units and uncertainty that it states
 * @throws {@link InputError} `wrong-type`, or `unknown-option` when no cable or more than one has this name: the message lists them
 * @source the rows name theirs
 * @example
 * ```ts
 * import { cableNamed } from '@finial/feedline';
 *
 * cableNamed('rg213').outerDiameterM; // ≈ 0.0103
 * cableNamed('low-loss 10 mm').designation; // → 'low-loss 10 mm class'
 * ```
 */
export function cableNamed(designation: string, catalogue: Catalogue = builtInCatalogue): Cable {
  const cables = checkList(checkObject(catalogue, 'catalogue').cables, 'catalogue.cables');
  return cableAmong(cables, designation, 'designation');
}
