import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  attenuationDb,
  cableNamed,
  electricalLength,
  mismatchedLineLoss,
  powerHandling,
} from '../src/index.js';

function near(got: number, want: number, tolerance: number): void {
  expect(Math.abs(got - want), `got ${got}, want ${want}`).toBeLessThanOrEqual(tolerance);
}

describe('electricalLength', () => {
  test('delay of solid polyethylene cable: 1.54 ns per foot', () => {
    // 1.54 ns per foot is printed on data sheets of RG-58 and RG-213 (velocity factor 0.66); from memory.
    const { delaySeconds } = electricalLength({ cable: 'RG-213/U', lengthM: 0.3048, frequencyHz: 868.1e6 });
    near(delaySeconds, 1.54e-9, 0.005e-9);
  });
  test('a quarter wave by hand', () => {
    // 299 792 458 / 100e6 · 0.66 / 4 = 0.494 657 555 7 m
    const wave = electricalLength({ cable: 'RG-213/U', lengthM: 0.494_657_555_7, frequencyHz: 100e6 });
    near(wave.electricalLengthWavelengths, 0.25, 1e-10);
    near(wave.phaseDeg, 90, 1e-7);
  });
  test('phase wraps, wavelengths add up', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1000, noNaN: true }),
        fc.double({ min: 1e6, max: 3e9, noNaN: true }),
        (lengthM, frequencyHz) => {
          const wave = electricalLength({ cable: 'RG-58C/U', lengthM, frequencyHz });
          const double = electricalLength({ cable: 'RG-58C/U', lengthM: 2 * lengthM, frequencyHz });
          near(double.electricalLengthWavelengths, 2 * wave.electricalLengthWavelengths, 1e-9);
          expect(wave.phaseDeg).toBeGreaterThanOrEqual(0);
          expect(wave.phaseDeg).toBeLessThan(360);
          near((wave.electricalLengthWavelengths - wave.phaseDeg / 360) % 1, 0, 1e-9);
        },
      ),
    ));
  test.each([
    ['lengthM', { lengthM: -1 }],
    ['frequencyHz', { frequencyHz: 868.1 }],
    ['cable.velocityFactor', { cable: { ...cableNamed('RG-213/U'), velocityFactor: 66 } }],
  ])('%s is refused', (argument, change) => {
    const good = { cable: 'RG-213/U', lengthM: 1, frequencyHz: 868.1e6 };
    expect(() => electricalLength({ ...good, ...change })).toThrow(expect.objectContaining({ argument }));
  });
});

interface Complex {
  readonly re: number;
  readonly im: number;
}
const times = (a: Complex, b: Complex): Complex => ({
  re: a.re * b.re - a.im * b.im,
  im: a.re * b.im + a.im * b.re,
});

/**
 * Power into a line over power into its load from voltage and current at both ends, load of a real VSWR at the given phase. A lossy line with
 * a real impedance: the other way to the same number, without the two-wave formula.
 */
function lossByVoltageAndCurrent(matchedLossDb: number, vswr: number, electricalLengthRad: number): number {
  const rho = (vswr - 1) / (vswr + 1);
  const nepers = (matchedLossDb * Math.LN10) / 20;
  const turn = (angle: number, size: number) => ({ re: size * Math.cos(angle), im: size * Math.sin(angle) });
  const power = (forward: Complex, backward: Complex) => {
    const voltage = { re: forward.re + backward.re, im: forward.im + backward.im };
    const current = { re: forward.re - backward.re, im: forward.im - backward.im };
    return times(voltage, { re: current.re, im: -current.im }).re;
  };
  const load = power(turn(0, 1), turn(0, rho));
  const input = power(
    turn(electricalLengthRad, Math.exp(nepers)),
    turn(-electricalLengthRad, rho * Math.exp(-nepers)),
  );
  return 10 * Math.log10(input / load);
}

