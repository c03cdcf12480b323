import { checkList, checkObject, checkRange, dbToRatio } from '@finial/units';
import { noiseFigureBounds } from './bounds.js';
import { noiseFigureDbOf, noiseTemperatureK } from './noiseFactor.js';

/** One part of a receiving chain: an amplifier, a filter, a piece of cable. */
export interface NoiseStage {
  /**
   * Noise figure in dB, 0 to 100, for a source at 290 K. A passive part at that temperature has the noise figure of its own
   * loss.
   */
  readonly noiseFigureDb: number;
  /** Available gain in dB, -200 to 200; a loss is negative. */
  readonly gainDb: number;
}

/** What one stage does to the whole chain. */
export interface NoiseStageContribution {
  /** Gain of all stages ahead of this one in dB. */
  readonly gainAheadDb: number;
  /** Noise of this stage in kelvin, as it appears at the input of the chain. */
  readonly inputTemperatureK: number;
  /** Share of this stage in the noise that the chain adds, as a ratio from 0 to 1; 0 in a chain that adds none. */
  readonly shareRatio: number;
}

/** Noise figure of a whole chain. */
export interface NoiseCascade {
  /** Noise figure of the chain in dB. */
  readonly noiseFigureDb: number;
  /** Gain of the chain in dB. */
  readonly gainDb: number;
  /** Noise temperature of the chain in kelvin, at its input. */
  readonly noiseTemperatureK: number;
  /** What each stage contributes, in the order of the chain. */
  readonly stages: readonly NoiseStageContribution[];
}

const stageGainBounds = { min: -200, max: 200, unit: 'dB (a loss is negative)' };
const chainGainBounds = { min: -1000, max: 1000, unit: 'dB for the gain of all stages so far' };

/**
 * Noise figure of parts in a row, and what each of them contributes, by Friis's formula.
 *
 * The first stage and every loss ahead of it count in full; what follows counts divided by the gain ahead of it. Each stage
 * must see the source it was measured with: the formula takes available gains and matched parts.
 *
 * @param stages - from the antenna to the receiver, one or more; the gain of all stages up to any point from -1000 to 1000 dB
 * @returns noise figure in dB, error below 1e-11 dB
 * @throws {@link InputError} `wrong-type`, `missing` (no stage), `not-a-finite-number` or `out-of-range`
 * @source H. T. Friis, Noise figures of radio receivers, Proc. IRE 32 (1944), the formula for networks in cascade
 * @example 3 dB of cable, ahead of a mast amplifier or behind it
 * ```ts
 * import { noiseFigureCascade } from '@finial/radio';
 *
 * const amplifier = { noiseFigureDb: 1, gainDb: 20 };
 * const cable = { noiseFigureDb: 3, gainDb: -3 };
 * const receiver = { noiseFigureDb: 6, gainDb: 0 };
 * noiseFigureCascade([amplifier, cable, receiver]).noiseFigureDb; // ≈ 1.23
 * noiseFigureCascade([cable, amplifier, receiver]).noiseFigureDb; // ≈ 4.10
 * ```
 */
export function noiseFigureCascade(stages: readonly NoiseStage[]): NoiseCascade {
  checkList(stages, 'stages');
  const atInput: { gainAheadDb: number; inputTemperatureK: number }[] = [];
  let gainDb = 0;
  stages.forEach((stage, index) => {
    const path = `stages[${index}]`;
    checkObject(stage, path);
    const noiseFigureDb = checkRange(stage.noiseFigureDb, `${path}.noiseFigureDb`, noiseFigureBounds);
    const stageGainDb = checkRange(stage.gainDb, `${path}.gainDb`, stageGainBounds);
    atInput.push({
      gainAheadDb: gainDb,
      inputTemperatureK: noiseTemperatureK(noiseFigureDb) / dbToRatio(gainDb),
    });
    gainDb = checkRange(gainDb + stageGainDb, `${path}.gainDb`, chainGainBounds);
  });
  const totalK = atInput.reduce((sum, stage) => sum + stage.inputTemperatureK, 0);
  return {
    noiseFigureDb: noiseFigureDbOf(totalK),
    gainDb,
    noiseTemperatureK: totalK,
    stages: atInput.map((stage) => ({
      ...stage,
      shareRatio: totalK === 0 ? 0 : stage.inputTemperatureK / totalK,
    })),
  };
}
