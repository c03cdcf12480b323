import { celsiusToKelvin, checkObject, checkRange, dbToRatio } from '@finial/units';
import { bandwidthBounds, feedlineLossBounds, noiseFigureBounds, temperatureBounds } from './bounds.js';
import { noiseFigureDbOf, noiseTemperatureK } from './noiseFactor.js';
import { noiseReferenceTemperatureK } from './physicalConstants.js';
import { noisePowerDbm } from './thermalNoiseDbm.js';

/** A receiver at the lower end of a feedline. */
export interface ReceivingSystem {
  /** Noise figure of the receiver alone in dB, 0 to 100. */
  readonly receiverNoiseFigureDb: number;
  /** Loss of the feedline between antenna and receiver in dB, 0 to 200. */
  readonly feedlineLossDb: number;
  /**
   * Physical temperature of the feedline in degrees Celsius, -100 to 200.
   *
   * @defaultValue 16.85, which is the 290 K that noise figures refer to
   */
  readonly feedlineTemperatureC?: number | undefined;
  /**
   * Noise temperature of the antenna in kelvin, 0.001 to 1e9: what it picks up from sky, ground and machines.
   *
   * @defaultValue 290
   */
  readonly antennaTemperatureK?: number | undefined;
  /** Noise bandwidth in hertz, 1 to 1e12; for LoRa the channel bandwidth, such as `125e3`. */
  readonly bandwidthHz: number;
}

/** Noise of a receiving system. Temperatures refer to the terminals of the antenna, so that they simply add. */
export interface SystemNoise {
  /** Noise temperature of the antenna in kelvin. */
  readonly antennaTemperatureK: number;
  /** Noise of the warm feedline in kelvin. */
  readonly feedlineNoiseTemperatureK: number;
  /** Noise of the receiver in kelvin, raised by the feedline's loss. */
  readonly receiverNoiseTemperatureK: number;
  /** Sum of the three in kelvin. */
  readonly systemTemperatureK: number;
  /** Noise figure in dB of feedline and receiver together, for a source at 290 K. */
  readonly systemNoiseFigureDb: number;
  /** Noise power in dBm, referred to the terminals of the antenna: compare it with the signal there. */
  readonly noisePowerDbm: number;
  /** The same noise in dBm at the input of the receiver, below the feedline: compare it with the signal there. */
  readonly receiverInputNoisePowerDbm: number;
}

const feedlineTemperatureBounds = { min: -100, max: 200, unit: 'degrees Celsius' };

/**
 * Noise of an antenna, a feedline and a receiver, as noise figure, temperature and power.
 *
 * A feedline at 290 K ahead of the receiver adds its loss in dB to the noise figure. It does not count twice: either the
 * signal is taken at the antenna and the noise figure includes the loss, or the signal is taken below the feedline and the
 * noise there is the receiver's alone. Both give the same signal-to-noise ratio, lower by the loss, once.
 *
 * @returns temperatures, noise figure (error below 1e-11 dB) and powers (error below 1e-11 dB)
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Recommendation ITU-R P.372, section 2, equations for a receiver, its transmission line and antenna circuit in cascade (from memory)
 * @example 2 dB of cable ahead of a receiver with 6 dB noise figure
 * ```ts
 * import { systemNoise } from '@finial/radio';
 *
 * const noise = systemNoise({ receiverNoiseFigureDb: 6, feedlineLossDb: 2, bandwidthHz: 125e3 });
 * noise.systemNoiseFigureDb; // ≈ 8.00
 * noise.noisePowerDbm; // ≈ -115.01
 * ```
 */
export function systemNoise(system: ReceivingSystem): SystemNoise {
  checkObject(system, 'system');
  const { feedlineTemperatureC, antennaTemperatureK = noiseReferenceTemperatureK } = system;
  const receiverNoiseFigureDb = checkRange(
    system.receiverNoiseFigureDb,
    'receiverNoiseFigureDb',
    noiseFigureBounds,
  );
  const lossDb = checkRange(system.feedlineLossDb, 'feedlineLossDb', feedlineLossBounds);
  const feedlineK =
    feedlineTemperatureC === undefined
      ? noiseReferenceTemperatureK
      : celsiusToKelvin(checkRange(feedlineTemperatureC, 'feedlineTemperatureC', feedlineTemperatureBounds));
  const antennaK = checkRange(antennaTemperatureK, 'antennaTemperatureK', temperatureBounds);
  const bandwidthHz = checkRange(system.bandwidthHz, 'bandwidthHz', bandwidthBounds);

  const feedlineNoiseTemperatureK = feedlineK * Math.expm1((lossDb * Math.LN10) / 10);
  const receiverNoiseTemperatureK = dbToRatio(lossDb) * noiseTemperatureK(receiverNoiseFigureDb);
  const addedK = feedlineNoiseTemperatureK + receiverNoiseTemperatureK;
  const noiseDbm = noisePowerDbm(antennaK + addedK, bandwidthHz);
  return {
    antennaTemperatureK: antennaK,
    feedlineNoiseTemperatureK,
    receiverNoiseTemperatureK,
    systemTemperatureK: antennaK + addedK,
    systemNoiseFigureDb: noiseFigureDbOf(addedK),
    noisePowerDbm: noiseDbm,
    receiverInputNoisePowerDbm: noiseDbm - lossDb,
  };
}
