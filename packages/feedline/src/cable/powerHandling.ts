import { checkObject, checkRange } from '@finial/units';
import type { Cable, PowerPoint } from '../catalogue/parts.js';
import { attenuationDb } from './attenuationDb.js';
import { attenuationFit } from './attenuationFit.js';
import { checkedCable, checkRising, frequencyBounds, temperatureBounds } from './checkedCable.js';

/** Greatest mean power that a cable carries, with what it was derated by. */
export interface PowerHandling {
  /** Greatest mean power in watts after derating, 0 when the air is as hot as the insulation may be; absent when the row has no figure. */
  readonly powerW?: number | undefined;
  /** Power in watts at this frequency at 40 degrees C and with a matched load; absent when the row has no figure. */
  readonly ratedPowerW?: number | undefined;
  /** Share left at this temperature, 0 or more; 1 at 40 degrees C. */
  readonly temperatureRatio: number;
  /** Share left with this standing wave: one over the VSWR. */
  readonly vswrRatio: number;
  /** What a reader must know. */
  readonly warnings: readonly string[];
}

/**
 * Greatest mean power of a cable at a frequency, derated for the heat of the air and for a standing wave.
 *
 * Between the row's points it follows their logarithms; beyond them it goes as one over the attenuation, since the heat per metre is what
 * the cable bears. Heat: the rise over the air goes with the power, so the share is that of the degrees left up to the limit of the
 * insulation. Standing wave: the hottest place carries VSWR times the power of a matched line, the cautious view. In still air, not in the sun,
 * not in a bundle. No LoRa transmitter comes near: this serves to show it, and for lines that carry other radios too.
 *
 * @param question - `cable`: row or designation; `frequencyHz`: 1e6 to 100e9, within half the lowest to one and a half times the highest
 * attenuation point; `temperatureC`: air, -60 to 200, 40 when left out; `vswr`: 1 to 100, 1 when left out
 * @returns watts, no better than 30 %
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number`, `out-of-range`, `unknown-option` or `outside-validity`
 * @source common practice, no source; figures by the row of the cable
 * @example
 * ```ts
 * import { powerHandling } from '@finial/feedline';
 *
 * powerHandling({ cable: 'RG-58C/U', frequencyHz: 900e6, temperatureC: 60, vswr: 2 }).powerW; // ≈ 17.5
 * powerHandling({ cable: 'RG-174/U', frequencyHz: 900e6 }).powerW; // → undefined
 * ```
 */
export function powerHandling(question: {
  /** A cable row, or a designation of the built-in catalogue. */
  readonly cable: Cable | string;
  /** Frequency in hertz, 1e6 to 100e9. */
  readonly frequencyHz: number;
  /**
   * Temperature of the air in degrees C, -60 to 200.
   *
   * @defaultValue 40
   */
  readonly temperatureC?: number | undefined;
  /**
   * VSWR on the cable, 1 to 100.
   *
   * @defaultValue 1
   */
  readonly vswr?: number | undefined;
}): PowerHandling {
  checkObject(question, 'question');
  const { temperatureC = ratedTemperatureC, vswr = 1 } = question;
  const cable = checkedCable(question.cable);
  const frequencyHz = checkRange(question.frequencyHz, 'frequencyHz', frequencyBounds);
  checkRange(temperatureC, 'temperatureC', temperatureBounds);
  checkRange(vswr, 'vswr', { min: 1, max: 100, unit: 'as a VSWR' });
  const { ratio: temperatureRatio, warnings } = heatShare(cable, temperatureC);
  const shares = { temperatureRatio, vswrRatio: 1 / vswr };
  if (cable.powerLimits === undefined) {
    return { ...shares, warnings: [`${cable.designation}: no figure for its power`, ...warnings] };
  }
  const ratedPowerW = ratedPower(cable, cable.powerLimits, frequencyHz);
  return { ...shares, ratedPowerW, powerW: (ratedPowerW * temperatureRatio) / vswr, warnings };
}

/** Air for which rows state their power. */
const ratedTemperatureC = 40;

function heatShare(
  { designation, maxTemperatureC }: Cable,
  temperatureC: number,
): { ratio: number; warnings: string[] } {
  if (maxTemperatureC === undefined) {
    const warning = `${designation}: no limit of temperature known, so heat is not counted`;
    return { ratio: 1, warnings: temperatureC === ratedTemperatureC ? [] : [warning] };
  }
  const bounds = { min: ratedTemperatureC + 1, max: 400, unit: 'degrees C' };
  const limitC = checkRange(maxTemperatureC, 'cable.maxTemperatureC', bounds);
  if (temperatureC > limitC) {
    return { ratio: 0, warnings: [`${designation}: the air is hotter than its insulation may be`] };
  }
  return { ratio: (limitC - temperatureC) / (limitC - ratedTemperatureC), warnings: [] };
}

function ratedPower(cable: Cable, limits: readonly PowerPoint[], frequencyHz: number): number {
  checkRising(limits, 'cable.powerLimits');
  limits.forEach(({ powerW }, index) => {
    checkRange(powerW, `cable.powerLimits[${index}].powerW`, { min: 1e-6, max: 1e9, unit: 'watts' });
  });
  const lower = limits.findLast((point) => point.frequencyHz < frequencyHz);
  const upper = limits.find((point) => point.frequencyHz >= frequencyHz);
  if (lower !== undefined && upper !== undefined) return between(lower, upper, frequencyHz);
  // A list that was looked through holds a point on one side at least.
  return byAttenuation(cable, (lower ?? upper) as PowerPoint, frequencyHz);
}

function between(lower: PowerPoint, upper: PowerPoint, frequencyHz: number): number {
  const share = Math.log(frequencyHz / lower.frequencyHz) / Math.log(upper.frequencyHz / lower.frequencyHz);
  return lower.powerW * (upper.powerW / lower.powerW) ** share;
}

function byAttenuation(cable: Cable, point: PowerPoint, frequencyHz: number): number {
  const fit = attenuationFit(cable);
  const gigahertz = point.frequencyHz / 1e9;
  const conductorDbPerM = fit.conductorAtOneGigahertzDbPerM * Math.sqrt(gigahertz);
  const atPointDb = conductorDbPerM + fit.dielectricAtOneGigahertzDbPerM * gigahertz;
  return (point.powerW * atPointDb) / attenuationDb({ cable, lengthM: 1, frequencyHz });
}
