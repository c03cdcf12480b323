import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as radio from '../src/index.js';
import { numbersIn } from './support.js';

// Every calling export with the whole range that its documentation promises: no NaN and no Infinity may come out of it, and bad input of
// any kind must be refused by name.

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const frequencyHz = number(1e6, 3e12);
const distanceM = number(1e-6, 1e12);
const powerDbm = number(-300, 300);
const gainDbi = number(-100, 100);
const feedlineLossDb = number(0, 200);
const noiseFigureDb = number(0, 100);
const vswr = number(1, 1e6);
const returnLossDb = number(1e-5, 300);
const chain = { conductedPowerDbm: powerDbm, feedlineLossDb, antennaGainDbi: gainDbi };
const pointOnPath = { frequencyHz, distanceToStartM: distanceM, distanceToEndM: distanceM };
const effectiveEarthRadiusFactor = number(0.1, 1000);
const heightM = number(0, 20_000);
const legM = number(0, 1e6);
const linkEnd = fc.record({ ...chain, noiseFigureDb, receivedNoiseRiseDb: number(0, 100) });
const polarisation = fc.record({
  axialRatioDb: number(0, 100),
  sense: fc.constantFrom('right' as const, 'left' as const),
});
const exposureLimit = fc.constantFrom(
  'fcc-general',
  'fcc-occupational',
  'icnirp-2020-general',
  'icnirp-2020-occupational',
);

/** One quantity: the name of the parameter and its range. */
const positional = {
  wavelengthM: ['frequencyHz', frequencyHz],
  eirpToErpDbm: ['eirpDbm', powerDbm],
  erpToEirpDbm: ['erpDbm', powerDbm],
  vswrToReturnLossDb: ['vswr', vswr.filter((value) => value > 1)],
  vswrToReflectionCoefficient: ['vswr', vswr],
  vswrToMismatchLossDb: ['vswr', vswr],
  returnLossToVswr: ['returnLossDb', returnLossDb],
  returnLossToMismatchLossDb: ['returnLossDb', returnLossDb],
  reflectionCoefficientToVswr: ['reflectionCoefficient', number(0, 0.999_998)],
} as const;

/** Several quantities in one object. */
const byName: Record<string, fc.Arbitrary<object>> = {
  freeSpaceLossDb: fc.record({ frequencyHz, distanceM }),
  friisReceivedPowerDbm: fc.record({
    frequencyHz,
    distanceM,
    conductedPowerDbm: powerDbm,
    transmitGainDbi: gainDbi,
    receiveGainDbi: gainDbi,
  }),
  thermalNoiseDbm: fc.record({ bandwidthHz: number(1, 1e12), temperatureK: number(1e-3, 1e9) }),
  noiseFigureCascade: fc.array(fc.record({ noiseFigureDb, gainDb: number(-200, 200) }), {
    minLength: 1,
    maxLength: 5,
  }),
  systemNoise: fc.record({
    receiverNoiseFigureDb: noiseFigureDb,
    feedlineLossDb,
    feedlineTemperatureC: number(-100, 200),
    antennaTemperatureK: number(1e-3, 1e9),
    bandwidthHz: number(1, 1e12),
  }),
  eirpDbm: fc.record(chain),
  erpDbm: fc.record(chain),
  maxConductedPowerDbm: fc.record({ eirpLimitDbm: powerDbm, feedlineLossDb, antennaGainDbi: gainDbi }),
  fresnelRadiusM: fc.record({ ...pointOnPath, zone: fc.integer({ min: 1, max: 1e6 }) }),
  fresnelClearance: fc.record({ ...pointOnPath, clearanceM: number(-1e12, 1e12) }),
  earthBulgeM: fc.record({ distanceToStartM: legM, distanceToEndM: legM, effectiveEarthRadiusFactor }),
  radioHorizonM: fc.record({ heightM, effectiveEarthRadiusFactor }),
  radioLineOfSightM: fc.record({
    transmitHeightM: heightM,
    receiveHeightM: heightM,
    effectiveEarthRadiusFactor,
  }),
  polarisationMismatchDb: fc.record({
    transmit: polarisation,
    receive: polarisation,
    angleDeg: number(-360, 360),
    crossPolarDiscriminationDb: number(0, 100),
  }),
  vswrThroughLoss: fc.record({ vswr, lossDb: feedlineLossDb }),
  impedanceToReflection: fc.record({
    resistanceOhm: number(1e-6, 1e9),
    reactanceOhm: number(-1e9, 1e9),
    referenceOhm: number(1e-3, 1e6),
  }),
  linkBudget: fc.record({
    pathLossDb: number(0, 1000),
    bandwidthHz: number(1, 1e12),
    uplinkRequiredSnrDb: number(-100, 100),
    downlinkRequiredSnrDb: number(-100, 100),
    gateway: linkEnd,
    node: linkEnd,
    losses: fc.array(fc.record({ name: fc.constant('wall'), lossDb: number(0, 1000) }), {
      minLength: 1,
      maxLength: 3,
    }),
  }),
  powerDensityWPerM2: fc.record({ eirpDbm: powerDbm, distanceM }),
  exposureLimit: fc.record({ frequencyHz: number(400e6, 100e9), limit: exposureLimit }),
  exposureDistance: fc.record({
    frequencyHz: number(400e6, 100e9),
    limit: exposureLimit,
    eirpDbm: powerDbm,
    dutyCycle: number(Number.MIN_VALUE, 1),
    groundReflection: fc.constantFrom('none', 'typical', 'full'),
    nearestPersonM: distanceM,
  }),
};

