import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import {
  deembedFeedline,
  type MagnitudeSweep,
  parseTouchstone,
  readSweep,
  type SweepReading,
} from '../src/index.js';
import {
  grid,
  reflectionOf,
  refusal,
  type SeriesCircuit,
  seriesReactanceOhm,
  sweepOf,
} from './sweepSupport.js';

const near = (got: number | undefined, want: number, tolerance: number) =>
  expect(Math.abs((got ?? Number.NaN) - want), `got ${got}, want ${want} ± ${tolerance}`).toBeLessThanOrEqual(
    tolerance,
  );

describe('sweeps of NEC-2 models, hardware-vectors touchstoneExamples', () => {
  test('the file still holds its cases', () => expect(vectors.touchstoneExamples).toHaveLength(3));
  test.each(vectors.touchstoneExamples)('$id', ({ id, text, expected, tolerance }) => {
    const { atTarget, resonanceMHz, RatResonance, minVswrOnGrid, vswr2EdgesMHz } = expected;
    const reading = readSweep(parseTouchstone(text, { file: `${id}.s1p` }), {
      targetHz: atTarget.fMHz * 1e6,
    });
    near(reading.atTarget.resistanceOhm, atTarget.R, 0.02);
    near(reading.atTarget.reactanceOhm, atTarget.X, 0.02);
    near(reading.atTarget.vswr, atTarget.vswr, tolerance.vswr);
    // The vectors call resonance the zero of the reactance.
    const rising = reading.reactanceZeros.filter(({ direction }) => direction === 'rising');
    expect(rising).toHaveLength(1);
    near(rising[0]?.frequencyHz, resonanceMHz * 1e6, tolerance.resonanceMHz * 1e6);
    near(rising[0]?.resistanceOhm, RatResonance, 0.1);
    // The minimum between points lies within a step (7.5 MHz) of the lowest point, and not above it.
    near(reading.resonanceHz, minVswrOnGrid.fMHz * 1e6, 7.5e6);
    near(reading.minimumVswr, minVswrOnGrid.vswr, tolerance.vswr);
    near(reading.vswr2Band?.lowerHz, (vswr2EdgesMHz[0] ?? 0) * 1e6, tolerance.edgesMHz * 1e6);
    near(reading.vswr2Band?.upperHz, (vswr2EdgesMHz[1] ?? 0) * 1e6, tolerance.edgesMHz * 1e6);
    expect(reading.findings).toEqual([]);
  });
});

