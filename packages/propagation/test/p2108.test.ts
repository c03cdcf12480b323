import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  slantClutterLoss,
  type TerminalSurroundings,
  terminalClutterLoss,
  terrestrialClutterLoss,
} from '../src/p2108/index.js';
import { sharedReference, tableRows } from './sharedReference.js';

/** The published test tables print 0.1 dB. */
const printedDb = 0.05 + 1e-9;

const surroundingsOfCode: Readonly<Record<string, TerminalSurroundings>> = {
  1: 'water',
  2: 'open',
  3: 'suburban',
  4: 'urban',
  5: 'trees',
  6: 'dense-urban',
};
const argumentOfCode: Readonly<Record<string, string>> = {
  32: 'frequencyHz',
  33: 'antennaHeightM',
  34: 'streetWidthM',
  35: 'clutterHeightM',
  48: 'frequencyHz',
  49: 'distanceM',
  50: 'probability',
  64: 'frequencyHz',
  65: 'elevationDeg',
  66: 'probability',
};

/** A row agrees when its loss does, or when it says that the input is bad and the refusal names that input. */
function expectRow(code: string, lossDb: string, calculate: () => number): void {
  if (code === '0') {
    expect(Math.abs(calculate() - Number(lossDb))).toBeLessThanOrEqual(printedDb);
  } else {
    const argument = argumentOfCode[code];
    expect(argument).toBeDefined();
    expect(calculate).toThrow(expect.objectContaining({ name: 'InputError', argument }));
  }
}

const heights = sharedReference('p2108_heightGain.csv');
const towns = sharedReference('p2108_terrestrial.csv');
const slants = sharedReference('p2108_aeronautical.csv');

describe('against the test tables published with the NTIA reference of P.2108-1', () => {
  test.skipIf(heights === undefined)('by height', () => {
    const columns = [
      'f__ghz',
      'h__meter',
      'w_s__meter',
      'R__meter',
      'clutter_type',
      'rtn',
      'A_h__db',
    ] as const;
    const rows = tableRows(heights ?? '', columns);
    expect(rows.length).toBeGreaterThan(10);
    for (const row of rows) {
      const surroundings = surroundingsOfCode[row.clutter_type] ?? 'open';
      expectRow(
        row.rtn,
        row.A_h__db,
        () =>
          terminalClutterLoss({
            frequencyHz: Number(row.f__ghz) * 1e9,
            antennaHeightM: Number(row.h__meter),
            streetWidthM: Number(row.w_s__meter),
            clutterHeightM: Number(row.R__meter),
            surroundings,
          }).lossDb,
      );
    }
  });

  test.skipIf(towns === undefined)('by statistics', () => {
    const rows = tableRows(towns ?? '', ['f__ghz', 'd__km', 'p', 'rtn', 'L_ctt__db']);
    expect(rows.length).toBeGreaterThan(4);
    for (const row of rows) {
      const path = {
        frequencyHz: Number(row.f__ghz) * 1e9,
        distanceM: Number(row.d__km) * 1000,
        probability: Number(row.p) / 100,
      };
      expectRow(row.rtn, row.L_ctt__db, () => terrestrialClutterLoss(path).lossDb);
    }
  });

  test.skipIf(slants === undefined)('under a slant path', () => {
    const rows = tableRows(slants ?? '', ['f__ghz', 'theta_deg', 'p', 'rtn', 'L_ces__db']);
    expect(rows.length).toBeGreaterThan(5);
    for (const row of rows) {
      const path = {
        frequencyHz: Number(row.f__ghz) * 1e9,
        elevationDeg: Number(row.theta_deg),
        probability: Number(row.p) / 100,
      };
      expectRow(row.rtn, row.L_ces__db, () => slantClutterLoss(path).lossDb);
    }
  });

  // Rows of the same tables, as facts, for where the files are not at hand.
  test.each([
    [1.5, 2, 27, 10, 'water', 16],
    [1.5, 2, 27, 10, 'suburban', 20.5],
    [1.5, 2, 27, 15, 'trees', 24.5],
    [3, 3, 15, 15, 'dense-urban', 29],
    [1.7, 30, 24.5, 9.8, 'suburban', 0],
  ] as const)(
    '%d GHz, antenna %d m, street %d m, clutter %d m, %s',
    (ghz, height, width, clutter, surroundings, want) => {
      const { lossDb } = terminalClutterLoss({
        frequencyHz: ghz * 1e9,
        antennaHeightM: height,
        streetWidthM: width,
        clutterHeightM: clutter,
        surroundings,
      });
      expect(Math.abs(lossDb - want)).toBeLessThanOrEqual(printedDb);
    },
  );

  test.each([
    [0.5, 250, 0.5, 17.4],
    [0.5, 250, 0.99, 30.9],
    [67, 5400, 0.305, 30.9],
    [3.5, 1000, 0.999, 42.8],
  ])('%d GHz over %d m at %d', (ghz, distanceM, probability, want) => {
    const { lossDb } = terrestrialClutterLoss({ frequencyHz: ghz * 1e9, distanceM, probability });
    expect(Math.abs(lossDb - want)).toBeLessThanOrEqual(printedDb);
  });
});

