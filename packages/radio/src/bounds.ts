import { frequencyHints, type RangeBounds } from '@finial/units';

// What each quantity can be in this package. Wide enough for any radio link, narrow enough that no formula here overflows.

/** From 1 MHz to the upper end of radio waves; below 1 MHz a number is more likely in the wrong scale than meant. */
export const frequencyBounds: RangeBounds = { min: 1e6, max: 3e12, unit: 'hertz', hints: frequencyHints };
/** From a micrometre to beyond the planets. */
export const distanceBounds: RangeBounds = { min: 1e-6, max: 1e12, unit: 'metres' };
export const powerBounds: RangeBounds = { min: -300, max: 300, unit: 'dBm' };
export const gainBounds: RangeBounds = { min: -100, max: 100, unit: 'dBi' };
/** Loss of a feedline; a gain here would hide a sign fault. */
export const feedlineLossBounds: RangeBounds = { min: 0, max: 200, unit: 'dB (a loss is positive)' };
export const noiseFigureBounds: RangeBounds = { min: 0, max: 100, unit: 'dB' };
export const bandwidthBounds: RangeBounds = { min: 1, max: 1e12, unit: 'hertz' };
export const temperatureBounds: RangeBounds = { min: 1e-3, max: 1e9, unit: 'kelvin' };
