import { type FieldRules, observationFields } from '../observationFields.js';
import type { ReceivedColumn, SurveyColumn } from '../SurveyColumns.js';

/**
 * Which column of a beacon's log holds which field. A field that is not named here is looked for under its own name
 * (`rssiDbm`) and under the same in lower case with underscores (`rssi_dbm`).
 */
export interface BeaconColumns {
  /** Column of the time: ISO 8601 with `Z` or an offset. */
  readonly timeUtc?: string | SurveyColumn | undefined;
  /** Column of the time in seconds since 1970-01-01T00:00:00Z; it counts where there is no `timeUtc`. */
  readonly timeSeconds?: string | SurveyColumn | undefined;
  /** Column of the frame counter; checked, and otherwise passed over. */
  readonly counter?: string | SurveyColumn | undefined;
  /** Column that tells received from missed: `1`, `true` or `yes` against `0`, `false` or `no`. */
  readonly received?: string | ReceivedColumn | undefined;
  /** Column of the packet RSSI in dBm. */
  readonly rssiDbm?: string | SurveyColumn | undefined;
  /** Column of the signal-to-noise ratio in dB. */
  readonly snrDb?: string | SurveyColumn | undefined;
  /** Column of the air temperature in degrees Celsius. */
  readonly temperatureC?: string | SurveyColumn | undefined;
}

/** How the fields of a beacon's log are read. */
export const beaconFields: FieldRules = {
  timeUtc: observationFields.timeUtc,
  timeSeconds: { kind: 'number', min: -4e9, max: 4e9, unit: 'seconds' },
  counter: observationFields.counter,
  received: observationFields.received,
  rssiDbm: observationFields.rssiDbm,
  snrDb: observationFields.snrDb,
  temperatureC: { kind: 'number', min: -90, max: 90, unit: 'degrees Celsius' },
};
