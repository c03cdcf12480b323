import { checkOneOf } from '@finial/units';

/** Refractivity of the air at a place, annual median. */
export interface RefractivityClimate {
  /** Fall of refractivity over the lowest kilometre in N-units, above 0 (ΔN). */
  readonly deltaN: number;
  /** Refractivity at sea level in N-units (N0). */
  readonly surfaceRefractivity: number;
}

/** A city of {@link climateOf}. */
export type ClimatePlace =
  | 'Auckland'
  | 'Bangkok'
  | 'Beijing'
  | 'Berlin'
  | 'Bogotá'
  | 'Cairo'
  | 'Cape Town'
  | 'Chicago'
  | 'Delhi'
  | 'Denver'
  | 'Dubai'
  | 'Houston'
  | 'Lagos'
  | 'Lisbon'
  | 'London'
  | 'Los Angeles'
  | 'Madrid'
  | 'Mumbai'
  | 'Munich'
  | 'Nairobi'
  | 'New York'
  | 'Perth'
  | 'Rome'
  | 'São Paulo'
  | 'Seoul'
  | 'Singapore'
  | 'Stockholm'
  | 'Sydney'
  | 'Tokyo'
  | 'Toronto'
  | 'Warsaw';

const climates: Readonly<Record<ClimatePlace, RefractivityClimate>> = {
  Auckland: { deltaN: 43.3, surfaceRefractivity: 334 },
  Bangkok: { deltaN: 60.6, surfaceRefractivity: 384 },
  Beijing: { deltaN: 37.2, surfaceRefractivity: 315 },
  Berlin: { deltaN: 37.4, surfaceRefractivity: 320 },
  Bogotá: { deltaN: 36.3, surfaceRefractivity: 368 },
  Cairo: { deltaN: 45, surfaceRefractivity: 328 },
  'Cape Town': { deltaN: 49, surfaceRefractivity: 333 },
  Chicago: { deltaN: 38.2, surfaceRefractivity: 321 },
  Delhi: { deltaN: 47, surfaceRefractivity: 339 },
  Denver: { deltaN: 31.9, surfaceRefractivity: 321 },
  Dubai: { deltaN: 68.6, surfaceRefractivity: 341 },
  Houston: { deltaN: 46.2, surfaceRefractivity: 350 },
  Lagos: { deltaN: 48.2, surfaceRefractivity: 366 },
  Lisbon: { deltaN: 46.9, surfaceRefractivity: 333 },
  London: { deltaN: 42.5, surfaceRefractivity: 326 },
  'Los Angeles': { deltaN: 55.1, surfaceRefractivity: 330 },
  Madrid: { deltaN: 40.2, surfaceRefractivity: 326 },
  Mumbai: { deltaN: 59.4, surfaceRefractivity: 375 },
  Munich: { deltaN: 38.8, surfaceRefractivity: 325 },
  Nairobi: { deltaN: 34, surfaceRefractivity: 360 },
  'New York': { deltaN: 39.7, surfaceRefractivity: 323 },
  Perth: { deltaN: 43.6, surfaceRefractivity: 330 },
  Rome: { deltaN: 43.8, surfaceRefractivity: 329 },
  'São Paulo': { deltaN: 43.3, surfaceRefractivity: 353 },
  Seoul: { deltaN: 40.4, surfaceRefractivity: 320 },
  Singapore: { deltaN: 60.9, surfaceRefractivity: 385 },
  Stockholm: { deltaN: 38.6, surfaceRefractivity: 318 },
  Sydney: { deltaN: 46, surfaceRefractivity: 335 },
  Tokyo: { deltaN: 44.4, surfaceRefractivity: 332 },
  Toronto: { deltaN: 36.2, surfaceRefractivity: 320 },
  Warsaw: { deltaN: 36.8, surfaceRefractivity: 321 },
};

/** Names of the cities that {@link climateOf} knows. */
export const climatePlaces: readonly ClimatePlace[] = /* @__PURE__ */ Object.keys(climates) as ClimatePlace[];

/**
 * Median refractivity of the air over a city, for the settings of a prediction near it.
 *
 * A few points read from the digital maps that go with the Recommendation, rounded: not the maps themselves, which know every place and
 * may not be passed on. Within some tens of kilometres inland one pair of values serves; on coasts they change faster, and from one climate
 * to the next by far more. Nothing is looked up silently: a place that is not in the list is refused.
 *
 * @returns ΔN rounded to 0.1 and N0 to 1 N-unit
 * @throws {@link InputError} `unknown-option`: a place that is not in {@link climatePlaces}
 * @source Digital maps DN50 and N050 that accompany Recommendation ITU-R P.1812 (from P.453), read at the cities
 * @example Settings for a path near London
 * ```ts
 * import { p1812 } from '@finial/propagation';
 *
 * p1812.climateOf('London'); // → { deltaN: 42.5, surfaceRefractivity: 326 }
 * ```
 */
export function climateOf(place: ClimatePlace): RefractivityClimate {
  return { ...climates[checkOneOf(place, 'place', climatePlaces)] };
}
