import { frequencyHints } from '@finial/units';
import type { PathLimits } from '../path/checkPath.js';

/** What the diffraction methods take: no bounds of the Recommendation, but those within which nothing overflows and slips show. */
export const diffractionLimits: PathLimits = {
  frequencyHz: { min: 30e6, max: 100e9, unit: 'hertz', hints: frequencyHints },
  antennaHeightM: { min: 0.1, max: 10_000, unit: 'metres above the ground' },
  lengthM: { min: 1, max: 3e6, unit: 'metres' },
};
