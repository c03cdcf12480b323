import { frequencyHints, type RangeBounds } from '@finial/units';

// What each quantity of the clutter, building and empirical models can be at all; the range of each model lies within.

export const frequencyHz: RangeBounds = { min: 1e6, max: 3e12, unit: 'hertz', hints: frequencyHints };
export const distanceM: RangeBounds = {
  min: 0.1,
  max: 1e7,
  unit: 'metres',
  hints: [{ name: 'kilometres', ratio: 1000 }],
};
export const antennaHeightM: RangeBounds = { min: 0.01, max: 1e4, unit: 'metres' };
export const clutterHeightM: RangeBounds = { min: 0.01, max: 500, unit: 'metres' };
export const elevationDeg: RangeBounds = { min: -90, max: 90, unit: 'degrees' };