// A series circuit, from any textbook: R at resonance, X = RQ(f/f0 − f0/f), 10 dB and VSWR 2 edges by solving a quadratic.
describe('a series circuit', () => {
  const circuits = fc.record({
    resistanceOhm: fc.double({ min: 30, max: 80, noNaN: true }),
    resonanceHz: fc.double({ min: 850e6, max: 880e6, noNaN: true }),
    quality: fc.double({ min: 4, max: 15, noNaN: true }),
  });
  const sweepFor = (circuit: SeriesCircuit, points = 301) =>
    sweepOf(grid(700e6, 1050e6, points), (hertz) =>
      reflectionOf(circuit.resistanceOhm, seriesReactanceOhm(circuit, hertz)),
    );
  /** Edges at which the reflected power reaches a ratio: 1 − 4RR0/((R+R0)² + X²) = ratio. */
  const edgesOf = ({ resistanceOhm, resonanceHz, quality }: SeriesCircuit, ratio: number) => {
    const reactance = Math.sqrt((4 * resistanceOhm * 50) / (1 - ratio) - (resistanceOhm + 50) ** 2);
    const detuning = reactance / (resistanceOhm * quality);
    const root = Math.sqrt(detuning ** 2 + 4);
    return [(resonanceHz * (root - detuning)) / 2, (resonanceHz * (root + detuning)) / 2] as const;
  };

  test('resonance, resistance, Q and edges', () => {
    fc.assert(
      fc.property(circuits, (circuit) => {
        const reading = readSweep(sweepFor(circuit), { targetHz: 868.1e6 });
        near((reading.resonanceHz ?? 0) / circuit.resonanceHz, 1, 2e-4);
        near(reading.reactanceZeros[0]?.frequencyHz, circuit.resonanceHz, 1e3);
        near(reading.atResonance.resistanceOhm, circuit.resistanceOhm, 0.1);
        near((reading.qualityFactor?.qualityRatio ?? 0) / circuit.quality, 1, 2e-3);
        const [lower, upper] = edgesOf(circuit, 0.1);
        near(reading.tenDbBand?.lowerHz, lower, 2e4);
        near(reading.tenDbBand?.upperHz, upper, 2e4);
        near(reading.tenDbBand?.widthHz, upper - lower, 4e4);
        near(reading.vswr2Band?.lowerHz, edgesOf(circuit, 1 / 9)[0], 2e4);
        expect(reading.tenDbBand?.beyondSweep).toBe('neither');
      }),
      { numRuns: 60 },
    );
  });

  test('between points the reflection is within 1e-4 with 20 points across the 10 dB band', () => {
    fc.assert(
      fc.property(circuits, fc.double({ min: 0, max: 1, noNaN: true }), (circuit, share) => {
        const [lower, upper] = edgesOf(circuit, 0.1);
        const points = Math.ceil((350e6 / (upper - lower)) * 20) + 1;
        const hertz = lower + share * (upper - lower);
        const { atTarget } = readSweep(sweepFor(circuit, points), { targetHz: hertz });
        const [re, im] = reflectionOf(circuit.resistanceOhm, seriesReactanceOhm(circuit, hertz));
        near(
          Math.hypot((atTarget.reflectionReal ?? 9) - re, (atTarget.reflectionImaginary ?? 9) - im),
          0,
          1e-4,
        );
      }),
    );
  });

  test('without phase: the same resonance and edges, no impedance, no Q', () => {
    fc.assert(
      fc.property(circuits, (circuit) => {
        const full = sweepFor(circuit);
        const { frequencyHz, referenceOhm, comments, warnings } = full;
        const reflectionCoefficient = full.reflectionReal.map((re, index) =>
          Math.hypot(re, full.reflectionImaginary[index] ?? 0),
        );
        const sweep: MagnitudeSweep = {
          frequencyHz,
          referenceOhm,
          comments,
          warnings,
          reflectionCoefficient,
        };
        const reading = readSweep(sweep, { targetHz: 868.1e6 });
        near((reading.resonanceHz ?? 0) / circuit.resonanceHz, 1, 2e-4);
        near(reading.tenDbBand?.upperHz, edgesOf(circuit, 0.1)[1], 1e5);
        expect(reading.reactanceZeros).toEqual([]);
        expect(reading.qualityFactor).toBeUndefined();
        expect(reading.atTarget.resistanceOhm).toBeUndefined();
        expect(reading.atTarget.reflectionReal).toBeUndefined();
      }),
      { numRuns: 30 },
    );
  });

  test('noise moves the resonance less than a point does', () => {
    const circuit = { resistanceOhm: 45, resonanceHz: 860e6, quality: 7 };
    fc.assert(
      fc.property(fc.infiniteStream(fc.double({ min: -5e-4, max: 5e-4, noNaN: true })), (noise) => {
        const noisy = sweepOf(grid(800e6, 930e6, 401), (hertz) => {
          const [re, im] = reflectionOf(circuit.resistanceOhm, seriesReactanceOhm(circuit, hertz));
          return [re + (noise.next().value as number), im + (noise.next().value as number)];
        });
        near((readSweep(noisy, { targetHz: 868.1e6 }).resonanceHz ?? 0) / 860e6, 1, 3e-4);
      }),
      { numRuns: 30 },
    );
  });
});

