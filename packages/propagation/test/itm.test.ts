import { describe, expect, test } from 'vitest';
import type { RadioPath } from '../src/index.js';
import * as itm from '../src/itm/index.js';
import { sharedReference } from './sharedReference.js';

/** Checks of the model's public-domain reference text (p2p.csv, pfls.csv, area.csv): printed losses, and a run's intermediate values. */
interface Reference {
  readonly p2p: readonly {
    readonly input: Input & { readonly pfl: { readonly stepM: number; readonly heightM: readonly number[] } };
    readonly publishedLossDb: number;
    readonly referenceRun: Run & {
      readonly freeSpaceDb: number;
      readonly horizonAngleRad: readonly [number, number];
      readonly horizonDistanceM: readonly [number, number];
      readonly effectiveHeightM: readonly [number, number];
      readonly surfaceRefractivity: number;
      readonly deltaHM: number;
      readonly warnings: number;
    };
  }[];
  readonly area: readonly {
    readonly input: Input & {
      readonly delta_h__meter: number;
      readonly d__km: number;
      readonly tx_siting_criteria: number;
      readonly rx_siting_criteria: number;
    };
    readonly publishedLossDb: number;
    readonly referenceRun: Run;
  }[];
}

interface Input {
  readonly h_tx__meter: number;
  readonly h_rx__meter: number;
  readonly epsilon: number;
  readonly sigma: number;
  readonly N_0: number;
  readonly f__mhz: number;
  readonly pol: number;
  readonly climate: number;
  readonly time: number;
  readonly location: number;
  readonly situation: number;
  readonly mdvar: number;
}

interface Run {
  readonly lossDb: number;
  readonly mode: number;
  readonly referenceAttenuationDb: number;
}

const climates = [
  'equatorial',
  'continental-subtropical',
  'maritime-subtropical',
  'desert',
  'continental-temperate',
  'maritime-temperate-land',
  'maritime-temperate-sea',
] as const;
const variabilityModes = ['single-message', 'accidental', 'mobile', 'broadcast'] as const;
const sitings = ['random', 'careful', 'very-careful'] as const;
const modes = ['line-of-sight', 'diffraction', 'troposcatter'] as const;

function settingsOf(input: Input): itm.ItmSettings {
  return {
    climate: climates[input.climate - 1] as itm.Climate,
    seaLevelRefractivity: input.N_0,
    ground: { permittivity: input.epsilon, conductivitySPerM: input.sigma },
    timePercent: input.time,
    locationPercent: input.location,
    situationPercent: input.situation,
    variabilityMode: variabilityModes[input.mdvar % 10],
    withoutLocationVariability: input.mdvar % 20 >= 10,
    withoutSituationVariability: input.mdvar >= 20,
  };
}

const polarisationOf = ({ pol }: Input) => (pol === 0 ? 'horizontal' : 'vertical');

const text = sharedReference('itm.json');
const reference: Reference = text === undefined ? { p2p: [], area: [] } : (JSON.parse(text) as Reference);

/** The reference sets a flag for each warning; these are the bits of its text. */
const flagged: readonly [bit: number, words: RegExp][] = [
  [0x20, /effective heights/],
  [0x80, /^transmitter: .*0\.2 rad/],
  [0x100, /^receiver: .*0\.2 rad/],
  [0x200, /^transmitter: .*nearer than a tenth/],
  [0x400, /^receiver: .*nearer than a tenth/],
  [0x800, /^transmitter: .*three times/],
  [0x1000, /^receiver: .*three times/],
];

