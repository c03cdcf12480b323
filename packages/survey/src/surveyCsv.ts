import { checkObject, InputError } from '@finial/units';
import { checkObservations } from './checkObservations.js';
import { withGuard } from './formulaGuard.js';
import type { Observation } from './Observation.js';
import { observationFields, type SurveyField } from './observationFields.js';

/** How to write a walk log. */
export interface SurveyCsvOptions {
  /** One character between fields: no letter, digit, quote, apostrophe, line end or sign of a number or formula. @defaultValue `','` */
  readonly separator?: string | undefined;
}

/**
 * Observations as CSV text that {@link readSurvey} reads back to the same observations.
 *
 * Columns carry the fields' names; a field that no observation has gets no column. Numbers are written in full, with a
 * decimal point. The place in the source (`line`) is not written.
 *
 * Text that begins with `=`, `+`, `-`, `@`, a tab or a carriage return and is no plain number gets an apostrophe before it, so that a
 * spreadsheet does not run it as a formula; {@link readSurvey} takes that apostrophe off.
 *
 * @param observations - at least one
 * @returns a header line and one line per observation, each ended by CRLF
 * @throws {@link InputError} `wrong-type`, `missing` (no observation) or `unknown-option` (separator)
 * @source RFC 4180 (October 2005)
 * @example
 * ```ts
 * import { surveyCsv } from '@finial/survey';
 *
 * const missed = { latitudeDeg: 45.7, longitudeDeg: 4.9, received: false };
 * surveyCsv([missed]); // → 'latitudeDeg,longitudeDeg,received\r\n45.7,4.9,0\r\n'
 * ```
 */
export function surveyCsv(observations: readonly Observation[], options: SurveyCsvOptions = {}): string {
  const { separator = ',' } = checkObject(options, 'options');
  if (typeof separator !== 'string' || !/^[^"'=@\r\n\p{L}\p{N}.+-]$/u.test(separator)) {
    throw new InputError({
      code: 'unknown-option',
      argument: 'separator',
      received: separator,
      expected:
        'one character that is no letter, digit, quote, apostrophe, line end or sign of a number or formula',
    });
  }
  checkObservations(observations);
  const fields = (Object.keys(observationFields) as SurveyField[]).filter((field) =>
    observations.some((observation) => observation[field] !== undefined),
  );
  const lines = observations.map((observation) =>
    fields.map((field) => written(observation[field], separator)).join(separator),
  );
  return [fields.join(separator), ...lines, ''].join('\r\n');
}

function written(value: string | number | boolean | undefined, separator: string): string {
  if (value === undefined) return '';
  if (typeof value === 'boolean') return value ? '1' : '0';
  // Text comes from whoever wrote the log, and the file may be opened in a spreadsheet.
  const text = typeof value === 'string' ? withGuard(value) : String(value);
  // Anything but a plain word is quoted, which also keeps a name such as '#4' from looking like a comment.
  return /^[\w.:+-]*$/.test(text) && !text.includes(separator) ? text : `"${text.replaceAll('"', '""')}"`;
}