describe('the invented sweep of the example', () => {
  const file = new URL('../../../examples/fennimara/antenna.s1p', import.meta.url);
  const seen = parseTouchstone(readFileSync(file, 'utf8'), { file: 'antenna.s1p' });
  const reading = readSweep(seen, {
    targetHz: 868.1e6,
    bandHz: [863e6, 870e6],
    channelsHz: [868.1e6, 868.3e6, 960e6],
  });
  // examples/fennimara/generate/antennaSweep.js: resonance 846 MHz, 38.5 Ω growing with the square of frequency, 0.48 pF; a lead of
  // 0.4 m at 0.69 of the speed of light, 0.75 dB/m at 1 GHz; noise 2.5e-4.
  const truth = (hertz: number) => {
    const turns = 2 * Math.PI * hertz;
    const inductance = 1 / ((2 * Math.PI * 846e6) ** 2 * 0.48e-12);
    return [38.5 * (hertz / 846e6) ** 2, turns * inductance - 1 / (turns * 0.48e-12)] as const;
  };
  const lead = { lossDb: 0.3, lossReferenceHz: 1e9, lengthM: 0.4, velocityFactor: 0.69 };

  test('as swept: the lowest VSWR, through the lead too', () => {
    expect(seen.frequencyHz).toHaveLength(801);
    expect(seen.warnings).toEqual([]);
    // Lowest of the generator's formula, by a search on a fine grid; the growing resistance lifts it above 846 MHz.
    const fine = grid(800e6, 930e6, 130_001);
    const size = (hertz: number) => Math.hypot(...reflectionOf(...truth(hertz)));
    const lowest = fine.reduce((best, hertz) => (size(hertz) < size(best) ? hertz : best));
    near(reading.resonanceHz, lowest, 0.25e6);
    expect(lowest).toBeGreaterThan(846.5e6);
  });
  test('the lead taken out: zero of the reactance, impedance and Q of the generator', () => {
    const own = readSweep(deembedFeedline(seen, lead), { targetHz: 868.1e6 });
    near(own.reactanceZeros.find(({ direction }) => direction === 'rising')?.frequencyHz, 846e6, 0.1e6);
    const [resistance, reactance] = truth(868.1e6);
    near(own.atTarget.resistanceOhm, resistance, 0.1);
    near(own.atTarget.reactanceOhm, reactance, 0.1);
    // f/2R·|dZ/df|: dR/df is 2R/f, dX/df twice the reactance of the capacitor over f.
    const capacitor = 1 / (2 * Math.PI * 846e6 * 0.48e-12);
    near(own.qualityFactor?.qualityRatio, Math.hypot(38.5, capacitor) / 38.5, 0.1);
  });
  test('findings name the band and the channel outside', () => {
    expect(reading.channels.map(({ frequencyHz }) => frequencyHz)).toEqual([868.1e6, 868.3e6]);
    expect(reading.findings.map(({ rule }) => rule)).toEqual(['channel-outside-sweep']);
    expect(reading.worstInBand?.frequencyHz).toBe(870e6);
  });
});

