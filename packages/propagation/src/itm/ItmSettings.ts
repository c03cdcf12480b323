/** Radio climate of the irregular-terrain model: which set of measured variability curves holds. */
export type Climate =
  | 'equatorial'
  | 'continental-subtropical'
  | 'maritime-subtropical'
  | 'desert'
  | 'continental-temperate'
  | 'maritime-temperate-land'
  | 'maritime-temperate-sea';

/** Electrical constants of the ground under a path. */
export interface Ground {
  /** Permittivity relative to vacuum, 1 to 100. */
  readonly permittivity: number;
  /** Conductivity in siemens per metre, above 0 to 100. */
  readonly conductivitySPerM: number;
}

/**
 * Which of the three percentages count together, as the report names the services.
 *
 * - `single-message`: one message on one path; only the situation percentage counts
 * - `accidental`: reception that nobody planned; time on its own, location joined with situation
 * - `mobile`: a terminal on the move; time and location are one, situation on its own
 * - `broadcast`: time, location and situation each on its own
 */
export type VariabilityMode = 'single-message' | 'accidental' | 'mobile' | 'broadcast';

/** What the irregular-terrain model must know besides the path. */
export interface ItmSettings {
  /** Radio climate of the place. */
  readonly climate: Climate;
  /**
   * Least monthly mean of the surface refractivity, reduced to sea level, in N-units, 250 to 400. About 301 in a continental
   * temperate climate, 360 near the equator, 280 in a desert (from memory: the suggested values of the guide).
   */
  readonly seaLevelRefractivity: number;
  /**
   * Electrical constants of the ground.
   *
   * @defaultValue average ground: permittivity 15, conductivity 0.005 S/m (from memory: the suggested values of the guide)
   */
  readonly ground?: Ground | undefined;
  /**
   * Share of time in per cent for which the loss is not exceeded, above 0 to below 100.
   *
   * @defaultValue 50
   */
  readonly timePercent?: number | undefined;
  /**
   * Share of locations in per cent at which the loss is not exceeded, above 0 to below 100.
   *
   * @defaultValue 50
   */
  readonly locationPercent?: number | undefined;
  /**
   * Share of like situations in per cent in which the loss is not exceeded: how sure one wants to be. Above 0 to below 100.
   *
   * @defaultValue 50
   */
  readonly situationPercent?: number | undefined;
  /**
   * Which percentages count together.
   *
   * @defaultValue `broadcast`
   */
  readonly variabilityMode?: VariabilityMode | undefined;
  /**
   * Leaves the spread over locations out, as is usual where both ends stand at known places.
   *
   * @defaultValue false
   */
  readonly withoutLocationVariability?: boolean | undefined;
  /**
   * Leaves the direct spread over situations out, as is usual in questions of interference.
   *
   * @defaultValue false
   */
  readonly withoutSituationVariability?: boolean | undefined;
  /**
   * Paths shorter than 1 km or longer than 2000 km are refused, or calculated with a warning.
   *
   * @defaultValue `refuse`
   */
  readonly outsideValidity?: 'refuse' | 'allow' | undefined;
}