describe('mismatchedLineLoss', () => {
  test.each([
    [3, 3],
    [1, 2],
    [0.2, 10],
    [6, 1.5],
  ])('%d dB and VSWR %d against voltage and current at the ends', (matchedLossDb, loadVswr) => {
    for (const angle of [0, 0.4, 1.1, 2.6]) {
      near(
        mismatchedLineLoss({ matchedLossDb, loadVswr }).lossDb,
        lossByVoltageAndCurrent(matchedLossDb, loadVswr, angle),
        1e-10,
      );
    }
  });
  test('worked by hand: 3.0103 dB (half the power) and VSWR 3', () => {
    // A = 2, ρ² = 1/4: (4 − 1/4)/(2 · 3/4) = 2.5, and 10 lg 2.5 = 3.979 400 087; at the radio ρ = 1/4, VSWR 5/3.
    const line = mismatchedLineLoss({ matchedLossDb: 3.010_299_956_64, loadVswr: 3 });
    near(line.lossDb, 3.979_400_086_72, 1e-9);
    near(line.vswrAtRadio, 5 / 3, 1e-10);
  });
  test('never less than matched, more with each step', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 200, noNaN: true }),
        fc.double({ min: 1, max: 1e5, noNaN: true }),
        (matchedLossDb, loadVswr) => {
          const line = mismatchedLineLoss({ matchedLossDb, loadVswr });
          expect(line.addedLossDb).toBeGreaterThanOrEqual(0);
          const worse = mismatchedLineLoss({ matchedLossDb, loadVswr: loadVswr * 2 });
          expect(worse.addedLossDb).toBeGreaterThanOrEqual(line.addedLossDb);
          expect(line.vswrAtRadio).toBeLessThanOrEqual(loadVswr * (1 + 1e-9));
        },
      ),
    ));
  test('a match, or no loss, adds nothing', () => {
    expect(mismatchedLineLoss({ matchedLossDb: 4, loadVswr: 1 })).toEqual({
      lossDb: 4,
      addedLossDb: 0,
      vswrAtRadio: 1,
    });
    expect(mismatchedLineLoss({ matchedLossDb: 0, loadVswr: 9 }).addedLossDb).toBe(0);
  });
  test.each([
    ['matchedLossDb', { matchedLossDb: -1 }],
    ['loadVswr', { loadVswr: 0.9 }],
    ['loadVswr', { loadVswr: Number.POSITIVE_INFINITY }],
  ])('%s is refused', (argument, change) => {
    expect(() => mismatchedLineLoss({ matchedLossDb: 1, loadVswr: 2, ...change })).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  });
});

test('whoever leaves the question out is told which', () => {
  expect(() => electricalLength(null as never)).toThrow(
    expect.objectContaining({ code: 'wrong-type', argument: 'length' }),
  );
  expect(() => mismatchedLineLoss(null as never)).toThrow(
    expect.objectContaining({ code: 'wrong-type', argument: 'line' }),
  );
});

