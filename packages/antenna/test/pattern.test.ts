import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import reference from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import {
  collinearGainDbi,
  collinearPattern,
  dipole,
  elevationPattern,
  farFieldGainDbi,
  gainTowardsDbi,
  gainTowardsNode,
  groundPlane,
  halfWaveDipoleGainDbi,
  monopole,
  type PatternTable,
} from '../src/index.js';

const frequencyHz = 868.1e6;
const anyElevation = fc.double({ min: -90, max: 90, noNaN: true });
const array = fc.record({
  elements: fc.integer({ min: 1, max: 16 }),
  spacingWavelengths: fc.double({ min: 0.5, max: 1.2, noNaN: true }),
  downtiltDeg: fc.double({ min: -20, max: 20, noNaN: true }),
});

/** Mean of the gain over the sphere, as a ratio, for one that is the same all around: 1 for an antenna without loss. */
function meanOverSphere({ elevationDeg, gainDbi }: PatternTable): number {
  let sum = 0;
  for (let index = 1; index < elevationDeg.length; index++) {
    const sine = (at: number) => Math.sin(((elevationDeg[at] ?? 0) * Math.PI) / 180);
    const ratio = (at: number) => 10 ** ((gainDbi[at] ?? 0) / 10);
    sum += ((ratio(index) + ratio(index - 1)) / 2) * (sine(index) - sine(index - 1));
  }
  return sum / 2;
}

describe('half-wave dipole', () => {
  // Balanis, Antenna Theory, from memory: directivity 1.643 (2.156 dBi); the exact figure 4/Cin(2π) is 2.151 dBi.
  test('2.151 dBi at the horizon, half of the power 39° off it', () => {
    expect(halfWaveDipoleGainDbi({ elevationDeg: 0 })).toBeCloseTo(
      reference.thinDipoleTheory.inducedEmfHalfWave.directivityDbi,
      3,
    );
    // Half-power width 78°, Balanis (from memory).
    const half = halfWaveDipoleGainDbi({ elevationDeg: 0 }) - 10 * Math.log10(2);
    expect(Math.abs(halfWaveDipoleGainDbi({ elevationDeg: 39 }) - half)).toBeLessThan(0.02);
  });

  test('up and down alike, and on the axis the stated floor', () => {
    fc.assert(
      fc.property(anyElevation, (elevationDeg) => {
        const gain = halfWaveDipoleGainDbi({ elevationDeg });
        expect(gain).toBeCloseTo(halfWaveDipoleGainDbi({ elevationDeg: -elevationDeg }), 9);
        expect(gain).toBeGreaterThanOrEqual(-60);
      }),
    );
    expect(halfWaveDipoleGainDbi({ elevationDeg: 90 })).toBe(-60);
  });

  test('over the sphere it averages to one', () => {
    const elevationDeg = Float64Array.from({ length: 3601 }, (_, index) => index / 20 - 90);
    const gainDbi = elevationDeg.map((elevation) => halfWaveDipoleGainDbi({ elevationDeg: elevation }));
    expect(meanOverSphere({ elevationDeg, gainDbi })).toBeCloseTo(1, 5);
  });
});

describe('collinear array', () => {
  const named = reference.otherAntennas.flatMap((row) => {
    const found = /^(\d) (?:half-wave )?elements.*?([\d.]+) lambda/.exec(row.name);
    return found === null ? [] : [[Number(found[1]), Number(found[2]), row.gainDbi] as const];
  });

  test('the file still holds its cases', () => expect(named).toHaveLength(5));

  // NEC-2 with thick, driven elements; measured at most 0.07 dB.
  test.each(named)(
    '%i elements, %f wavelengths: NEC-2 has %f dBi',
    (elements, spacingWavelengths, gainDbi) => {
      const got = collinearGainDbi({ elements, spacingWavelengths, elevationDeg: 0 });
      expect(Math.abs(got - gainDbi)).toBeLessThan(0.1);
    },
  );

  test('one element is a dipole', () => {
    fc.assert(
      fc.property(anyElevation, (elevationDeg) => {
        const one = collinearGainDbi({ elements: 1, spacingWavelengths: 0.5, elevationDeg });
        expect(one).toBeCloseTo(halfWaveDipoleGainDbi({ elevationDeg }), 4);
      }),
    );
  });

  test('over the sphere every array averages to one', () => {
    fc.assert(
      fc.property(array, (question) => {
        expect(meanOverSphere(collinearPattern({ ...question, stepDeg: 0.05 }))).toBeCloseTo(1, 3);
      }),
      { numRuns: 20 },
    );
  });

  test('more elements gain more, and no array more than its length allows', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 15 }),
        fc.double({ min: 0.5, max: 0.85, noNaN: true }),
        (n, d) => {
          const gain = (elements: number) =>
            collinearGainDbi({ elements, spacingWavelengths: d, elevationDeg: 0 });
          expect(gain(n + 1)).toBeGreaterThan(gain(n));
          // Length of the aperture: at most twice its wavelengths, a uniform line's directivity (Balanis, from memory), and a dipole more.
          expect(10 ** (gain(n) / 10)).toBeLessThan(2 * n * d + 1.65);
        },
      ),
    );
  });

  test('untilted it is the same up and down, and tilt moves the beam down', () => {
    fc.assert(
      fc.property(array, anyElevation, (question, elevationDeg) => {
        const flat = { ...question, downtiltDeg: 0 };
        expect(collinearGainDbi({ ...flat, elevationDeg })).toBeCloseTo(
          collinearGainDbi({ ...flat, elevationDeg: -elevationDeg }),
          5,
        );
      }),
    );
    const tilted = { elements: 8, spacingWavelengths: 0.8, downtiltDeg: 3 };
    expect(collinearGainDbi({ ...tilted, elevationDeg: -3 })).toBeGreaterThan(
      collinearGainDbi({ ...tilted, elevationDeg: 0 }),
    );
  });
});

