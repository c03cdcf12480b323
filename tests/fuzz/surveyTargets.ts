import { deepStrictEqual } from 'node:assert';
import {
  type Observation,
  readBeacon,
  readSurvey,
  readSurveyStream,
  readTrack,
  readUplinks,
  surveyCsv,
} from '@finial/survey';
import { isInputError } from '@finial/units';
import papaparse from 'papaparse';
import { exampleText } from './examples.js';
import { mutatedText, mutatedValue, numeral, word } from './mutations.js';
import type { Random } from './Random.js';
import type { Target } from './Target.js';

const fields = [
  'timeUtc',
  'spot',
  'latitudeDeg',
  'longitudeDeg',
  'counter',
  'spreadingFactor',
  'bandwidthHz',
  'frequencyHz',
  'received',
  'rssiDbm',
  'snrDb',
  'conductedPowerDbm',
  'distanceM',
  'device',
  'gateway',
  'dataRate',
  'elevationM',
  'segmentIndex',
  'temperatureC',
  '__proto__',
  'constructor',
  'toString',
] as const;

function cell(field: string, random: Random): string {
  if (random.chance(0.02)) return random.chance(0.5) ? word(random) : numeral(random);
  switch (field) {
    case 'timeUtc':
      return `2024-0${random.whole(1, 9)}-${random.whole(10, 31)}T0${random.whole(0, 9)}:${random.whole(10, 59)}:00${random.pick(['Z', '+02:00', '', '.5Z'])}`;
    case 'latitudeDeg':
      return (random.ratio() * 180 - 90).toFixed(random.whole(0, 9));
    case 'longitudeDeg':
      return (random.ratio() * 360 - 180).toFixed(random.whole(0, 9));
    case 'received':
      return random.pick(['1', '1', 'true', '0', 'no', '']);
    case 'rssiDbm':
      return random.pick(['-100', '-87.5', '', '']);
    case 'snrDb':
      return random.pick(['-5', '7.25', '', '']);
    case 'spreadingFactor':
      return String(random.whole(5, 12));
    case 'bandwidthHz':
      return '125000';
    case 'frequencyHz':
      return '868100000';
    case 'spot':
    case 'device':
    case 'gateway':
      return random.pick(['mill', 'a b', '"a,b"', word(random)]);
    default:
      return String(random.whole(0, 99));
  }
}

function columnsOf(needed: readonly string[], random: Random): readonly string[] {
  const others = random.several(6, () => random.pick(fields));
  const names = random.chance(0.95) ? [...new Set([...needed, ...others])] : others;
  return random.chance(0.5) ? names : names.toReversed();
}

function csv(needed: readonly string[], random: Random): string {
  const separator = random.pick([',', ',', ',', ';', '\t', '|']);
  const names = columnsOf(needed, random);
  const rows = random.several(10, () => names.map((name) => cell(name, random)).join(separator));
  return [names.join(separator), ...rows, ''].join(random.pick(['\n', '\n', '\r\n', '\r']));
}

function record(names: readonly string[], random: Random): Record<string, unknown> {
  const entries = names.map((name): [string, unknown] => {
    const text = cell(name, random);
    return [name, text !== '' && Number.isFinite(Number(text)) && random.chance(0.8) ? Number(text) : text];
  });
  return mutatedValue(Object.fromEntries(entries), random) as Record<string, unknown>;
}

function json(value: unknown): string {
  return JSON.stringify(value, (_, item: unknown) => (typeof item === 'bigint' ? Number(item) : item)) ?? '';
}

function ndjson(needed: readonly string[], random: Random): string {
  const names = columnsOf(needed, random);
  return random.several(8, () => json(record(names, random))).join('\n');
}

