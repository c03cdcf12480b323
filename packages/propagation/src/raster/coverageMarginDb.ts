import { thermalNoiseDbm } from '@finial/radio';
import { checkObject, checkRange } from '@finial/units';
import { checkFigures, checkFrame, mapFigures, type RasterFrame } from './RasterFrame.js';

/** What a receiver needs to read a frame. */
export interface ReceptionNeed {
  /** Signal over noise in dB at which frames are still read, -50 to 50. */
  readonly requiredSnrDb: number;
  /** Noise bandwidth in hertz, 1 to 1e9; for LoRa the channel bandwidth, such as `125e3`. */
  readonly bandwidthHz: number;
}

/** Noise of the receiving end. */
export interface ReceiverNoise {
  /** Noise figure of the receiver in dB, 0 to 100. */
  readonly noiseFigureDb: number;
  /**
   * How far noise of machines and other radios lifts the floor above that figure, in dB, 0 to 100.
   *
   * @defaultValue 0, a quiet place
   */
  readonly noiseRiseDb?: number | undefined;
}

/** Power over an area, and what a receiver needs of it. */
export interface CoverageMargin extends ReceptionNeed, ReceiverNoise {
  /** Power at the receiver's input in dBm, one for each cell: see {@link receivedPowerDbm}. */
  readonly powerDbm: Float32Array;
}

/**
 * Margin over the weakest signal that the receiver reads, in dB, cell by cell: power, less thermal noise at 290 K, noise figure, noise rise
 * and required signal-to-noise ratio.
 *
 * The power is that of the median place of a cell: half of its places are below. {@link receptionProbability} says how many are above zero.
 *
 * @returns dB, positive where frames are read, NaN where there is no data; error below 1e-4 dB (32 bits)
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range` or `unknown-option`
 * @source noise power k t0 b: Recommendation ITU-R P.372, section 2
 * @example Spreading factor 12 in 125 kHz at -130 dBm
 * ```ts
 * import { coverageMarginDb } from '@finial/propagation';
 *
 * const raster = {
 *   kind: 'coverage' as const, columns: 3, rows: 3, cellM: 100, radiusM: 100,
 *   origin: { latitudeDeg: 50, longitudeDeg: 16 }, lossDb: new Float32Array(9).fill(147),
 * };
 * const powerDbm = raster.lossDb.map((lossDb) => 17 - lossDb);
 * const need = { requiredSnrDb: -20, bandwidthHz: 125e3 };
 * coverageMarginDb(raster, { powerDbm, noiseFigureDb: 6, ...need })[1]; // ≈ 7.01
 * ```
 */
export function coverageMarginDb(raster: RasterFrame, settings: CoverageMargin): Float32Array {
  checkFrame(raster);
  checkObject(settings, 'settings');
  checkFigures(settings.powerDbm, raster, 'powerDbm');
  const neededDbm = neededPowerDbm(settings, noiseOverThermalDb(settings));
  return mapFigures(settings.powerDbm, (powerDbm) => powerDbm - neededDbm);
}

/** Noise figure and noise rise together, checked. */
export function noiseOverThermalDb({ noiseFigureDb, noiseRiseDb = 0 }: ReceiverNoise): number {
  const bounds = { min: 0, max: 100, unit: 'dB' };
  return checkRange(noiseFigureDb, 'noiseFigureDb', bounds) + checkRange(noiseRiseDb, 'noiseRiseDb', bounds);
}

/** The weakest power in dBm that is read; `argument` is where the need stands in the caller's arguments. */
export function neededPowerDbm(
  { requiredSnrDb, bandwidthHz }: ReceptionNeed,
  overThermalDb: number,
  argument = '',
): number {
  checkRange(requiredSnrDb, `${argument}requiredSnrDb`, { min: -50, max: 50, unit: 'dB' });
  checkRange(bandwidthHz, `${argument}bandwidthHz`, { min: 1, max: 1e9, unit: 'hertz' });
  return thermalNoiseDbm({ bandwidthHz }) + overThermalDb + requiredSnrDb;
}
