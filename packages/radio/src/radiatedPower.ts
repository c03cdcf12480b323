import { checkObject, checkRange, dbdToDbi, dbiToDbd } from '@finial/units';
import { feedlineLossBounds, gainBounds, powerBounds } from './bounds.js';

/** A transmitter, its feedline and its antenna. */
export interface RadiatingChain {
  /** Power at the output of the transmitter in dBm, -300 to 300. */
  readonly conductedPowerDbm: number;
  /** Loss of cables, connectors and arrestors up to the antenna in dB, 0 to 200. */
  readonly feedlineLossDb: number;
  /** Gain of the antenna in its strongest direction in dBi, -100 to 100. */
  readonly antennaGainDbi: number;
}

/** An antenna on its feedline, and a limit on what they may radiate. */
export interface RadiationLimit {
  /** Highest permitted e.i.r.p. in dBm, -300 to 300. */
  readonly eirpLimitDbm: number;
  /** Loss of cables, connectors and arrestors up to the antenna in dB, 0 to 200. */
  readonly feedlineLossDb: number;
  /** Gain of the antenna in its strongest direction in dBi, -100 to 100. */
  readonly antennaGainDbi: number;
}

/**
 * Equivalent isotropically radiated power in dBm: what an isotropic antenna would need to be as strong in the best direction.
 *
 * Loss by mismatch is not in it; some regulators do not let a mismatch be counted as loss.
 *
 * @returns dBm, error below 1e-12 dB
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source ITU Radio Regulations, No. 1.161 (e.i.r.p.)
 * @example A gateway at 14 dBm with 1.9 dB of cable and a 5.15 dBi antenna
 * ```ts
 * import { eirpDbm } from '@finial/radio';
 *
 * eirpDbm({ conductedPowerDbm: 14, feedlineLossDb: 1.9, antennaGainDbi: 5.15 }); // ≈ 17.25
 * ```
 */
export function eirpDbm(chain: RadiatingChain): number {
  checkObject(chain, 'chain');
  return (
    checkRange(chain.conductedPowerDbm, 'conductedPowerDbm', powerBounds) -
    checkRange(chain.feedlineLossDb, 'feedlineLossDb', feedlineLossBounds) +
    checkRange(chain.antennaGainDbi, 'antennaGainDbi', gainBounds)
  );
}

/**
 * Effective radiated power in dBm: as {@link eirpDbm}, but against a half-wave dipole, hence 2.15 dB less.
 *
 * European rules for short-range devices state e.r.p., many others e.i.r.p.: mixing them up costs 2.15 dB or breaks the law.
 *
 * @returns dBm, error below 1e-12 dB
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source ITU Radio Regulations, No. 1.162 (e.r.p.); Recommendation ITU-R BS.561-2, section 1 (2.15 dB)
 * @example A gateway at 14 dBm with 1.9 dB of cable and a 5.15 dBi antenna
 * ```ts
 * import { erpDbm } from '@finial/radio';
 *
 * erpDbm({ conductedPowerDbm: 14, feedlineLossDb: 1.9, antennaGainDbi: 5.15 }); // ≈ 15.10
 * ```
 */
export function erpDbm(chain: RadiatingChain): number {
  return eirpToErp(eirpDbm(chain));
}

/**
 * Effective radiated power (against a dipole) of an equivalent isotropically radiated power.
 *
 * @param eirpDbm - -300 to 300
 * @returns dBm e.r.p.: 2.15 dB less
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source Recommendation ITU-R BS.561-2, section 1 (e.i.r.p. and e.r.p. differ by 2.15 dB)
 * @example
 * ```ts
 * import { eirpToErpDbm } from '@finial/radio';
 *
 * eirpToErpDbm(16.15); // ≈ 14
 * ```
 */
export function eirpToErpDbm(eirpDbm: number): number {
  return eirpToErp(checkRange(eirpDbm, 'eirpDbm', powerBounds));
}

/**
 * Equivalent isotropically radiated power of an effective radiated power (against a dipole).
 *
 * @param erpDbm - -300 to 300
 * @returns dBm e.i.r.p.: 2.15 dB more
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source Recommendation ITU-R BS.561-2, section 1 (e.i.r.p. and e.r.p. differ by 2.15 dB)
 * @example The 25 mW e.r.p. of a European sub-band
 * ```ts
 * import { erpToEirpDbm } from '@finial/radio';
 *
 * erpToEirpDbm(14); // ≈ 16.15
 * ```
 */
export function erpToEirpDbm(erpDbm: number): number {
  // The step between the two powers is the step between the two gains: one constant, kept in one place.
  return dbdToDbi(checkRange(erpDbm, 'erpDbm', powerBounds));
}

/**
 * Highest transmitter power in dBm that keeps an antenna and its feedline within an e.i.r.p. limit.
 *
 * Where a rule also limits the conducted power itself, the lower of the two holds; this function does not know such rules.
 *
 * @returns dBm at the output of the transmitter, error below 1e-12 dB
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source ITU Radio Regulations, No. 1.161 (e.i.r.p.), solved for the conducted power
 * @example How far to turn down a gateway under a limit of 16.15 dBm e.i.r.p.
 * ```ts
 * import { maxConductedPowerDbm } from '@finial/radio';
 *
 * maxConductedPowerDbm({ eirpLimitDbm: 16.15, feedlineLossDb: 1.9, antennaGainDbi: 5.15 }); // ≈ 12.9
 * ```
 */
export function maxConductedPowerDbm(limit: RadiationLimit): number {
  checkObject(limit, 'limit');
  return (
    checkRange(limit.eirpLimitDbm, 'eirpLimitDbm', powerBounds) +
    checkRange(limit.feedlineLossDb, 'feedlineLossDb', feedlineLossBounds) -
    checkRange(limit.antennaGainDbi, 'antennaGainDbi', gainBounds)
  );
}

function eirpToErp(eirpDbm: number): number {
  return dbiToDbd(eirpDbm);
}
