import { type ReportedLevel, signalAndNoiseDbm } from '@finial/lora';

/** What a LoRa receiver tells about a frame. */
export type ReceivedLevel = ReportedLevel;

/**
 * Power of the signal alone in a received LoRa frame, in dBm.
 *
 * RSSI is the power of signal and noise together, so that on weak frames it stays at the noise floor while the signal goes
 * on falling; the SNR tells how much of it is signal. Take care that the log holds the channel RSSI: a log with a 'signal
 * RSSI' has the noise already taken out. At -15 dB SNR an error of 1 dB in the SNR is an error of 1 dB here. Receivers stop
 * reporting more than about 10 dB SNR; there the RSSI is the signal power within half a decibel.
 *
 * @returns dBm: rssi + snr - 10 lg(1 + 10^(snr/10)), error below 1e-12 dB of the larger input; never above the RSSI
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` or `wrong-type`
 * @source Identity of powers: RSSI is S + N, SNR is S/N, so S = RSSI · SNR/(1 + SNR). Used as 'expected signal power' (ESP)
 * in the descriptions of open LoRa measurement sets
 * @example A frame 16 dB below the noise
 * ```ts
 * import { effectiveSignalPowerDbm } from '@finial/survey';
 *
 * effectiveSignalPowerDbm({ rssiDbm: -117, snrDb: -16 }); // ≈ -133.11
 * ```
 */
export function effectiveSignalPowerDbm(level: ReceivedLevel): number {
  return signalAndNoiseDbm(level).signalPowerDbm;
}

/**
 * Power of the noise (and interference) in a received LoRa frame, in dBm, within the frame's bandwidth.
 *
 * @returns dBm: rssi - 10 lg(1 + 10^(snr/10)), error below 1e-12 dB of the larger input; never above the RSSI
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` or `wrong-type`
 * @source Identity of powers: RSSI is S + N, SNR is S/N, so N = RSSI/(1 + SNR)
 * @example
 * ```ts
 * import { noisePowerDbm } from '@finial/survey';
 *
 * noisePowerDbm({ rssiDbm: -99, snrDb: 6 }); // ≈ -105.97
 * ```
 */
export function noisePowerDbm(level: ReceivedLevel): number {
  return signalAndNoiseDbm(level).noisePowerDbm;
}
