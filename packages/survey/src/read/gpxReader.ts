import { InputError, isInputError } from '@finial/units';
import { SaxesParser } from 'saxes';
import type { ColumnPlace } from '../surveyColumnPlaces.js';
import { type SkippedRow, skippedRow } from './readTable.js';
import { neededOfTrackPoint, type TrackPoint, trackFields } from './TrackPoint.js';
import { recordOf, refused, valuesOfRow } from './valuesOfRow.js';

/** A reader that takes the text of a GPX file piece by piece. */
export interface GpxReader {
  /** @throws {@link InputError} `malformed-file` where the text stops being XML, is no GPX, or has a bad point with `'throw'` */
  readonly write: (text: string) => void;
  /** Ends the text. @throws {@link InputError} as `write` */
  readonly close: () => void;
  readonly points: readonly TrackPoint[];
  readonly skipped: readonly SkippedRow[];
}

/** What is gathered of one point. */
interface OpenPoint {
  readonly line: number;
  readonly column: number;
  /** How many elements stand around it. */
  readonly depth: number;
  readonly element: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly inner: Record<string, string>;
}

/** Deeper than any recorder nests; a file of opening tags alone would fill the memory with them. */
const deepestElement = 1000;

/** What GPX calls the fields. */
const gpxNames = { timeUtc: '<time>', latitudeDeg: 'lat', longitudeDeg: 'lon', elevationM: '<ele>' } as const;

/** Reads track points out of GPX. Prefixes of names are passed over, and so is all that stands within `extensions`. */
export function gpxReader(file: string, onBadRow: 'throw' | 'skip'): GpxReader {
  const points: TrackPoint[] = [];
  const skipped: SkippedRow[] = [];
  const open: string[] = [];
  let extensions = 0;
  let segmentIndex = -1;
  let point: OpenPoint | undefined;
  const places = gpxPlaces();
  const xml = new SaxesParser({ position: true, xmlns: false });

  const malformed = (expected: string, received: unknown, cause?: unknown): InputError => {
    const place = { file, line: xml.line, column: xml.columnIndex + 1 };
    const detail = { argument: '', received, expected, ...place };
    return new InputError({ code: 'malformed-file', ...detail }, { cause });
  };
  xml.on('error', (cause) => {
    throw malformed('well-formed XML', cause.message.replace(/^\d+:\d+: /, ''), cause);
  });
  let pointStart = { line: 1, column: 1 };
  xml.on('opentagstart', ({ name }) => {
    // The parser stands behind the name and the sign after it.
    pointStart = { line: xml.line, column: Math.max(xml.columnIndex - name.length - 1, 1) };
  });
  xml.on('opentag', ({ name, attributes }) => {
    const element = localName(name);
    if (open.length === 0 && element !== 'gpx') throw malformed('an element <gpx>', `<${element}>`);
    if (open.length === deepestElement)
      throw malformed(`at most ${deepestElement} levels of elements`, `<${element}>`);
    if (extensions === 0 && element === 'trkseg') segmentIndex += 1;
    if (extensions === 0 && isPoint(element)) {
      point = { ...pointStart, depth: open.length, element, attributes, inner: {} };
    }
    if (element === 'extensions') extensions += 1;
    open.push(element);
  });
  const take = (text: string): void => {
    const element = open.at(-1) ?? '';
    if (point === undefined || open.length !== point.depth + 2) return;
    if (element === 'time' || element === 'ele') point.inner[element] = (point.inner[element] ?? '') + text;
  };
  xml.on('text', take);
  xml.on('cdata', take);
  xml.on('closetag', () => {
    if (open.pop() === 'extensions') extensions -= 1;
    if (point === undefined || open.length !== point.depth) return;
    const ended = point;
    point = undefined;
    try {
      points.push(trackPointOf(ended, segmentIndex, places));
    } catch (cause) {
      if (!isInputError(cause)) throw cause;
      const error = placedPoint(cause, ended, file);
      if (onBadRow === 'throw' && ended.element === 'trkpt') throw error;
      skipped.push(skippedRow(error, shownPoint(ended)));
    }
  });
  return {
    points,
    skipped,
    write: (text) => {
      xml.write(text);
    },
    close: () => {
      xml.close();
    },
  };
}

function isPoint(element: string): boolean {
  return element === 'trkpt' || element === 'rtept' || element === 'wpt';
}

function localName(name: string): string {
  return name.slice(name.indexOf(':') + 1);
}

function trackPointOf(
  { element, attributes, inner, line }: OpenPoint,
  segmentIndex: number,
  places: ReadonlyMap<string, ColumnPlace>,
): TrackPoint {
  if (element !== 'trkpt')
    throw refused('', `<${element}>`, 'a track point: places without a way are not read');
  const cells = [inner['time'], attributes['lat'], attributes['lon'], inner['ele']];
  const row = { line, cells, text: '' };
  const values = valuesOfRow(
    row,
    { places, decimal: '.', isGuarded: false, absentIsZero: [] },
    neededOfTrackPoint,
  );
  return { ...recordOf(values, row), segmentIndex } as unknown as TrackPoint;
}

function gpxPlaces(): ReadonlyMap<string, ColumnPlace> {
  const places = Object.entries(gpxNames).map(([field, name], index): [string, ColumnPlace] => {
    const rule = trackFields[field] ?? { kind: 'text' };
    return [field, { field, rule, index, name, inverted: false, inHeader: true }];
  });
  return new Map(places);
}

function placedPoint(cause: InputError, { line, column }: OpenPoint, file: string): InputError {
  const { argument, received, expected } = cause;
  const name = Object.entries(gpxNames).find(([field]) => field === argument)?.[1];
  return new InputError(
    {
      code: 'malformed-file',
      argument,
      received,
      expected: name === undefined ? expected : `${expected} (${name})`,
      file,
      line,
      column,
    },
    { cause },
  );
}

function shownPoint({ element, attributes, inner }: OpenPoint): string {
  const written = Object.entries(attributes).map(([name, value]) => ` ${name}="${value}"`);
  const content = Object.entries(inner).map(([name, text]) => `<${name}>${text}</${name}>`);
  return `<${element}${written.join('')}>${content.join('')}</${element}>`;
}
