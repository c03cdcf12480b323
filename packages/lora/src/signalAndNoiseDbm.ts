import { checkObject, checkRange } from '@finial/units';

/** What a LoRa receiver tells about a frame. */
export interface ReportedLevel {
  /** RSSI of the frame in dBm, -3000 to 3000: the power of signal and noise together. */
  readonly rssiDbm: number;
  /** Signal-to-noise ratio in dB, -3000 to 3000. */
  readonly snrDb: number;
}

/** The two powers that an RSSI is made of. */
export interface SignalAndNoise {
  /** Power of the signal alone in dBm; never above the RSSI. */
  readonly signalPowerDbm: number;
  /** Power of noise and interference within the bandwidth of the signal, in dBm; never above the RSSI. */
  readonly noisePowerDbm: number;
}

/**
 * Splits the RSSI of a LoRa frame into the power of the signal and that of the noise, by the SNR.
 *
 * On weak frames the RSSI stays at the noise floor while the signal goes on falling; the signal's own power is what distances and
 * obstacles act on. It must be the RSSI of the channel: a log with a 'signal RSSI' has the noise already taken out. At -15 dB SNR
 * an error of 1 dB in the SNR is an error of 1 dB in the signal. Receivers report no SNR above 10 to 15 dB (common practice, no source):
 * there the noise comes out too high, and the signal is right within half a decibel.
 *
 * @returns dBm, error below 1e-12 dB of the larger input; the two powers add up to the RSSI
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` or `wrong-type`
 * @source Identity of powers: RSSI is S + N and SNR is S / N, so S = RSSI · SNR / (1 + SNR) and N = RSSI / (1 + SNR)
 * @example A frame 16 dB below the noise
 * ```ts
 * import { signalAndNoiseDbm } from '@finial/lora';
 *
 * signalAndNoiseDbm({ rssiDbm: -117, snrDb: -16 }).signalPowerDbm; // ≈ -133.11
 * signalAndNoiseDbm({ rssiDbm: -117, snrDb: -16 }).noisePowerDbm; // ≈ -117.11
 * ```
 */
export function signalAndNoiseDbm(level: ReportedLevel): SignalAndNoise {
  checkObject(level, 'level');
  const rssiDbm = checkRange(level.rssiDbm, 'rssiDbm', { min: -3000, max: 3000, unit: 'dBm' });
  const snrDb = checkRange(level.snrDb, 'snrDb', { min: -3000, max: 3000, unit: 'dB' });
  return {
    signalPowerDbm: rssiDbm - sumWithOneDb(-snrDb),
    noisePowerDbm: rssiDbm - sumWithOneDb(snrDb),
  };
}

/** 10 lg(1 + 10^(x/10)) without overflow at large x and without losing the small term at very negative x. */
function sumWithOneDb(ratioDb: number): number {
  const perNeper = 10 / Math.LN10;
  return Math.max(ratioDb, 0) + perNeper * Math.log1p(Math.exp(-Math.abs(ratioDb) / perNeper));
}