type Call = (input: unknown) => unknown;
const exported = radio as unknown as Record<string, Call>;
const calls = Object.keys(radio).filter(
  (name) => /^[a-z]/.test(name) && typeof exported[name] === 'function',
);
const call = (name: string) => exported[name] as Call;

/** A copy in which the number at a path (as numbersIn gives it) is something else. */
function changed(input: object, path: string, value: unknown): object {
  const copy = structuredClone(input) as Record<string, unknown>;
  const keys = path.split('.');
  const last = keys.pop() as string;
  const inner = keys.reduce((object, key) => object[key] as Record<string, unknown>, copy);
  inner[last] = value;
  return copy;
}

/** `losses.0.lossDb` as an error names it: `losses[0].lossDb`. */
function asArgument(name: string, path: string): string {
  const bracketed = path.replace(/\.(\d+)/g, '[$1]').replace(/^(\d+)/, '[$1]');
  return name === 'noiseFigureCascade' ? `stages${bracketed}` : bracketed;
}

const refusal = (argument: string) => expect.objectContaining({ name: 'InputError', argument });
const badNumbers = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, '868e6', null, {}, 1e308];

test('no export is left out here', () => {
  const known = [...Object.keys(positional), ...Object.keys(byName), 'isInputError'];
  expect(calls.toSorted()).toEqual(known.toSorted());
});

describe.each(Object.entries(positional))('%s', (name, [argument, range]) => {
  test('gives finite numbers over its whole range', () =>
    fc.assert(
      fc.property(range, (value) => {
        expect(call(name)(value)).toSatisfy(Number.isFinite);
      }),
    ));
  test.each([...badNumbers, undefined, []])('refuses %s by name', (value) => {
    expect(() => call(name)(value)).toThrow(refusal(argument));
  });
});

describe.each(Object.entries(byName))('%s', (name, range) => {
  const [sample = {}] = fc.sample(range, { seed: 868, numRuns: 1 });
  test('gives finite numbers over its whole range', () =>
    fc.assert(
      fc.property(range, (input) => {
        const found = numbersIn(call(name)(input));
        expect(found.length).toBeGreaterThan(0);
        expect(found.filter(([, value]) => !Number.isFinite(value))).toEqual([]);
      }),
    ));
  test.each([undefined, null, 'x', 868.1e6, Number.NaN])('refuses %s in place of its options', (value) => {
    expect(() => call(name)(value)).toThrow(
      expect.objectContaining({ name: 'InputError', code: 'wrong-type' }),
    );
  });
  test.each(numbersIn(sample).map(([path]) => path))('refuses a bad %s by name', (path) => {
    for (const value of badNumbers) {
      const input = changed(sample, path, value);
      expect(() => call(name)(input), String(value)).toThrow(refusal(asArgument(name, path)));
    }
  });
  test('leaves its input as it was', () => {
    const before = structuredClone(sample);
    call(name)(sample);
    expect(sample).toEqual(before);
  });
});
