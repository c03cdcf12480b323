import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type MastTube, mastLoad, tubeInWind } from '../../src/index.js';

const tube: MastTube = {
  outerDiameterM: 0.0483,
  wallM: 0.0032,
  topM: 2,
  strengthPa: 235e6,
  modulusPa: 210e9,
};

describe('a mast tube', () => {
  // EN 10219-2 / EN 10210-2, tables of circular hollow sections (from memory): elastic section modulus in cm³
  test.each([
    [0.0483, 0.0032, 4.8],
    [0.0337, 0.0026, 1.84],
    [0.0603, 0.0032, 7.78],
  ])('section %d m, wall %d m', (outerDiameterM, wallM, printedCm3) => {
    const { sectionModulusM3 } = tubeInWind({ ...tube, outerDiameterM, wallM }, []);
    expect(Math.abs(sectionModulusM3 * 1e6 - printedCm3)).toBeLessThan(0.0051);
  });

  // Any table of beams: cantilever under an even load w L⁴/(8 E I), w L²/2; under a load at the tip P L³/(3 E I)
  test('even load and load at the tip', () => {
    const stiffness = (210e9 * Math.PI * (0.0483 ** 4 - 0.0419 ** 4)) / 64;
    const even = tubeInWind(tube, [{ forceN: 100, fromM: 0, toM: 2 }]);
    expect(even.topDeflectionM).toBeCloseTo((100 * 2 ** 3) / 8 / stiffness, 9);
    expect(even.supportMomentNm).toBeCloseTo(100, 9);
    const tip = tubeInWind(tube, [{ forceN: 100, fromM: 1.9995, toM: 2.0005 }]);
    expect(tip.topDeflectionM).toBeCloseTo((100 * 2 ** 3) / 3 / stiffness, 6);
    expect(tip.supportMomentNm).toBeCloseTo(200, 9);
  });

  test('moment and deflection agree with a sum over slices', () => {
    const at = fc.double({ min: 0, max: 3, noNaN: true });
    const extent = fc.double({ min: 0.05, max: 2, noNaN: true });
    const support = fc.double({ min: 0, max: 1.5, noNaN: true });
    fc.assert(
      fc.property(at, extent, support, (fromM, lengthM, supportM) => {
        const force = { forceN: 80, fromM, toM: fromM + lengthM };
        const bent = tubeInWind({ ...tube, supportM }, [force]);
        const stiffness = (210e9 * Math.PI * (0.0483 ** 4 - 0.0419 ** 4)) / 64;
        const free = 2 - supportM;
        const momentAt = (height: number) => {
          const low = Math.max(fromM - supportM, height);
          const high = Math.max(force.toM - supportM, height);
          return ((80 / lengthM) * ((high - height) ** 2 - (low - height) ** 2)) / 2;
        };
        // Curvature times the lever to the top, integrated by the midpoint rule.
        const slices = 2000;
        let top = 0;
        for (let slice = 0; slice < slices; slice++) {
          const height = ((slice + 0.5) * free) / slices;
          top += ((momentAt(height) / stiffness) * (free - height) * free) / slices;
        }
        expect(bent.supportMomentNm).toBeCloseTo(momentAt(0), 8);
        expect(Math.abs(bent.topDeflectionM - top)).toBeLessThan(1e-6 * top + 1e-9);
      }),
      { numRuns: 30 },
    );
  });

  test('findings: a tube that yields stops when its figures are given, by name it is a note', () => {
    const thin = { outerDiameterM: 0.016, wallM: 0.001, topM: 2 } as const;
    const severity = (given: MastTube) =>
      mastLoad({
        wind: { code: 'asce-7', gustSpeedMPerS: 50, exposureRatio: 1 },
        parts: [{ name: 'mast', shape: 'round', widthM: 0.04, heightM: 2, centreM: 1 }],
        foot: { kind: 'fixed' },
        tube: given,
      }).findings.find(({ rule }) => rule === 'mast-tube-stress')?.severity;
    expect(severity({ ...thin, strengthPa: 150e6, modulusPa: 70e9 })).toBe('stop');
    expect(severity({ ...thin, material: 'aluminium-6060-t66' })).toBe('note');
    expect(severity(tube)).toBe(undefined);
  });

  test('without material or figures it is refused', () => {
    const { modulusPa, ...rest } = tube;
    expect(modulusPa).toBe(210e9);
    expect(() => tubeInWind(rest, [])).toThrow(/modulusPa: expected a material/);
  });
});
