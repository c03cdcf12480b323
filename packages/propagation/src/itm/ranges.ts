import { frequencyHints } from '@finial/units';
import type { ModelRange } from '../models/validity.js';

/** Carrier frequencies of the model. */
export const frequencyRange: ModelRange = {
  possible: { min: 1e6, max: 1e11, unit: 'hertz', hints: frequencyHints },
  min: 20e6,
  max: 20e9,
};

/** Heights of an antenna above its ground. */
export const antennaHeightRange: ModelRange = {
  possible: { min: 0.1, max: 9000, unit: 'metres above the ground' },
  min: 0.5,
  max: 3000,
};

/** Lengths of a path. */
export const lengthRange: ModelRange = {
  possible: { min: 10, max: 1e7, unit: 'metres', hints: [{ name: 'kilometres', ratio: 1000 }] },
  min: 1e3,
  max: 2000e3,
};
