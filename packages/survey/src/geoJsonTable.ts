import { InputError } from '@finial/units';
import { jsonPlaces } from './jsonPlaces.js';
import type { BrokenRow, SurveyRow, SurveyTable } from './SurveyTable.js';

/** A cell for each feature and each name that occurs: features of ever other names would fill the memory with empty ones. */
const mostCells = 20_000_000;

/** Reads a GeoJSON FeatureCollection of Points as a table: position first, then one column per property that occurs. */
export function geoJsonTable(input: string, file: string): SurveyTable {
  const text = input.replace(/^\uFEFF/, '');
  const features = featuresOf(parsed(text, file), file);
  const lineAt = lineCounter(text);
  const places = jsonPlaces(text).features;
  const properties = [...new Set(features.flatMap((feature) => Object.keys(propertiesOf(feature))))];
  if (properties.length * features.length > mostCells) {
    throw new InputError({
      code: 'malformed-file',
      argument: 'properties',
      received: properties.length,
      expected: `properties of few names, for a table of at most ${mostCells} cells`,
      file,
    });
  }
  const rows: SurveyRow[] = [];
  const broken: BrokenRow[] = [];
  features.forEach((feature, index) => {
    const { start, end } = places[index] ?? { start: 0, end: 0 };
    const row = { line: lineAt(start), text: text.slice(start, end) };
    const position = pointOf(feature);
    if (position === undefined) {
      broken.push({
        ...row,
        field: 'geometry',
        expected: 'a Feature with a Point of longitude and latitude',
        received: row.text,
      });
      return;
    }
    const own = new Map(Object.entries(propertiesOf(feature)));
    rows.push({ ...row, cells: [...position, ...properties.map((name) => own.get(name))] });
  });
  return {
    header: ['longitude', 'latitude', ...properties],
    columnWord: 'property',
    headerLine: undefined,
    positionFirst: true,
    rows,
    broken,
  };
}

function parsed(text: string, file: string): unknown {
  try {
    return JSON.parse(text);
  } catch (cause) {
    const fault = jsonPlaces(text).fault;
    const at = fault?.at ?? 0;
    const before = text.slice(0, at).split('\n');
    throw new InputError(
      {
        code: 'malformed-file',
        argument: '',
        expected: fault === undefined ? 'JSON' : `JSON with ${fault.expected} here`,
        received: text === '' ? undefined : text.slice(at, at + 30),
        file,
        line: fault === undefined ? undefined : before.length,
        column: fault === undefined ? undefined : (before.at(-1)?.length ?? 0) + 1,
      },
      { cause },
    );
  }
}

function featuresOf(collection: unknown, file: string): readonly unknown[] {
  if (
    isRecord(collection) &&
    collection['type'] === 'FeatureCollection' &&
    Array.isArray(collection['features'])
  ) {
    return collection['features'];
  }
  throw new InputError({
    code: 'malformed-file',
    argument: 'type',
    expected: 'a FeatureCollection with a list of features',
    received: isRecord(collection) ? collection['type'] : collection,
    file,
  });
}

function propertiesOf(feature: unknown): Record<string, unknown> {
  const properties = isRecord(feature) ? feature['properties'] : undefined;
  return isRecord(properties) ? properties : {};
}

/** Longitude and latitude; a height is not read. Their range is checked with the other fields. */
function pointOf(feature: unknown): readonly [unknown, unknown] | undefined {
  if (!isRecord(feature) || feature['type'] !== 'Feature') return undefined;
  const geometry = feature['geometry'];
  if (!isRecord(geometry) || geometry['type'] !== 'Point') return undefined;
  const coordinates = geometry['coordinates'];
  if (!Array.isArray(coordinates) || coordinates.length < 2) return undefined;
  return [coordinates[0], coordinates[1]];
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Line of a place in the text; places are asked for in rising order, so each line end is passed once. */
function lineCounter(text: string): (at: number) => number {
  let line = 1;
  let passed = 0;
  return (at) => {
    for (;;) {
      const end = text.indexOf('\n', passed);
      if (end === -1 || end >= at) return line;
      line += 1;
      passed = end + 1;
    }
  };
}
