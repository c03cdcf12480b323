import { checkInteger, checkList, checkObject, checkRange, InputError } from '@finial/units';
import {
  neededPowerDbm,
  noiseOverThermalDb,
  type ReceiverNoise,
  type ReceptionNeed,
} from './coverageMarginDb.js';
import { checkFigures, checkFrame, mapFigures, type RasterFrame } from './RasterFrame.js';

/** What one data rate needs. */
export interface DataRateNeed extends ReceptionNeed {
  /** Index of the data rate, 0 to 15, as the regional parameters number it: higher is faster. */
  readonly dataRate: number;
}

/** What the receiver reads at which data rate. */
export interface DataRateLadder extends ReceiverNoise {
  /** What each data rate needs; each once, in any order. */
  readonly rows: readonly DataRateNeed[];
  /**
   * Margin in dB that must remain for a data rate to count, -50 to 100.
   *
   * @defaultValue 0, the median place just reads a frame
   */
  readonly wantedMarginDb?: number | undefined;
}

/** Power over an area, and what the data rates need of it. */
export interface DataRateQuestion extends DataRateLadder {
  /** Power at the receiver's input in dBm, one for each cell: see {@link receivedPowerDbm}. */
  readonly powerDbm: Float32Array;
}

/** What {@link bestDataRate} states where not even the slowest data rate is read. */
export const noDataRate = -1;

/**
 * The highest data rate that every cell can use: the one with the greatest index whose need the power meets.
 *
 * @returns index of the data rate, -1 ({@link noDataRate}) where none is read, NaN where there is no data
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number`, `out-of-range` (also where a data rate is given twice) or
 * `unknown-option`
 * @source noise power k t0 b: Recommendation ITU-R P.372, section 2
 * @example Two data rates, three distances
 * ```ts
 * import { bestDataRate } from '@finial/propagation';
 *
 * const raster = {
 *   kind: 'coverage' as const, columns: 3, rows: 3, cellM: 100, radiusM: 100,
 *   origin: { latitudeDeg: 50, longitudeDeg: 16 }, lossDb: Float32Array.of(NaN, 130, NaN, 140, NaN, 150, NaN, 160, NaN),
 * };
 * const powerDbm = raster.lossDb.map((lossDb) => 16 - lossDb);
 * const rows = [
 *   { dataRate: 0, requiredSnrDb: -20, bandwidthHz: 125e3 },
 *   { dataRate: 5, requiredSnrDb: -7.5, bandwidthHz: 125e3 },
 * ];
 * const rates = bestDataRate(raster, { powerDbm, noiseFigureDb: 6, rows });
 * [rates[1], rates[3], rates[5], rates[7]]; // → [5, 5, 0, -1]
 * ```
 */
export function bestDataRate(raster: RasterFrame, settings: DataRateQuestion): Float32Array {
  checkFrame(raster);
  checkObject(settings, 'settings');
  checkFigures(settings.powerDbm, raster, 'powerDbm');
  const ladder = checkLadder(settings);
  return mapFigures(settings.powerDbm, (powerDbm) => {
    for (const { dataRate, neededDbm } of ladder) if (powerDbm >= neededDbm) return dataRate;
    return noDataRate;
  });
}

/** The data rates, fastest first, each with the power in dBm that it needs. */
export function checkLadder(
  settings: DataRateLadder,
): readonly { readonly dataRate: number; readonly neededDbm: number }[] {
  const { wantedMarginDb = 0 } = settings;
  const overThermalDb =
    noiseOverThermalDb(settings) +
    checkRange(wantedMarginDb, 'wantedMarginDb', { min: -50, max: 100, unit: 'dB' });
  const seen = new Set<number>();
  return checkList(settings.rows, 'rows')
    .map((row, index) => {
      const argument = `rows[${index}]`;
      checkObject(row, argument);
      const dataRate = checkInteger(row.dataRate, `${argument}.dataRate`, {
        min: 0,
        max: 15,
        unit: 'data rates',
      });
      if (seen.has(dataRate)) {
        const expected = 'each data rate once';
        throw new InputError({
          code: 'out-of-range',
          argument: `${argument}.dataRate`,
          received: dataRate,
          expected,
        });
      }
      seen.add(dataRate);
      return { dataRate, neededDbm: neededPowerDbm(row, overThermalDb, `${argument}.`) };
    })
    .sort((one, other) => other.dataRate - one.dataRate);
}
