import { type CableLength, cableLoss } from './cableLoss.js';

/**
 * Loss of a length of cable in decibels. Positive means loss. {@link cableLoss} tells its parts, its uncertainty and its warnings.
 *
 * True for a matched line of dry, sound cable within its published points.
 *
 * @returns dB; between makes of one designation 5 to 25 % apart, as the cable's row says
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number`, `out-of-range`, `unknown-option`, or `outside-validity`
 * when the frequency lies beyond the cable's points
 * @source law: public how-to page that quotes MIL-C-17 attenuation tables; temperature: IEC 60028; points: `source` of the cable
 * @example Ten metres of two cables
 * ```ts
 * import { attenuationDb } from '@finial/feedline';
 *
 * attenuationDb({ cable: 'RG-58C/U', lengthM: 10, frequencyHz: 868.1e6 }); // ≈ 6.34
 * attenuationDb({ cable: 'low-loss 10 mm class', lengthM: 10, frequencyHz: 868.1e6 }); // ≈ 1.256
 * ```
 */
export function attenuationDb(length: CableLength): number {
  return cableLoss(length).lossDb;
}