describe('patterns of solved wires', () => {
  const { solution } = dipole({ frequencyHz, elementDiameterM: 0.002 });

  test('a dipole 2 mm thick is within 0.15 dB of the closed form, from the horizon to 60°', () => {
    const pattern = elevationPattern({ solution });
    for (let elevationDeg = -60; elevationDeg <= 60; elevationDeg += 5) {
      const off = gainTowardsDbi({ pattern, elevationDeg }) - halfWaveDipoleGainDbi({ elevationDeg });
      expect(Math.abs(off)).toBeLessThan(0.15);
    }
    expect(meanOverSphere(elevationPattern({ solution, stepDeg: 0.25 }))).toBeCloseTo(1, 3);
  });

  test('a ground plane averages to one over the sphere, a monopole to two over the upper half', () => {
    const plane = groundPlane({ frequencyHz, elementDiameterM: 0.002, droopDeg: 45 });
    expect(meanOverSphere(elevationPattern({ solution: plane.solution, stepDeg: 0.25 }))).toBeCloseTo(1, 2);
    const rod = monopole({ frequencyHz, elementDiameterM: 0.002 });
    expect(meanOverSphere(elevationPattern({ solution: rod.solution, stepDeg: 0.25 }))).toBeCloseTo(1, 2);
  });

  test('one azimuth is the far field there', () => {
    const pattern = elevationPattern({ solution, azimuthDeg: 30, stepDeg: 10 });
    pattern.elevationDeg.forEach((elevationDeg, index) => {
      const exact = farFieldGainDbi(solution, { elevationDeg, azimuthDeg: 30 });
      expect(pattern.gainDbi[index]).toBeCloseTo(Math.max(exact, -60), 9);
    });
  });
});

describe('gainTowardsDbi', () => {
  const table = {
    elevationDeg: [-90, 0, 90],
    azimuthDeg: [0, 90, 180, 270],
    gainDbi: [-20, 6, -20, -20, 2, -20, -20, -2, -20, -20, 2, -20],
  };

  test('a straight line in decibels, over elevation and over azimuth', () => {
    expect(gainTowardsDbi({ pattern: table, elevationDeg: 0, azimuthDeg: 45 })).toBeCloseTo(4, 12);
    expect(gainTowardsDbi({ pattern: table, elevationDeg: -45, azimuthDeg: 0 })).toBeCloseTo(-7, 12);
  });

  test('across north, and any way to write an azimuth', () => {
    expect(gainTowardsDbi({ pattern: table, elevationDeg: 0, azimuthDeg: 315 })).toBeCloseTo(4, 12);
    expect(gainTowardsDbi({ pattern: table, elevationDeg: 0, azimuthDeg: -45 })).toBeCloseTo(4, 12);
    expect(gainTowardsDbi({ pattern: table, elevationDeg: 0, azimuthDeg: 360 })).toBeCloseTo(6, 12);
  });

  test('never beyond the gains around, and exact at the angles of the table', () => {
    const pattern = collinearPattern({ elements: 4, spacingWavelengths: 0.75, stepDeg: 2 });
    fc.assert(
      fc.property(anyElevation, (elevationDeg) => {
        const low = Math.min(89, Math.floor((elevationDeg + 90) / 2));
        const ends = [pattern.gainDbi[low] ?? 0, pattern.gainDbi[low + 1] ?? 0];
        const gain = gainTowardsDbi({ pattern, elevationDeg });
        expect(gain).toBeGreaterThanOrEqual(Math.min(...ends) - 1e-9);
        expect(gain).toBeLessThanOrEqual(Math.max(...ends) + 1e-9);
      }),
    );
    pattern.elevationDeg.forEach((elevationDeg, index) => {
      expect(gainTowardsDbi({ pattern, elevationDeg })).toBe(pattern.gainDbi[index]);
    });
  });

  test.each([
    ['elevationDeg', { elevationDeg: [0, 0], gainDbi: [1, 1] }],
    ['elevationDeg', { elevationDeg: [5, 1], gainDbi: [1, 1] }],
    ['elevationDeg', { elevationDeg: [0], gainDbi: [1] }],
    ['gainDbi', { elevationDeg: [0, 1], gainDbi: [1] }],
    ['gainDbi', { elevationDeg: [0, 1], gainDbi: [1, Number.NaN] }],
    ['azimuthDeg', { elevationDeg: [0, 1], gainDbi: [1, 1], azimuthDeg: [360] }],
  ])('a table with a bad %s is refused', (name, pattern) => {
    expect(() => gainTowardsDbi({ pattern, elevationDeg: 0.5 })).toThrow(
      expect.objectContaining({ name: 'InputError', argument: expect.stringContaining(name) }),
    );
  });

  test('nothing is guessed beyond the table', () => {
    const pattern = { elevationDeg: [-10, 10], gainDbi: [1, 1] };
    expect(() => gainTowardsDbi({ pattern, elevationDeg: 11 })).toThrow(
      expect.objectContaining({ argument: 'elevationDeg' }),
    );
  });
});

