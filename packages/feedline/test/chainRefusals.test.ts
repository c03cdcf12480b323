import { type ChainPart, checkChain, mates, partEnd } from '@finial/feedline';
import { describe, expect, test } from 'vitest';
import { adapter, aJack, aPlug, cable, catalogue, pigtail } from './byHand.js';

const conditions = { frequencyHz: 1e9, catalogue: catalogue() };
const ends = [aPlug, aJack] as const;
const run = { kind: 'cable-run', cable, lengthM: 1, ends } as const;
const tail = pigtail('tail', ends, 0.3);
const { kind: _kind, ...twoEnded } = adapter('joint', ends);
const joint = { ...twoEnded, kind: 'adapter' } as const;
const arrestor = {
  ...twoEnded,
  kind: 'arrestor',
  passesDirectCurrent: true,
  principle: 'gas-discharge',
} as const;
const port = { kind: 'port', name: 'radio', end: aPlug } as const;

/** What a JavaScript caller can get wrong in each part: code, place in the part, the part. */
const broken: readonly (readonly [string, string, unknown])[] = [
  ['wrong-type', '', null],
  ['wrong-type', '', 5],
  ['unknown-option', '.kind', { ...joint, kind: 'wire' }],
  ['wrong-type', '.name', { ...port, name: 5 }],
  ['wrong-type', '.name', { ...port, name: '' }],
  ['wrong-type', '.end', { ...port, end: 'SMA' }],
  ['wrong-type', '.ends', { ...joint, ends: undefined }],
  ['wrong-type', '.ends', { ...joint, ends: 'to' }],
  ['wrong-type', '.ends', { ...joint, ends: [aPlug] }],
  ['wrong-type', '.ends', { ...joint, ends: [aPlug, aJack, aPlug] }],
  ['wrong-type', '.ends[1]', { ...joint, ends: [aPlug, null] }],
  ['wrong-type', '.designation', { ...joint, designation: ' ' }],
  ['wrong-type', '.source', { ...joint, source: undefined }],
  ['unknown-option', '.status', { ...joint, status: 'guessed' }],
  ['out-of-range', '.lossDb', { ...joint, lossDb: -0.2 }],
  ['out-of-range', '.lossDb', { ...joint, lossDb: 61 }],
  ['out-of-range', '.lossUncertaintyDb', { ...joint, lossUncertaintyDb: 21 }],
  ['not-a-finite-number', '.lowestFrequencyHz', { ...joint, lowestFrequencyHz: Number.NaN }],
  ['out-of-range', '.highestFrequencyHz', { ...joint, lowestFrequencyHz: 2e9, highestFrequencyHz: 1e9 }],
  ['wrong-type', '.cable', { ...tail, cable: cable }],
  ['wrong-type', '.cable', { ...tail, cable: '' }],
  ['out-of-range', '.lengthM', { ...tail, lengthM: 0 }],
  ['out-of-range', '.lengthM', { ...tail, lengthM: 101 }],
  ['unknown-option', '.passesDirectCurrent', { ...arrestor, passesDirectCurrent: 'yes' }],
  ['unknown-option', '.principle', { ...arrestor, principle: 'varistor' }],
  ['out-of-range', '.sparkOverV', { ...arrestor, sparkOverV: 0 }],
  ['wrong-type', '.cable', { ...run, cable: 'round' }],
  ['out-of-range', '.lengthM', { ...run, lengthM: 1001 }],
  ['not-a-finite-number', '.temperatureC', { ...run, temperatureC: 'hot' }],
  ['out-of-range', '.cable.impedanceOhm', { ...run, cable: { ...cable, impedanceOhm: 0 } }],
  ['not-a-finite-number', '.cable.maxTemperatureC', { ...run, cable: { ...cable, maxTemperatureC: '80' } }],
  ['wrong-type', '.cable.source', { ...run, cable: { ...cable, source: 5 } }],
  ['unknown-option', '.cable.status', { ...run, cable: { ...cable, status: undefined } }],
  ['wrong-type', '.cable.designation', { ...run, cable: { ...cable, designation: undefined } }],
];

describe('parts that are none', () => {
  test('the parts of this table are sound before each is broken', () => {
    const sound: readonly ChainPart[] = [port, joint, tail, arrestor, { ...arrestor, sparkOverV: 90 }, run];
    for (const part of sound) expect(() => checkChain([part], conditions)).not.toThrow();
    const warm = { ...run, temperatureC: 40, cable: { ...cable, maxTemperatureC: 80 } };
    expect(() => checkChain([warm], conditions)).not.toThrow();
  });

  test.each(broken)('%s parts[0]%s', (code, place, part) => {
    expect(() => checkChain([part as ChainPart], conditions)).toThrow(
      expect.objectContaining({ name: 'InputError', code, argument: `parts[0]${place}` }),
    );
  });

  test('a hundred parts are a chain, one more are not', () => {
    const many = Array.from({ length: 101 }, () => run);
    expect(checkChain(many.slice(1), conditions).parts).toHaveLength(100);
    expect(() => checkChain(many, conditions)).toThrow(
      expect.objectContaining({ code: 'out-of-range', argument: 'parts' }),
    );
  });

  test.each<[string, string, unknown]>([
    ['wrong-type', 'conditions', null],
    ['wrong-type', 'catalogue.adapters', { frequencyHz: 1e9, catalogue: { ...catalogue(), adapters: {} } }],
    ['unknown-option', 'outsideValidity', { ...conditions, outsideValidity: 'maybe' }],
    ['missing', 'antennaGainDbi', { ...conditions, conductedPowerDbm: 14 }],
    ['missing', 'conductedPowerDbm', { ...conditions, antennaGainDbi: 3 }],
    ['out-of-range', 'receiverNoiseFigureDb', { ...conditions, receiverNoiseFigureDb: -1 }],
  ])('%s %s', (code, argument, given) => {
    expect(() => checkChain([run], given as never)).toThrow(
      expect.objectContaining({ name: 'InputError', code, argument }),
    );
  });
});

describe('ends that are none', () => {
  test.each<[string, string, unknown]>([
    ['wrong-type', 'a', 'N plug'],
    ['wrong-type', 'a.series', { gender: 'plug' }],
    ['unknown-option', 'a.series', { series: '', gender: 'plug' }],
    ['unknown-option', 'a.series', { series: ' N', gender: 'plug' }],
    ['unknown-option', 'a.series', { series: 'RP-SMA', gender: 'plug' }],
    ['unknown-option', 'a.gender', { series: 'N', gender: 'male' }],
    ['unknown-option', 'a.polarity', { series: 'N', gender: 'plug', polarity: 'RP' }],
  ])('%s %s', (code, argument, end) => {
    expect(() => mates(end as never, aPlug)).toThrow(expect.objectContaining({ code, argument }));
  });

  test.each<[string, unknown]>([
    ['wrong-type', 5],
    ['wrong-type', undefined],
    ['unknown-option', 'N male'],
    ['unknown-option', 'SMA\nN plug'],
  ])('%s: %j in words', (code, words) => {
    expect(() => partEnd(words as string)).toThrow(expect.objectContaining({ code, argument: 'name' }));
  });
});