describe.skipIf(text === undefined)('the published point-to-point cases', () => {
  test('three are here', () => expect(reference.p2p).toHaveLength(3));

  test.each(reference.p2p)('$publishedLossDb dB', ({ input, publishedLossDb, referenceRun }) => {
    const path: RadioPath = {
      frequencyHz: input.f__mhz * 1e6,
      distanceM: input.pfl.heightM.map((_, index) => index * input.pfl.stepM),
      heightM: input.pfl.heightM,
      transmitterHeightM: input.h_tx__meter,
      receiverHeightM: input.h_rx__meter,
      polarisation: polarisationOf(input),
    };
    const got = itm.pointToPoint(path, settingsOf(input));
    expect(Math.abs(got.lossDb - publishedLossDb)).toBeLessThan(0.0051);
    expect(got.lossDb).toBeCloseTo(referenceRun.lossDb, 3);
    expect(got.mode).toBe(modes[referenceRun.mode - 1]);
    expect(got.referenceAttenuationDb).toBeCloseTo(referenceRun.referenceAttenuationDb, 5);
    expect(got.freeSpaceLossDb).toBeCloseTo(referenceRun.freeSpaceDb, 5);
    expect(got.transmitterHorizonAngleRad).toBeCloseTo(referenceRun.horizonAngleRad[0], 7);
    expect(got.receiverHorizonAngleRad).toBeCloseTo(referenceRun.horizonAngleRad[1], 7);
    expect(got.transmitterHorizonDistanceM).toBeCloseTo(referenceRun.horizonDistanceM[0], 3);
    expect(got.receiverHorizonDistanceM).toBeCloseTo(referenceRun.horizonDistanceM[1], 3);
    expect(got.transmitterEffectiveHeightM).toBeCloseTo(referenceRun.effectiveHeightM[0], 3);
    expect(got.receiverEffectiveHeightM).toBeCloseTo(referenceRun.effectiveHeightM[1], 3);
    expect(got.surfaceRefractivity).toBeCloseTo(referenceRun.surfaceRefractivity, 3);
    expect(got.terrainIrregularityM).toBeCloseTo(referenceRun.deltaHM, 3);
    for (const [bit, words] of flagged) {
      expect(got.warnings.some((line) => words.test(line))).toBe((referenceRun.warnings & bit) !== 0);
    }
  });
});

describe.skipIf(text === undefined)('the published area cases', () => {
  test('three are here', () => expect(reference.area).toHaveLength(3));

  test.each(reference.area)('$publishedLossDb dB', ({ input, publishedLossDb, referenceRun }) => {
    const got = itm.area({
      ...settingsOf(input),
      frequencyHz: input.f__mhz * 1e6,
      distanceM: input.d__km * 1000,
      transmitterHeightM: input.h_tx__meter,
      receiverHeightM: input.h_rx__meter,
      terrainIrregularityM: input.delta_h__meter,
      transmitterSiting: sitings[input.tx_siting_criteria],
      receiverSiting: sitings[input.rx_siting_criteria],
      polarisation: polarisationOf(input),
    });
    expect(Math.abs(got.lossDb - publishedLossDb)).toBeLessThan(0.051);
    expect(got.lossDb).toBeCloseTo(referenceRun.lossDb, 3);
    expect(got.mode).toBe(modes[referenceRun.mode - 1]);
    expect(got.referenceAttenuationDb).toBeCloseTo(referenceRun.referenceAttenuationDb, 5);
  });
});

// Rows of area.csv of the model's public-domain reference text, printed to 0.1 dB, as facts.
test.each([
  [
    152.5,
    {
      frequencyHz: 230e6,
      distanceM: 16e3,
      transmitterHeightM: 10,
      receiverHeightM: 1,
      terrainIrregularityM: 0,
      polarisation: 'horizontal',
      climate: 'continental-temperate',
      timePercent: 87,
      locationPercent: 50,
      situationPercent: 50,
      variabilityMode: 'single-message',
    },
  ],
  [
    224.1,
    {
      frequencyHz: 980e6,
      distanceM: 100e3,
      transmitterHeightM: 15,
      receiverHeightM: 3,
      terrainIrregularityM: 5,
      transmitterSiting: 'very-careful',
      receiverSiting: 'careful',
      polarisation: 'vertical',
      climate: 'desert',
      timePercent: 92,
      locationPercent: 53,
      situationPercent: 97,
      variabilityMode: 'mobile',
    },
  ],
] as const)('over an area: %d dB as published', (lossDb, settings) => {
  const ground = { permittivity: 15, conductivitySPerM: 0.008 };
  const got = itm.area({ ...settings, ground, seaLevelRefractivity: 301 });
  expect(Math.abs(got.lossDb - lossDb)).toBeLessThan(0.051);
});
