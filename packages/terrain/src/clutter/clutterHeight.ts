import { checkOneOf } from '@finial/units';
import { type ClutterClass, clutterClasses } from './clutterClasses.js';

/**
 * Representative height of a class of ground cover in metres.
 *
 * @returns metres, 0 to 20
 * @throws {@link InputError} `unknown-option`
 * @source Recommendation ITU-R P.1812-6 and later, section 3.2 (default heights; from memory)
 * @example
 * ```ts
 * import { clutterHeightM } from '@finial/terrain';
 *
 * clutterHeightM('suburban'); // → 10
 * ```
 */
export function clutterHeightM(clutterClass: ClutterClass): number {
  const names = clutterClasses.map(({ name }) => name);
  const known = checkOneOf(clutterClass, 'clutterClass', names);
  return clutterClasses[names.indexOf(known)]?.heightM as number;
}