function geoJson(random: Random): string {
  const names = columnsOf(['received'], random).filter((name) => !name.endsWith('tudeDeg'));
  const features = random.several(8, () => ({
    type: 'Feature',
    geometry: {
      type: random.chance(0.95) ? 'Point' : 'LineString',
      coordinates: [Number(cell('longitudeDeg', random)), Number(cell('latitudeDeg', random)), 5],
    },
    properties: record(names, random),
  }));
  const collection = { type: 'FeatureCollection', features };
  const value = random.chance(0.7) ? collection : mutatedValue(collection, random);
  return random.chance(0.5) ? json(value) : JSON.stringify(JSON.parse(json(value) || 'null'), null, 2);
}

function gpx(random: Random): string {
  const entities = random.pick([
    '',
    '',
    '<!DOCTYPE gpx [<!ENTITY lol "lol"><!ENTITY lol9 "&lol;&lol;&lol;&lol;&lol;&lol;&lol;&lol;">]>',
    '<!DOCTYPE gpx SYSTEM "file:///etc/passwd">',
    '<!DOCTYPE gpx [<!ENTITY % x SYSTEM "http://localhost/x"> %x;]>',
  ]);
  const point = () => {
    const extra = random.pick([
      '',
      '<extensions><trkpt lat="1" lon="1"><time>x</time></trkpt></extensions>',
      '<name>&lol9;</name>',
      '<![CDATA[x]]>',
    ]);
    const name = random.pick(['trkpt', 'trkpt', 'trkpt', 'g:trkpt', 'wpt', 'rtept']);
    return `<${name} lat="${cell('latitudeDeg', random)}" lon="${cell('longitudeDeg', random)}" ${random.pick(['', '__proto__="1"', 'constructor="1"'])}><ele>${numeral(random)}</ele><time>${cell('timeUtc', random)}</time>${extra}</${name}>`;
  };
  const segments = random.several(4, () => `<trkseg>${random.several(6, point).join('\n')}</trkseg>`);
  return `${random.pick(['<?xml version="1.0"?>', '', '<?xml version="1.1" encoding="UTF-16"?>'])}${entities}<gpx>\n<trk>${segments.join('\n')}</trk></gpx>`;
}

function options(random: Random, formats: readonly string[]): Record<string, unknown> {
  return {
    onBadRow: random.pick(['skip', 'throw']),
    ...(random.chance(0.2) && { decimal: ',' }),
    ...(random.chance(0.1) && { commentPrefix: '#' }),
    ...(random.chance(0.1) && { separator: random.pick([',', ';', '\t', ' ', '\0', 'ab']) }),
    ...(random.chance(0.2) && { format: random.pick(formats) }),
  };
}

/** Mutated tables of a kind, with the rows of an example among them. */
function tables(
  needed: readonly string[],
  seed: string | undefined,
  random: Random,
  others: readonly ((random: Random) => string)[],
): string {
  if (seed !== undefined && random.chance(0.1)) {
    return mutatedText(exampleText(seed).slice(0, random.whole(100, 2000)), random);
  }
  const make = random.pick([
    csv,
    ndjson,
    ...others.map((other) => (_: readonly string[], draw: Random) => other(draw)),
  ]);
  return mutatedText(make(needed, random), random);
}

const ofObservation = ['latitudeDeg', 'longitudeDeg', 'received'];

const surveyArgs = (random: Random): readonly unknown[] => [
  tables(ofObservation, 'walk.csv', random, [geoJson]),
  {
    ...options(random, ['csv', 'geojson', 'ndjson']),
    ...(random.chance(0.2) && { receivedOnly: true }),
    ...(random.chance(0.2) && { absentIsZero: ['snrDb'] }),
    ...(random.chance(0.1) && {
      columns: random.pick([{ spot: '__proto__' }, { spot: 'constructor.name' }, { spot: 'device' }]),
    }),
  },
];

/** The text in pieces, which must give what the whole gives. */
async function readBothWays(
  text: string,
  settings: Record<string, unknown>,
  pieceLength: number,
): Promise<unknown> {
  const whole = await outcomeOf(() => readSurvey(text, settings).observations);
  const streamed = await outcomeOf(async () => {
    const items: Observation[] = [];
    for await (const item of readSurveyStream(piecesOf(text, pieceLength), settings as { format: 'csv' }))
      items.push(item);
    return items;
  });
  deepStrictEqual(streamed, whole);
  return whole;
}

