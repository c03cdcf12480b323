import { checkObject, checkOneOf, InputError } from '@finial/units';
import type { SurveyColumn } from '../SurveyColumns.js';
import { wantedColumns } from '../surveyColumnPlaces.js';
import { gpxReader } from './gpxReader.js';
import { checkText, type ReadTableOptions, type TableSettings, tableSettings } from './ReadTableOptions.js';
import { formatOf, needColumns, readRecords } from './readRecords.js';
import type { SkippedRow, TableKind } from './readTable.js';
import { neededOfTrackPoint, type TrackPoint, trackFields } from './TrackPoint.js';
import { isChunks, type TextChunks, textOfChunks, wholeText } from './textLines.js';
import { recordOf, valuesOfRow } from './valuesOfRow.js';

/** Which column, or dotted path of NDJSON, holds which field of a track point. */
export interface TrackColumns {
  /** Time: ISO 8601 with `Z` or an offset; turned into UTC. */
  readonly timeUtc?: string | SurveyColumn | undefined;
  /** Latitude in degrees. */
  readonly latitudeDeg?: string | SurveyColumn | undefined;
  /** Longitude in degrees. */
  readonly longitudeDeg?: string | SurveyColumn | undefined;
  /** Elevation in metres. */
  readonly elevationM?: string | SurveyColumn | undefined;
  /** Number of the segment, from 0. */
  readonly segmentIndex?: string | SurveyColumn | undefined;
}

/** How to read a track. */
export interface ReadTrackOptions extends ReadTableOptions {
  /** Format of the text. @defaultValue what it begins with: `<` is GPX, a brace NDJSON, else CSV; in pieces: GPX */
  readonly format?: 'gpx' | 'csv' | 'ndjson' | undefined;
  /** Where each field stands in CSV or NDJSON. @defaultValue under the fields' own names */
  readonly columns?: TrackColumns | undefined;
}

/** What {@link readTrack} returns. */
export interface Track {
  /** One per good point, in the order of the file. */
  readonly points: readonly TrackPoint[];
  /** What was left out, in the order of the file; waypoints and route points of GPX are always listed here. */
  readonly skipped: readonly SkippedRow[];
  /** Points in the file: those read and those left out together. */
  readonly rows: number;
}

/**
 * Reads the track of a walk from GPX, CSV or NDJSON: where the walker was, and when.
 *
 * Of GPX it takes the track points with their time, place and elevation, all tracks and segments after each other; what stands
 * within `extensions` (heart rate and the like) is passed over. A point without a time or outside the earth is a bad row. Points
 * are handed out in the order of the file, whatever their times; {@link joinTrack} sorts them. Entities of a document type are not
 * expanded.
 *
 * @param input - the text, up to `maximumCharacters`, or pieces of text or of UTF-8 bytes; GPX in pieces may have any length,
 * since only the points are kept
 * @returns points, what was skipped, and how many there were; for pieces a promise of the same
 * @throws {@link InputError} `malformed-file` with file, line and column for what is not well-formed XML or not GPX, for a bad
 * point, a missing column and a file without points; `unknown-option`, `wrong-type` or `out-of-range` for the options
 * @source GPX 1.1 schema (topografix.com/GPX/1/1), types trkType, trksegType, wptType; GPX 1.0 has the same track points
 * @example
 * ```ts
 * import { readTrack } from '@finial/survey';
 *
 * const gpx = '<gpx><trk><trkseg><trkpt lat="45.7039" lon="4.9390"><time>2024-07-24T05:42:50Z</time></trkpt></trkseg></trk></gpx>';
 * readTrack(gpx).points;
 * // → [{ timeUtc: '2024-07-24T05:42:50Z', latitudeDeg: 45.7039, longitudeDeg: 4.939, line: 1, segmentIndex: 0 }]
 * ```
 */
export function readTrack(input: string, options?: ReadTrackOptions): Track;
/** The same for pieces of text or of UTF-8 bytes. */
export function readTrack(input: TextChunks, options?: ReadTrackOptions): Promise<Track>;
export function readTrack(
  input: string | TextChunks,
  options: ReadTrackOptions = {},
): Track | Promise<Track> {
  const { columns = {}, format, ...table } = checkObject(options, 'options');
  const settings = tableSettings(table, 'track');
  if (format !== undefined) checkOneOf(format, 'format', ['gpx', 'csv', 'ndjson']);
  const reading = { settings, columns, wanted: wantedColumns(columns, trackFields) };
  if (!isChunks(input)) {
    return trackOfText(checkText(input, settings, 'a track'), format, reading);
  }
  return format === undefined || format === 'gpx'
    ? gpxOfChunks(input, reading)
    : wholeText(input, settings.maximumCharacters, settings.file).then((text) =>
        trackOfText(checkText(text, settings, 'a track'), format, reading),
      );
}

interface TrackReading {
  readonly settings: TableSettings;
  readonly columns: TrackColumns;
  readonly wanted: ReturnType<typeof wantedColumns>;
}

function trackOfText(text: string, format: ReadTrackOptions['format'], reading: TrackReading): Track {
  const { settings, wanted } = reading;
  const named = format ?? (text.trimStart().startsWith('<') ? 'gpx' : undefined);
  if (named === 'gpx') {
    const reader = openGpx(reading);
    reader.write(text.replace(/^\uFEFF/, ''));
    return trackOfGpx(reader, settings);
  }
  const known = formatOf(text, named, ['csv', 'ndjson']);
  const source = { kind: trackKind, format: known, wanted, each: undefined, absentIsZero: [], settings };
  const { items, skipped } = readRecords(text, source);
  return { points: items, skipped, rows: items.length + skipped.length };
}

async function gpxOfChunks(chunks: TextChunks, reading: TrackReading): Promise<Track> {
  const reader = openGpx(reading);
  for await (const text of textOfChunks(chunks, reading.settings.file)) reader.write(text);
  return trackOfGpx(reader, reading.settings);
}

function openGpx({ settings, wanted }: TrackReading): ReturnType<typeof gpxReader> {
  const [field] = wanted.keys();
  if (field === undefined) return gpxReader(settings.file, settings.onBadRow);
  throw new InputError({
    code: 'unknown-option',
    argument: `columns.${field}`,
    received: wanted.get(field)?.column,
    expected: 'nothing, since GPX names its own fields',
  });
}

function trackOfGpx(reader: ReturnType<typeof gpxReader>, { file }: TableSettings): Track {
  reader.close();
  const { points, skipped } = reader;
  const rows = points.length + skipped.length;
  if (rows > 0) return { points, skipped, rows };
  const expected = 'at least one track point <trkpt>';
  throw new InputError({ code: 'malformed-file', argument: '', received: undefined, expected, file });
}

const trackKind: TableKind<TrackPoint> = {
  rules: trackFields,
  checkColumns: (table, places, file) => needColumns(neededOfTrackPoint, table, places, file),
  itemOfRow: (row, reading) =>
    recordOf(valuesOfRow(row, reading, neededOfTrackPoint), row) as unknown as TrackPoint,
};
