import { thermalNoiseDbm } from '@finial/radio';
import { checkObject, checkRange } from '@finial/units';
import { exactBandwidthHz } from './loraBandwidth.js';
import { requiredSnrDb } from './requiredSnrDb.js';

/** A LoRa receiver on one data rate. */
export interface LoRaReceiver {
  /** Spreading factor, a whole number from 5 to 12. */
  readonly spreadingFactor: number;
  /** Bandwidth in hertz, one of {@link loraBandwidthsHz}. */
  readonly bandwidthHz: number;
  /** Noise figure of the receiver at its antenna port in dB, 0 to 60; around 6 for end-node chips (common practice, no source). */
  readonly noiseFigureDb: number;
}

/**
 * Weakest power in dBm at the receiver's port that the demodulator still decodes: thermal noise, noise figure and required SNR.
 *
 * Chip tables are measured, rounded, and do not follow the formula everywhere. From SF7 up it lies within 1.51 dB of the SX1272 and
 * SX1276 rows at 125 and 250 kHz and within 2.49 dB at 500 kHz with a noise figure of 6 dB, and within 1.01 dB of the SX1302 rows at
 * 125 kHz with 3 dB. It is up to 1.51 dB too hopeful at SF11, where the tables of end-node chips at 125 kHz gain only 1 to 2 dB over
 * SF10 instead of 2.5, and up to 5 dB at SF6 of the first generation. Noise at 290 K: the usual -174 dBm/Hz reads 0.025 dB lower.
 * Man-made noise at a real antenna comes on top.
 *
 * @returns dBm; the arithmetic is exact to 1e-12 dB, the model to the differences above
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` or `wrong-type`
 * @source Noise floor k T B at 290 K plus noise figure plus required SNR; compared with SX1272/73 datasheet rev 2, page 19 (read), SX1276 rev 7 and SX1302 table 3-6 (as quoted by others)
 * @example An end node of 6 dB noise figure on SF12
 * ```ts
 * import { sensitivityDbm } from '@finial/lora';
 *
 * sensitivityDbm({ spreadingFactor: 12, bandwidthHz: 125e3, noiseFigureDb: 6 }); // ≈ -137.0
 * ```
 */
export function sensitivityDbm(receiver: LoRaReceiver): number {
  checkObject(receiver, 'receiver');
  const snrDb = requiredSnrDb(receiver.spreadingFactor);
  const bandwidthHz = exactBandwidthHz(receiver.bandwidthHz);
  const noiseFigureDb = checkRange(receiver.noiseFigureDb, 'noiseFigureDb', { min: 0, max: 60, unit: 'dB' });
  return thermalNoiseDbm({ bandwidthHz }) + noiseFigureDb + snrDb;
}