async function outcomeOf(read: () => unknown): Promise<unknown> {
  try {
    return await read();
  } catch (error) {
    if (isInputError(error)) return 'refused';
    throw error;
  }
}

async function* piecesOf(text: string, length: number): AsyncGenerator<string> {
  for (let at = 0; at < text.length; at += length) yield text.slice(at, at + length);
}

function hostileObservations(random: Random): readonly unknown[] {
  const text = () =>
    random.pick([
      '=1+1',
      '-5',
      '+5e3',
      '-5.5',
      word(random)
        .trim()
        .replace(/\p{Surrogate}/gu, ''),
      'a\r\nb',
      'x',
    ]);
  const spot = () => `${random.pick(['', "'", "''", '=', '+', '-', '@', '\t', '\r'])}${text()}`;
  const observations = Array.from({ length: random.whole(1, 4) }, () => ({
    latitudeDeg: random.whole(-90, 90),
    longitudeDeg: random.whole(-180, 180),
    received: random.chance(0.5),
    spot: spot(),
  }));
  return [observations, { separator: random.pick([',', ';', '\t', '|', '#']) }];
}

/** Text fields come back as they were, whatever a spreadsheet would make of them; outer blanks and line ends are the reader's. */
function writeAndRead(observations: readonly Observation[], settings: { separator: string }): unknown {
  const text = surveyCsv(observations, settings);
  const kept = observations.map((one) => ({
    ...one,
    spot: one.spot?.replace(/\r\n?/g, '\n').trimEnd() || undefined,
  }));
  const read = readSurvey(text, { ...settings, format: 'csv' }).observations;
  deepStrictEqual(
    read.map(({ line: _, ...one }) => ({ ...one, spot: one.spot })),
    kept,
  );
  const { data } = papaparse.parse<string[]>(text, { delimiter: settings.separator, newline: '\r\n' });
  for (const cell of data.flat()) {
    if (/^[=+\-@\t\r\n]/.test(cell) && cell.trim() !== '' && !/^[+-]?\d+(\.\d+)?$/.test(cell))
      throw new Error(`begins a formula: ${cell}`);
  }
  return read;
}

export const surveyTargets: readonly Target[] = [
  { name: 'text.readSurvey', args: surveyArgs, call: readSurvey as Target['call'] },
  {
    name: 'text.readSurveyStream',
    args: (random) => {
      const format = random.pick(['csv', 'ndjson']);
      const text = format === 'csv' ? csv(ofObservation, random) : ndjson(ofObservation, random);
      const onBadRow = random.pick(['skip', 'throw']);
      return [mutatedText(text, random), { format, onBadRow }, random.pick([1, 3, 50, 100_000])];
    },
    call: readBothWays,
  },
  {
    name: 'text.readTrack',
    args: (random) => {
      const needed = ['timeUtc', 'latitudeDeg', 'longitudeDeg'];
      const text = random.chance(0.6)
        ? mutatedText(gpx(random), random)
        : tables(needed, undefined, random, [gpx]);
      return [text, options(random, ['gpx', 'csv', 'ndjson'])];
    },
    call: readTrack as Target['call'],
  },
  {
    name: 'text.readUplinks',
    args: (random) => {
      const each = random.chance(0.2) ? { each: random.pick(['gateways', '__proto__', 'a.b', 'spot']) } : {};
      return [tables(['timeUtc'], undefined, random, []), { ...options(random, ['csv', 'ndjson']), ...each }];
    },
    call: readUplinks as Target['call'],
  },
  {
    name: 'text.readBeacon',
    args: (random) => [
      tables(['timeUtc', 'received', 'rssiDbm'], 'beacon.csv', random, []),
      options(random, ['csv', 'ndjson']),
    ],
    call: readBeacon as Target['call'],
  },
  { name: 'text.surveyCsv', args: hostileObservations, call: writeAndRead },
];
