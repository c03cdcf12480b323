/** A paint or finish of a box. */
export type BoxColour = 'white' | 'light grey' | 'weathered aluminium' | 'dark grey or green' | 'black';

/**
 * Share of sunshine that a finish takes up, by colour. From memory of handbook ranges, each ±0.1 and unverified; white grows toward 0.4
 * as it weathers and gathers dirt.
 *
 * @source handbook ranges, from memory
 * @example
 * ```ts
 * import { solarAbsorptivityRatios } from '@finial/site';
 *
 * solarAbsorptivityRatios.white; // → 0.25
 * ```
 */
export const solarAbsorptivityRatios: Readonly<Record<BoxColour, number>> = {
  white: 0.25,
  'light grey': 0.5,
  'weathered aluminium': 0.4,
  'dark grey or green': 0.85,
  black: 0.95,
};