describe('powerHandling', () => {
  // Figures of the trade for RG-58C/U: about 250 W at 100 MHz and 70 W at 900 MHz (from memory, hardware reference 1.2).
  const cable = cableNamed('RG-58C/U');
  test('the figures of the row at its own points', () => {
    near(powerHandling({ cable, frequencyHz: 100e6 }).powerW ?? 0, 250, 1e-9);
    near(powerHandling({ cable, frequencyHz: 900e6 }).powerW ?? 0, 70, 1e-9);
    // Straight on logarithmic paper: at √(100 · 900) = 300 MHz the root of 250 · 70 = 132.29 W.
    near(powerHandling({ cable, frequencyHz: 300e6 }).powerW ?? 0, 132.2876, 1e-4);
  });
  test('one point foretells the other by the loss', () => {
    const one = { ...cable, powerLimits: [{ frequencyHz: 100e6, powerW: 250 }] };
    near((powerHandling({ cable: one, frequencyHz: 900e6 }).powerW ?? 0) / 70, 1, 0.2);
    const ratio =
      attenuationDb({ cable, lengthM: 1, frequencyHz: 100e6 }) /
      attenuationDb({ cable, lengthM: 1, frequencyHz: 900e6 });
    near(powerHandling({ cable: one, frequencyHz: 900e6 }).powerW ?? 0, 250 * ratio, 1e-9);
  });
  test('derating by hand', () => {
    // Insulation to 80 degrees C, rated at 40: at 60 half is left, at VSWR 2 half of that.
    const at = powerHandling({ cable, frequencyHz: 900e6, temperatureC: 60, vswr: 2 });
    expect(at).toEqual({
      temperatureRatio: 0.5,
      vswrRatio: 0.5,
      ratedPowerW: 70,
      powerW: 17.5,
      warnings: [],
    });
    const hot = powerHandling({ cable, frequencyHz: 900e6, temperatureC: 90 });
    expect(hot).toMatchObject({ powerW: 0, warnings: [expect.stringContaining('hotter')] });
  });
  test('less at higher frequency, heat and standing wave', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 20e6, max: 1.3e9, noNaN: true }),
        fc.double({ min: -40, max: 79, noNaN: true }),
        fc.double({ min: 1, max: 50, noNaN: true }),
        (frequencyHz, temperatureC, vswr) => {
          const at = { cable, frequencyHz, temperatureC, vswr };
          const { powerW = 0 } = powerHandling(at);
          expect(powerW).toBeGreaterThan(0);
          for (const change of [
            { frequencyHz: frequencyHz * 1.01 },
            { temperatureC: temperatureC + 0.5 },
            { vswr: vswr * 1.01 },
          ]) {
            expect(powerHandling({ ...at, ...change }).powerW).toBeLessThan(powerW);
          }
        },
      ),
    ));
  test('no figure, no number', () => {
    const unknown = powerHandling({ cable: 'RG-174/U', frequencyHz: 900e6 });
    expect(unknown.powerW).toBeUndefined();
    expect(unknown.warnings).toEqual([expect.stringContaining('no figure')]);
  });
  test('air as hot as the insulation may be leaves nothing, and is not yet a warning', () => {
    expect(powerHandling({ cable, frequencyHz: 900e6, temperatureC: 80 })).toMatchObject({
      powerW: 0,
      warnings: [],
    });
  });
  test('insulation of unknown limit: heat is not counted, which is said where there is any', () => {
    const { maxTemperatureC: _limit, ...unknown } = cable;
    const at = (temperatureC?: number) => powerHandling({ cable: unknown, frequencyHz: 900e6, temperatureC });
    expect(at()).toMatchObject({ temperatureRatio: 1, powerW: 70, warnings: [] });
    expect(at(60)).toMatchObject({
      temperatureRatio: 1,
      powerW: 70,
      warnings: [expect.stringContaining('heat is not counted')],
    });
  });
  test.each([
    ['vswr', { vswr: 0.5 }],
    // Rated at 40 degrees C: insulation that bears no more leaves no degrees to share out.
    ['cable.maxTemperatureC', { cable: { ...cable, maxTemperatureC: 40 } }],
    ['question', null],
    [
      'cable.powerLimits[1].frequencyHz',
      { cable: { ...cable, powerLimits: [100e6, 50e6].map((frequencyHz) => ({ frequencyHz, powerW: 9 })) } },
    ],
    ['temperatureC', { temperatureC: Number.NaN }],
    ['frequencyHz', { frequencyHz: 6e9 }],
    ['cable.powerLimits[0].powerW', { cable: { ...cable, powerLimits: [{ frequencyHz: 1e9, powerW: -1 }] } }],
  ])('%s is refused', (argument, change) => {
    const question = change === null ? (null as never) : { cable, frequencyHz: 900e6, ...change };
    expect(() => powerHandling(question)).toThrow(expect.objectContaining({ name: 'InputError', argument }));
  });
});
