import type { Climate } from './ItmSettings.js';

/** A curve over effective distance: heights of plateau and hump in dB, then three lengths in metres. */
export type DistanceCurve = readonly [number, number, number, number, number];

/** How a spread depends on frequency: plateau, height of the hump, sharpness of the hump. */
export type FrequencyFactor = readonly [number, number, number];

/** Variability in one climate. */
export interface ClimateCurves {
  /** Long-term median against the reference attenuation. */
  readonly median: DistanceCurve;
  /** Spread of the times with less signal than the median. */
  readonly weak: DistanceCurve;
  /** Spread of the times with more signal than the median. */
  readonly strong: DistanceCurve;
  readonly weakFrequency: FrequencyFactor;
  readonly strongFrequency: FrequencyFactor;
  /** Slope of the spread in the far tail of strong signal, as a ratio to the slope before. */
  readonly tailRatio: number;
  /** Standard normal deviate at which the far tail begins. */
  readonly tailStart: number;
}

const flat: FrequencyFactor = [1, 0, 0];

/**
 * Curves of all seven climates.
 *
 * @source G. A. Hufford, The ITS Irregular Terrain Model, version 1.2.2: the algorithm, table 5.1 and section 5
 */
export const climateCurves: Readonly<Record<Climate, ClimateCurves>> = {
  equatorial: {
    median: [-9.67, 12.7, 144.9e3, 190.3e3, 133.8e3],
    weak: [2.13, 159.5, 762.2e3, 123.6e3, 94.5e3],
    strong: [2.11, 102.3, 636.9e3, 134.8e3, 95.6e3],
    weakFrequency: flat,
    strongFrequency: flat,
    tailRatio: 1.224,
    tailStart: 1.282,
  },
  'continental-subtropical': {
    median: [-0.62, 9.19, 228.9e3, 205.2e3, 143.6e3],
    weak: [2.66, 7.67, 100.4e3, 172.5e3, 136.4e3],
    strong: [6.87, 15.53, 138.7e3, 143.7e3, 98.6e3],
    weakFrequency: flat,
    strongFrequency: [0.93, 0.31, 2],
    tailRatio: 0.801,
    tailStart: 2.161,
  },
  'maritime-subtropical': {
    median: [1.26, 15.5, 262.6e3, 185.2e3, 99.8e3],
    weak: [6.11, 6.65, 138.2e3, 242.2e3, 178.6e3],
    strong: [10.08, 9.6, 165.3e3, 225.7e3, 129.7e3],
    weakFrequency: flat,
    strongFrequency: flat,
    tailRatio: 1.38,
    tailStart: 1.282,
  },
  desert: {
    median: [-9.21, 9.05, 84.1e3, 101.1e3, 98.6e3],
    weak: [1.98, 13.11, 139.1e3, 132.7e3, 193.5e3],
    strong: [3.68, 159.3, 464.4e3, 93.1e3, 94.2e3],
    weakFrequency: flat,
    strongFrequency: [0.93, 0.19, 1.79],
    tailRatio: 1,
    tailStart: 20,
  },
  'continental-temperate': {
    median: [-0.62, 9.19, 228.9e3, 205.2e3, 143.6e3],
    weak: [2.68, 7.16, 93.7e3, 186.8e3, 133.5e3],
    strong: [4.75, 8.12, 93.2e3, 135.9e3, 113.4e3],
    weakFrequency: [0.92, 0.25, 1.77],
    strongFrequency: [0.93, 0.31, 2],
    tailRatio: 1.224,
    tailStart: 1.282,
  },
  'maritime-temperate-land': {
    median: [-0.39, 2.86, 141.7e3, 315.9e3, 167.4e3],
    weak: [6.86, 10.38, 187.8e3, 169.6e3, 108.9e3],
    strong: [8.58, 13.97, 216e3, 152e3, 122.7e3],
    weakFrequency: flat,
    strongFrequency: flat,
    tailRatio: 1.518,
    tailStart: 1.282,
  },
  'maritime-temperate-sea': {
    median: [3.15, 857.9, 2222e3, 164.8e3, 116.3e3],
    weak: [8.51, 169.8, 609.8e3, 119.9e3, 106.6e3],
    strong: [8.43, 8.19, 136.2e3, 188.5e3, 122.9e3],
    weakFrequency: flat,
    strongFrequency: flat,
    tailRatio: 1.518,
    tailStart: 1.282,
  },
};