describe('findings', () => {
  const rules = (reading: SweepReading) => reading.findings.map(({ rule }) => rule);
  const circuit = { resistanceOhm: 50, resonanceHz: 800e6, quality: 12 };
  const sweep = (start: number, stop: number, grows = 1) =>
    sweepOf(grid(start, stop, 101), (hertz) => {
      const [re, im] = reflectionOf(circuit.resistanceOhm, seriesReactanceOhm(circuit, hertz));
      return [re * grows, im * grows];
    });
  test('VSWR above 2 at the target and in the band', () => {
    const reading = readSweep(sweep(700e6, 900e6), { targetHz: 868.1e6, bandHz: [863e6, 870e6] });
    expect(rules(reading)).toEqual(['vswr-at-target', 'vswr-in-band']);
    expect(reading.findings[0]?.measured).toBe(`VSWR ${reading.atTarget.vswr?.toFixed(2)}`);
  });
  test('no minimum inside, and a band that ends beyond', () => {
    const reading = readSweep(sweep(810e6, 830e6), { targetHz: 815e6, bandHz: [805e6, 820e6] });
    expect(rules(reading)).toEqual(['no-resonance', 'band-outside-sweep']);
    expect(reading.resonanceHz).toBeUndefined();
    expect(reading.atResonance.frequencyHz).toBe(810e6);
    expect(reading.tenDbBand).toMatchObject({ beyondSweep: 'below', lowerHz: undefined, widthHz: undefined });
    expect(reading.tenDbBand?.upperHz).toBeGreaterThan(815e6);
  });
  test('more comes back than was sent', () => {
    const reading = readSweep(sweep(700e6, 900e6, 1.4), { targetHz: 720e6 });
    expect(rules(reading)).toEqual(['reflection-above-one', 'vswr-at-target']);
    expect(reading.atTarget).toMatchObject({ vswr: undefined, mismatchLossDb: undefined });
    expect(reading.atTarget.returnLossDb).toBeLessThan(0);
  });
  test('points too far apart', () => {
    const sparse = sweepOf(grid(600e6, 1000e6, 5), (hertz) =>
      reflectionOf(50, seriesReactanceOhm(circuit, hertz)),
    );
    expect(rules(readSweep(sparse, { targetHz: 850e6 }))).toContain('sparse-sweep');
  });
  test('an open or shorted socket has no resonance', () => {
    for (const part of [1, -1]) {
      const reading = readSweep(
        sweepOf(grid(800e6, 900e6, 50), () => [part, 0]),
        { targetHz: 868e6 },
      );
      expect(rules(reading)).toEqual(['no-resonance', 'vswr-at-target']);
      expect(reading.tenDbBand).toBeUndefined();
    }
  });
  test('a perfect match has no return loss', () => {
    const reading = readSweep(
      sweepOf(grid(800e6, 900e6, 50), () => [0, 0]),
      { targetHz: 868e6 },
    );
    expect(reading.atTarget).toMatchObject({
      vswr: 1,
      returnLossDb: undefined,
      mismatchLossDb: 0,
      resistanceOhm: 50,
    });
  });
});

describe('refusals', () => {
  const sweep = sweepOf(grid(800e6, 900e6, 11), () => [0.1, 0.1]);
  test.each([
    ['target below the sweep', { targetHz: 799e6 }, 'targetHz', 'out-of-range'],
    ['target above the sweep', { targetHz: 901e6 }, 'targetHz', 'out-of-range'],
    ['target in megahertz', { targetHz: 868.1 }, 'targetHz', 'out-of-range'],
    ['target NaN', { targetHz: Number.NaN }, 'targetHz', 'not-a-finite-number'],
    [
      'band the wrong way round',
      { targetHz: 868e6, bandHz: [870e6, 863e6] as const },
      'bandHz[1]',
      'out-of-range',
    ],
    ['band of three', { targetHz: 868e6, bandHz: [1e6, 2e6, 3e6] as never }, 'bandHz', 'wrong-type'],
    ['no channels', { targetHz: 868e6, channelsHz: [] }, 'channelsHz', 'missing'],
  ])('%s', (_, question, argument, code) => {
    expect(refusal(() => readSweep(sweep, question))).toMatchObject({ name: 'InputError', argument, code });
  });
  test.each([
    ['two points', { ...sweepOf([8e8, 9e8], () => [0, 0]) }, 'sweep.frequencyHz', 'missing'],
    ['a plain list', { ...sweep, reflectionReal: [0.1] }, 'sweep.reflectionReal', 'wrong-type'],
    [
      'unequal lengths',
      { ...sweep, reflectionReal: new Float64Array(3) },
      'sweep.reflectionReal',
      'out-of-range',
    ],
    [
      'falling',
      { ...sweep, frequencyHz: sweep.frequencyHz.toReversed() },
      'sweep.frequencyHz[1]',
      'out-of-range',
    ],
    ['no sweep', undefined, 'sweep', 'wrong-type'],
  ])('%s', (_, wrong, argument, code) => {
    const call = () => readSweep(wrong as never, { targetHz: 868e6 });
    expect(refusal(call)).toMatchObject({ name: 'InputError', argument, code });
  });
});
