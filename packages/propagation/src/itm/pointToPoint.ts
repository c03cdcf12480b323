import { InputError } from '@finial/units';
import { validityCheck } from '../models/validity.js';
import { type CheckedPath, checkPath } from '../path/checkPath.js';
import type { RadioPath } from '../path/RadioPath.js';
import { atmosphere } from './atmosphere.js';
import { checkSettings } from './checkSettings.js';
import { groundImpedance } from './groundImpedance.js';
import type { ItmLoss } from './ItmLoss.js';
import type { ItmSettings } from './ItmSettings.js';
import { lossOfScene } from './lossOfScene.js';
import { antennaHeightRange, frequencyRange, lengthRange } from './ranges.js';
import { terminalsOnProfile } from './terminals.js';
import type { EvenProfile } from './terrainIrregularity.js';

/**
 * Loss over a known profile by the irregular-terrain model (the Longley-Rice model), in decibels. Positive means loss.
 *
 * The model knows bare ground only: clutter of the path is left out with a warning, and the zones are not looked at. It was
 * made for paths of 1 to 2000 km; a profile of a handful of points tells it little of the ground (common practice, no source).
 * The points must be evenly spaced. Which end transmits matters a little, since the ground is sampled from the transmitter on.
 * For small percentages the loss may lie below free space, as the measured statistics do.
 *
 * @param path - frequency 20 MHz to 20 GHz, antennas 0.5 to 3000 m above ground, 1 to 2000 km long
 * @param settings - climate, refractivity, ground, and which shares of time, places and situations are asked for
 * @returns loss in dB with its intermediate values, as the published cases within their printed 0.01 dB; single measurements
 * scatter about the prediction with a standard deviation near 10 dB (from memory)
 * @throws {@link InputError} `outside-validity`: outside the ranges above, unless allowed, or ground so high or a horizon so
 * near that the model has no value; `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option` or `missing`
 * @source NTIA Report 82-100 (April 1982); G. A. Hufford, The ITS Irregular Terrain Model, version 1.2.2: the algorithm
 * @example Twenty kilometres over flat ground
 * ```ts
 * import { itm } from '@finial/propagation';
 *
 * const distanceM = Array.from({ length: 201 }, (_, index) => index * 100);
 * const path = {
 *   frequencyHz: 868.1e6,
 *   distanceM,
 *   heightM: distanceM.map(() => 200),
 *   transmitterHeightM: 30,
 *   receiverHeightM: 2,
 * };
 * const loss = itm.pointToPoint(path, { climate: 'continental-temperate', seaLevelRefractivity: 301 });
 * loss.mode; // → 'line-of-sight'
 * loss.freeSpaceLossDb; // ≈ 117.24
 * loss.terrainIrregularityM; // → 0
 * ```
 */
export function pointToPoint(path: RadioPath, settings: ItmSettings): ItmLoss {
  const checked = checkPath(path, {
    frequencyHz: frequencyRange.possible,
    antennaHeightM: antennaHeightRange.possible,
    lengthM: lengthRange.possible,
  });
  const question = checkSettings(settings);
  const warnings = checkValidity(checked, question.outsideValidity);
  if (checked.obstacleHeightM !== checked.heightM)
    warnings.push('clutter is left out: the model knows bare ground only');

  const profile = evenProfile(checked);
  const megahertz = checked.frequencyHz / 1e6;
  const air = atmosphere(question.seaLevelRefractivity, systemHeightM(checked.heightM));
  const heightsM = [checked.transmitterHeightM, checked.receiverHeightM] as const;
  return lossOfScene(
    {
      ...air,
      ...terminalsOnProfile(profile, heightsM, air.effectiveEarthRadiusM),
      distanceM: checked.lengthM,
      megahertz,
      impedance: groundImpedance(question.ground, megahertz, checked.polarisation),
      knowsProfile: true,
    },
    question,
    warnings,
  );
}

function checkValidity(path: CheckedPath, outsideValidity: 'refuse' | 'allow'): string[] {
  const { within, warnings } = validityCheck(outsideValidity);
  within(path.frequencyHz, 'path.frequencyHz', frequencyRange);
  within(path.transmitterHeightM, 'path.transmitterHeightM', antennaHeightRange);
  within(path.receiverHeightM, 'path.receiverHeightM', antennaHeightRange);
  within(path.lengthM, `path.distanceM[${path.distanceM.length - 1}]`, lengthRange);
  return warnings;
}

/** The model counts in steps of the profile: a point must stand within a thousandth of a step of its place. */
function evenProfile({ distanceM, heightM, lengthM }: CheckedPath): EvenProfile {
  const stepM = lengthM / (distanceM.length - 1);
  const astray = distanceM.findIndex((value, index) => Math.abs(value - index * stepM) > 1e-3 * stepM);
  if (astray < 0) return { heightM, stepM };
  throw new InputError({
    code: 'out-of-range',
    argument: `path.distanceM[${astray}]`,
    received: distanceM[astray],
    expected: `evenly spaced points, here ${astray * stepM} metres`,
  });
}

/** Mean height of the ground without the outermost tenths of the path. */
function systemHeightM(heightM: Float64Array): number {
  const tenth = Math.trunc(0.1 * (heightM.length - 1));
  const inner = heightM.subarray(tenth, heightM.length - tenth);
  return inner.reduce((sum, height) => sum + height, 0) / inner.length;
}
