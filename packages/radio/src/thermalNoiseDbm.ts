import { checkObject, checkRange } from '@finial/units';
import { bandwidthBounds, temperatureBounds } from './bounds.js';
import { boltzmannJPerK, noiseReferenceTemperatureK } from './physicalConstants.js';

/** A matched source of thermal noise, and the bandwidth it is heard in. */
export interface ThermalNoiseSource {
  /** Noise bandwidth in hertz, 1 to 1e12; for LoRa the channel bandwidth, such as `125e3`. */
  readonly bandwidthHz: number;
  /**
   * Noise temperature in kelvin, 0.001 to 1e9.
   *
   * @defaultValue 290
   */
  readonly temperatureK?: number | undefined;
}

/**
 * Available noise power of a matched source, in dBm: k T B.
 *
 * The classical form holds while the frequency is far below k T / h (6 THz at 290 K).
 *
 * @returns dBm, error below 1e-12 dB
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Recommendation ITU-R P.372, section 2 (noise power k t0 b); SI Brochure, 9th edition (2019), section 2.2 (k)
 * @example The floor under a 125 kHz LoRa channel
 * ```ts
 * import { thermalNoiseDbm } from '@finial/radio';
 *
 * thermalNoiseDbm({ bandwidthHz: 125e3 }); // ≈ -123.01
 * ```
 */
export function thermalNoiseDbm(source: ThermalNoiseSource): number {
  checkObject(source, 'source');
  const { temperatureK = noiseReferenceTemperatureK } = source;
  return noisePowerDbm(
    checkRange(temperatureK, 'temperatureK', temperatureBounds),
    checkRange(source.bandwidthHz, 'bandwidthHz', bandwidthBounds),
  );
}

/** k T B in dBm, unchecked. */
export function noisePowerDbm(temperatureK: number, bandwidthHz: number): number {
  return 10 * Math.log10(boltzmannJPerK * temperatureK * bandwidthHz) + 30;
}
