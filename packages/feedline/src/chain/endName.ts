import type { PartEnd } from '../catalogue/parts.js';
import { checkedEnd } from './partEnd.js';

/**
 * Name of half a connector pair in the words of the trade; {@link partEnd} reads it back.
 *
 * @param end - its impedance from 1 to 500 ohms is said only where it is not 50
 * @returns the name, with the impedance in ohms where it is not 50
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number` or `out-of-range`
 * @source Common practice, no source
 * @example
 * ```ts
 * import { endName } from '@finial/feedline';
 *
 * endName({ series: 'SMA', gender: 'jack', polarity: 'reverse' }); // → 'RP-SMA jack'
 * endName({ series: 'F', gender: 'plug', impedanceOhm: 75 }); // → 'F plug 75 ohm'
 * ```
 */
export function endName(end: PartEnd): string {
  const { series, gender, polarity, impedanceOhm } = checkedEnd(end, 'end');
  const prefix = polarity === 'reverse' ? 'RP-' : '';
  return `${prefix}${series} ${gender}${impedanceOhm === 50 ? '' : ` ${impedanceOhm} ohm`}`;
}
