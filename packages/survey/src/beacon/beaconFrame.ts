import { effectiveSignalPowerDbm } from '../effectiveSignalPower.js';
import { type RowReading, refused, valuesOfRow } from '../read/valuesOfRow.js';
import type { SurveyRow } from '../SurveyTable.js';
import type { ColumnPlace } from '../surveyColumnPlaces.js';

/** One row of a beacon's log. */
export interface BeaconFrame {
  readonly timeSeconds: number;
  /** Absent where the frame was missed. */
  readonly levelDbm?: number | undefined;
  readonly temperatureC?: number | undefined;
  /** True where the level is the signal's own. */
  readonly hasSnr: boolean;
  readonly row: SurveyRow;
  /** Where its time stands. */
  readonly timePlace: ColumnPlace;
}

/**
 * The frame in one row.
 *
 * @throws {@link InputError} whose `argument` is the field that is wrong
 */
export function beaconFrameOfRow(row: SurveyRow, reading: RowReading): BeaconFrame {
  const { places } = reading;
  // The columns were checked: one of the two is there.
  const timePlace = (places.get('timeUtc') ?? places.get('timeSeconds')) as ColumnPlace;
  const needed = [timePlace.field, ...(places.has('received') ? ['received'] : [])];
  const values = valuesOfRow(row, reading, needed);
  const common = { timeSeconds: timeOf(values, timePlace), row, timePlace };
  const rssiDbm = values.get('rssiDbm') as number | undefined;
  const snrDb = values.get('snrDb') as number | undefined;
  if (values.get('received') === false) {
    for (const level of ['rssiDbm', 'snrDb']) {
      if (values.has(level)) throw refused(level, values.get(level), 'nothing, since the frame was missed');
    }
    return { ...common, hasSnr: false };
  }
  if (rssiDbm === undefined) {
    throw refused('rssiDbm', undefined, 'a level in dBm, since the frame was received');
  }
  return {
    ...common,
    levelDbm: levelOf(rssiDbm, snrDb),
    temperatureC: values.get('temperatureC') as number | undefined,
    hasSnr: snrDb !== undefined,
  };
}

function timeOf(values: ReadonlyMap<string, unknown>, { field }: ColumnPlace): number {
  const value = values.get(field);
  const timeSeconds = typeof value === 'string' ? Date.parse(value) / 1000 : (value as number);
  if (Math.abs(timeSeconds) <= 4e9) return timeSeconds;
  throw refused(field, value, 'a time from 1843-03-31 to 2096-10-02');
}

function levelOf(rssiDbm: number, snrDb: number | undefined): number {
  const levelDbm = snrDb === undefined ? rssiDbm : effectiveSignalPowerDbm({ rssiDbm, snrDb });
  if (levelDbm >= -250) return levelDbm;
  throw refused('rssiDbm', rssiDbm, 'a level that with its SNR leaves a signal of -250 dBm or more');
}
