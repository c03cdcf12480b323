import { checkOneOf, checkRange } from '@finial/units';
import { validityCheck } from '../models/validity.js';
import type { LinearPolarisation } from '../path/RadioPath.js';
import { atmosphere } from './atmosphere.js';
import { checkSettings } from './checkSettings.js';
import { groundImpedance } from './groundImpedance.js';
import type { ItmLoss } from './ItmLoss.js';
import type { ItmSettings } from './ItmSettings.js';
import { lossOfScene } from './lossOfScene.js';
import { antennaHeightRange, frequencyRange, lengthRange } from './ranges.js';
import type { Terminal } from './Scene.js';
import { type Siting, sitedHeightM, terminalOverArea } from './terminals.js';

/** Two antennas somewhere in an area of which only the irregularity is known. */
export interface AreaSettings extends ItmSettings {
  /** Frequency in hertz, 20e6 to 20e9. */
  readonly frequencyHz: number;
  /** Distance between the antennas in metres, 1000 to 2e6. */
  readonly distanceM: number;
  /** Height of the transmitting antenna above its ground in metres, 0.5 to 3000. */
  readonly transmitterHeightM: number;
  /** Height of the receiving antenna above its ground in metres, 0.5 to 3000. */
  readonly receiverHeightM: number;
  /**
   * Terrain irregularity in metres, 0 to 2000: how far the middle 80 per cent of the ground heights spread. About 0 for water,
   * 30 for plains, 90 for hills, 200 for mountains and 500 for rugged mountains (from memory: the suggested values of the guide).
   */
  readonly terrainIrregularityM: number;
  /**
   * With how much care the transmitter's place was chosen.
   *
   * @defaultValue `random`
   */
  readonly transmitterSiting?: Siting | undefined;
  /**
   * With how much care the receiver's place was chosen.
   *
   * @defaultValue `random`
   */
  readonly receiverSiting?: Siting | undefined;
  /**
   * Orientation of the electric field.
   *
   * @defaultValue `vertical`
   */
  readonly polarisation?: LinearPolarisation | undefined;
}

const sitings = ['random', 'careful', 'very-careful'] as const;

/**
 * Loss over a distance in an area by the irregular-terrain model (the Longley-Rice model), in decibels. Positive means loss.
 * It asks for no profile: only for how irregular the ground is and how well the antennas' places were chosen.
 *
 * @returns loss in dB with the values it was calculated from, as the published cases within their printed 0.1 dB
 * @throws {@link InputError} `outside-validity`: outside the stated ranges, unless allowed; `wrong-type`,
 * `not-a-finite-number`, `out-of-range` or `unknown-option`
 * @source NTIA Report 82-100 (April 1982); G. A. Hufford, The ITS Irregular Terrain Model, version 1.2.2: the algorithm
 * @example A hilltop mast and a handheld 15 km away, in hills
 * ```ts
 * import { itm } from '@finial/propagation';
 *
 * const loss = itm.area({
 *   climate: 'continental-temperate',
 *   seaLevelRefractivity: 301,
 *   frequencyHz: 868.1e6,
 *   distanceM: 15_000,
 *   transmitterHeightM: 30,
 *   receiverHeightM: 1.5,
 *   terrainIrregularityM: 90,
 *   transmitterSiting: 'very-careful',
 * });
 * loss.freeSpaceLossDb; // ≈ 114.74
 * loss.mode; // → 'line-of-sight'
 * ```
 */
export function area(settings: AreaSettings): ItmLoss {
  const question = checkSettings(settings);
  const { transmitterSiting = 'random', receiverSiting = 'random', polarisation = 'vertical' } = settings;
  const { within, warnings } = validityCheck(question.outsideValidity);
  const megahertz = within(settings.frequencyHz, 'frequencyHz', frequencyRange) / 1e6;
  const distanceM = within(settings.distanceM, 'distanceM', lengthRange);
  const terrainIrregularityM = checkRange(settings.terrainIrregularityM, 'terrainIrregularityM', {
    min: 0,
    max: 2000,
    unit: 'metres',
  });
  const air = atmosphere(question.seaLevelRefractivity, 0);
  const end = (name: 'transmitter' | 'receiver', siting: Siting): Terminal => {
    const heightM = within(settings[`${name}HeightM`], `${name}HeightM`, antennaHeightRange);
    checkOneOf(siting, `${name}Siting`, sitings);
    const effectiveM = sitedHeightM(heightM, siting, terrainIrregularityM);
    return terminalOverArea(heightM, effectiveM, terrainIrregularityM, air.effectiveEarthRadiusM);
  };
  checkOneOf(polarisation, 'polarisation', ['horizontal', 'vertical']);
  return lossOfScene(
    {
      ...air,
      transmitter: end('transmitter', transmitterSiting),
      receiver: end('receiver', receiverSiting),
      distanceM,
      megahertz,
      impedance: groundImpedance(question.ground, megahertz, polarisation),
      terrainIrregularityM,
      knowsProfile: false,
    },
    question,
    warnings,
  );
}
