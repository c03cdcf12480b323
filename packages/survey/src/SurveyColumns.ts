/** A column by its name alone, or with what its cells need to become the field. */
export interface SurveyColumn {
  /** Name of the column in the header line, or of the GeoJSON property. */
  readonly column: string;
}

/** A column that holds a distance. */
export interface DistanceColumn extends SurveyColumn {
  /** Unit of the cells. @defaultValue `'m'` */
  readonly unit?: 'm' | 'km' | 'ft' | 'mi' | undefined;
}

/** A column that holds a frequency or a bandwidth. */
export interface FrequencyColumn extends SurveyColumn {
  /** Unit of the cells. @defaultValue `'Hz'` */
  readonly unit?: 'Hz' | 'kHz' | 'MHz' | 'GHz' | undefined;
}

/** A column that holds a transmit power. */
export interface PowerColumn extends SurveyColumn {
  /** Unit of the cells. @defaultValue `'dBm'` */
  readonly unit?: 'dBm' | 'mW' | 'W' | undefined;
}

/** A column that tells whether the frame came through. */
export interface ReceivedColumn extends SurveyColumn {
  /** True where the column marks the missed frames (`lost`, `censored`). @defaultValue `false` */
  readonly inverted?: boolean | undefined;
}

/**
 * Which column holds which field of an observation. A field that is not named here is looked for under its own name
 * (`latitudeDeg`) and under the same in lower case with underscores (`latitude_deg`).
 */
export interface SurveyColumns {
  /** Column of the time: ISO 8601 with `Z` or an offset; turned into UTC. */
  readonly timeUtc?: string | SurveyColumn | undefined;
  /** Column of the spot's name; spaces around it are cut. */
  readonly spot?: string | SurveyColumn | undefined;
  /** Column of the latitude in degrees. Not for GeoJSON, whose geometry holds it. */
  readonly latitudeDeg?: string | SurveyColumn | undefined;
  /** Column of the longitude in degrees. Not for GeoJSON, whose geometry holds it. */
  readonly longitudeDeg?: string | SurveyColumn | undefined;
  /** Column of the frame counter. */
  readonly counter?: string | SurveyColumn | undefined;
  /** Column of the spreading factor, a bare number. */
  readonly spreadingFactor?: string | SurveyColumn | undefined;
  /** Column of the bandwidth. */
  readonly bandwidthHz?: string | FrequencyColumn | undefined;
  /** Column of the carrier frequency. */
  readonly frequencyHz?: string | FrequencyColumn | undefined;
  /** Column that tells received from missed: `1`, `true` or `yes` against `0`, `false` or `no`. */
  readonly received?: string | ReceivedColumn | undefined;
  /** Column of the packet RSSI in dBm. */
  readonly rssiDbm?: string | SurveyColumn | undefined;
  /** Column of the signal-to-noise ratio in dB. */
  readonly snrDb?: string | SurveyColumn | undefined;
  /** Column of the power at the node's antenna connector. */
  readonly conductedPowerDbm?: string | PowerColumn | undefined;
  /** Column of the distance over ground to the gateway. */
  readonly distanceM?: string | DistanceColumn | undefined;
}