describe('shape', () => {
  const frequencyHz = fc.double({ min: 500e6, max: 3e9, noNaN: true });
  const probability = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true });
  const surroundings = fc.constantFrom<TerminalSurroundings>(...Object.values(surroundingsOfCode));

  test('an antenna loses less the higher it stands, and nothing at the tops', () => {
    const height = fc.double({ min: 0.1, max: 20, noNaN: true });
    fc.assert(
      fc.property(frequencyHz, surroundings, height, height, (f, s, one, other) => {
        const of = (antennaHeightM: number) =>
          terminalClutterLoss({ frequencyHz: f, antennaHeightM, surroundings: s, clutterHeightM: 20 }).lossDb;
        const [low, high] = one < other ? [one, other] : [other, one];
        expect(of(low)).toBeGreaterThanOrEqual(of(high) - 1e-9);
        expect(of(high)).toBeGreaterThanOrEqual(0);
        expect(of(20)).toBe(0);
      }),
    );
  });

  test('more places take more loss; beyond 2 km distance counts no more', () => {
    const distance = fc.double({ min: 250, max: 20_000, noNaN: true });
    fc.assert(
      fc.property(frequencyHz, distance, probability, (f, distanceM, p) => {
        const of = (share: number, metres: number) =>
          terrestrialClutterLoss({ frequencyHz: f, distanceM: metres, probability: share }).lossDb;
        expect(of(p + (1 - p) / 2, distanceM)).toBeGreaterThanOrEqual(of(p, distanceM) - 1e-9);
        expect(of(p, distanceM)).toBeLessThanOrEqual(of(p, 2000) + 1e-9);
        expect(of(0.5, distanceM + 2000)).toBeCloseTo(of(0.5, 2000), 9);
      }),
    );
  });
});

test('more places take more loss on a slant, and a steeper path takes less', () => {
  const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  fc.assert(
    fc.property(
      real(10e9, 100e9),
      real(1, 80),
      real(0.05, 0.9),
      real(0.5, 9),
      (frequencyHz, elevationDeg, p, moreDeg) => {
        const of = (degrees: number, share: number) =>
          slantClutterLoss({ frequencyHz, elevationDeg: degrees, probability: share }).lossDb;
        expect(of(elevationDeg, p + 0.05)).toBeGreaterThan(of(elevationDeg, p));
        expect(of(elevationDeg + moreDeg, 0.9)).toBeLessThanOrEqual(of(elevationDeg, 0.9) + 1e-9);
      },
    ),
  );
});

describe('range', () => {
  const town = { frequencyHz: 868e6, distanceM: 500, probability: 0.5 };

  test('houses at both ends need a kilometre', () => {
    expect(terrestrialClutterLoss(town).warnings).toEqual([]);
    expect(() => terrestrialClutterLoss({ ...town, clutteredEnds: 'both' })).toThrow(
      expect.objectContaining({ code: 'outside-validity', argument: 'distanceM' }),
    );
  });

  test('what lies outside is allowed with a warning that names it', () => {
    const sky = { frequencyHz: 868e6, elevationDeg: 30, probability: 0.5 };
    expect(() => slantClutterLoss(sky)).toThrow(expect.objectContaining({ code: 'outside-validity' }));
    const { warnings } = slantClutterLoss({ ...sky, outsideValidity: 'allow' });
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toContain('frequencyHz');
  });

  test('an unknown choice is refused', () => {
    expect(() =>
      slantClutterLoss({
        frequencyHz: 30e9,
        elevationDeg: 3,
        probability: 0.5,
        outsideValidity: 'yes' as 'allow',
      }),
    ).toThrow(expect.objectContaining({ code: 'unknown-option', argument: 'outsideValidity' }));
  });
});
