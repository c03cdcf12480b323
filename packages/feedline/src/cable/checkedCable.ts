import { checkList, checkObject, checkRange, frequencyHints, type RangeBounds } from '@finial/units';
import { cableAmong } from '../catalogue/cableAmong.js';
import { coaxialCables } from '../catalogue/coaxialCables.js';
import type { Cable } from '../catalogue/parts.js';

/** Below 1 MHz a number is more likely in the wrong scale than meant. */
export const frequencyBounds: RangeBounds = { min: 1e6, max: 100e9, unit: 'hertz', hints: frequencyHints };
export const lengthBounds: RangeBounds = { min: 0, max: 10_000, unit: 'metres' };
/** Resistance of copper runs in a straight line over these temperatures; far below, it does not. */
export const temperatureBounds: RangeBounds = { min: -60, max: 200, unit: 'degrees C' };

const pointFrequencyBounds: RangeBounds = { min: 1, max: 100e9, unit: 'hertz' };
const attenuationBounds: RangeBounds = { min: 1e-6, max: 1000, unit: 'dB per metre' };
const shareBounds: RangeBounds = { min: 0, max: 1, unit: 'as a ratio' };

/**
 * The cable itself, or the one of the built-in catalogue that a designation names, with its points looked through: a row may come from a
 * person's own file that nothing has checked yet.
 */
export function checkedCable(cable: Cable | string): Cable {
  const row =
    typeof cable === 'string' ? cableAmong(coaxialCables, cable, 'cable') : checkObject(cable, 'cable');
  checkRange(row.attenuationUncertaintyRatio, 'cable.attenuationUncertaintyRatio', shareBounds);
  checkRising(row.attenuation, 'cable.attenuation');
  row.attenuation.forEach((point, index) => {
    checkRange(point.attenuationDbPerM, `cable.attenuation[${index}].attenuationDbPerM`, attenuationBounds);
  });
  return row;
}

/** Refuses a list of points that is empty or whose frequencies do not rise. */
export function checkRising(points: readonly { readonly frequencyHz: number }[], argument: string): void {
  let least = pointFrequencyBounds.min;
  for (const [index, point] of checkList(points, argument).entries()) {
    const name = `${argument}[${index}]`;
    const bounds = { ...pointFrequencyBounds, min: least };
    const { frequencyHz } = checkObject(point, name);
    // One hertz apart at least: two points at one frequency contradict each other.
    least = checkRange(frequencyHz, `${name}.frequencyHz`, bounds) + 1;
  }
}
