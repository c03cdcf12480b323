import type { Observation } from './Observation.js';
import { type RowReading, recordOf, refused, valuesOfRow } from './read/valuesOfRow.js';
import type { SurveyRow } from './SurveyTable.js';

/** How the rows of a walk log become observations. */
export interface ObservationReading extends RowReading {
  readonly receivedOnly: boolean;
}

/**
 * The observation in one row.
 *
 * @throws {@link InputError} whose `argument` is the field that is wrong
 */
export function observationOfRow(row: SurveyRow, reading: ObservationReading): Observation {
  const needed = reading.receivedOnly
    ? ['latitudeDeg', 'longitudeDeg']
    : ['latitudeDeg', 'longitudeDeg', 'received'];
  const values = valuesOfRow(row, reading, needed);
  if (reading.receivedOnly) {
    if (values.get('received') === false) throw refused('received', false, 'no missed frame (receivedOnly)');
    values.set('received', true);
  }
  const received = values.get('received') === true;
  if (received && reading.places.get('rssiDbm')?.inHeader === true && !values.has('rssiDbm')) {
    throw refused('rssiDbm', undefined, 'a level in dBm, since the frame was received');
  }
  for (const level of ['rssiDbm', 'snrDb']) {
    if (received || !values.has(level)) continue;
    throw refused(level, values.get(level), 'nothing, since the frame was missed');
  }
  return recordOf(values, row) as unknown as Observation;
}
