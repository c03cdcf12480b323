import { checkRange } from '@finial/units';
import { gainBounds, powerBounds } from './bounds.js';
import { type FreeSpacePath, freeSpaceLossDb } from './freeSpaceLossDb.js';

/** Two antennas that see each other across free space. */
export interface FriisPath extends FreeSpacePath {
  /** Power delivered to the transmitting antenna in dBm, -300 to 300. */
  readonly conductedPowerDbm: number;
  /** Gain of the transmitting antenna towards the receiver in dBi, -100 to 100. */
  readonly transmitGainDbi: number;
  /** Gain of the receiving antenna towards the transmitter in dBi, -100 to 100. */
  readonly receiveGainDbi: number;
}

/**
 * Power at the terminals of the receiving antenna in free space, in dBm: the transmission equation of Friis in decibels.
 *
 * True for matched antennas of the same polarisation, in each other's far field, with nothing within the first Fresnel zone.
 * On the ground the level is lower, often by tens of decibels: this is the bound, not the forecast.
 *
 * @returns dBm, error below 1e-11 dB
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source H. T. Friis, A note on a simple transmission formula, Proc. IRE 34 (1946), equation 1
 * @example A node with a dipole, heard 10 km away on 5.15 dBi
 * ```ts
 * import { friisReceivedPowerDbm } from '@finial/radio';
 *
 * friisReceivedPowerDbm({
 *   conductedPowerDbm: 14, transmitGainDbi: 2.15, receiveGainDbi: 5.15,
 *   frequencyHz: 868.1e6, distanceM: 10_000,
 * }); // ≈ -89.92
 * ```
 */
export function friisReceivedPowerDbm(path: FriisPath): number {
  const lossDb = freeSpaceLossDb(path);
  return (
    checkRange(path.conductedPowerDbm, 'conductedPowerDbm', powerBounds) +
    checkRange(path.transmitGainDbi, 'transmitGainDbi', gainBounds) +
    checkRange(path.receiveGainDbi, 'receiveGainDbi', gainBounds) -
    lossDb
  );
}