describe('gainTowardsNode', () => {
  const pattern = collinearPattern({ elements: 8, spacingWavelengths: 0.8 });

  // Recommendation ITU-R P.1812: with k = 4/3 the horizon of 20 m is at 18.4 km; there the ray leaves 2h/d below the horizontal.
  test('a node on the horizon of smooth Earth lies 2h/d below the horizontal', () => {
    const distanceM = Math.sqrt(2 * (4 / 3) * 6_371_000 * 20);
    const got = gainTowardsNode({ gatewayHeightM: 20, nodeHeightM: 0, distanceM, pattern });
    expect(got.elevationDeg).toBeCloseTo((-Math.atan((2 * 20) / distanceM) * 180) / Math.PI, 9);
    expect(got.flatEarthElevationDeg).toBeCloseTo((-Math.atan(20 / distanceM) * 180) / Math.PI, 9);
    expect(got.findings).toEqual([]);
  });

  test('under the tower is a null, with what to do', () => {
    const got = gainTowardsNode({ gatewayHeightM: 60, nodeHeightM: 1.5, distanceM: 365, pattern });
    expect(got.elevationDeg).toBeCloseTo(-9.1, 1);
    expect(got.isInNull).toBe(true);
    expect(got.belowMaximumDb).toBeGreaterThan(20);
    expect(got.findings[0]).toMatchObject({ rule: 'pattern-null', severity: 'fix' });
  });

  test('beside the beam is a note, and right under a dipole is far outside it, though between no lobes', () => {
    const beside = gainTowardsNode({ gatewayHeightM: 60, nodeHeightM: 1.5, distanceM: 700, pattern });
    expect(beside.findings.map(({ rule }) => rule)).toEqual(['pattern-beside-beam']);
    const wide = collinearPattern({ elements: 1, spacingWavelengths: 0.5 });
    const steep = gainTowardsNode({ gatewayHeightM: 60, nodeHeightM: 1.5, distanceM: 12, pattern: wide });
    expect(steep.isInNull).toBe(false);
    expect(steep.findings.map(({ rule }) => rule)).toEqual(['pattern-null']);
    expect(steep.elevationDeg).toBeLessThan(-78);
  });

  test('exchanging heights turns the angle around, but for the curved Earth', () => {
    const height = fc.double({ min: 0, max: 500, noNaN: true });
    fc.assert(
      fc.property(height, height, fc.double({ min: 50, max: 3e4, noNaN: true }), (up, down, distanceM) => {
        const there = gainTowardsNode({ gatewayHeightM: up, nodeHeightM: down, distanceM, pattern });
        const back = gainTowardsNode({ gatewayHeightM: down, nodeHeightM: up, distanceM, pattern });
        expect(there.flatEarthElevationDeg).toBeCloseTo(-back.flatEarthElevationDeg, 9);
        expect(there.elevationDeg).toBeLessThan(there.flatEarthElevationDeg);
        expect(there.belowMaximumDb).toBeGreaterThanOrEqual(0);
      }),
    );
  });
});
