import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import { indoorLossDb } from '../../src/backhaul/indoorLossDb.js';
import { type SlabMaterial, slabLossDb } from '../../src/backhaul/slabLossDb.js';

describe('slabLossDb against the single-slab method of P.2040-1, computed apart with complex numbers', () => {
  const cases = vectors.p2040.slabLossDbNormalIncidence;
  test('the file still holds its cases', () => expect(cases).toHaveLength(5));
  test.each(cases)('$material', ({ material, thicknessM, frequencyGHz, lossDb }) => {
    const got = slabLossDb({
      material: material as SlabMaterial,
      thicknessM,
      frequencyHz: frequencyGHz * 1e9,
    });
    expect(Math.abs(got - lossDb), `got ${got}`).toBeLessThanOrEqual(5.1e-4);
  });
});

const frequencyHz = fc.double({ min: 1e9, max: 10e9, noNaN: true });

test('a wall never amplifies, and a thick one approaches its decay', () => {
  const material = fc.constantFrom<SlabMaterial>(
    'brick',
    'concrete',
    'plasterboard',
    'wood',
    'glass',
    'chipboard',
  );
  const thickness = fc.double({ min: 0.001, max: 2, noNaN: true });
  fc.assert(
    fc.property(material, thickness, frequencyHz, (name, thicknessM, hertz) => {
      expect(slabLossDb({ material: name, thicknessM, frequencyHz: hertz })).toBeGreaterThan(0);
    }),
  );
});

// P.2040-1 gives the decay in a weak conductor as 1636 σ / sqrt(ε') dB/m (its approximation for a dielectric): concrete at 2 GHz.
test('a metre more of concrete costs its attenuation', () => {
  const at = (thicknessM: number) => slabLossDb({ material: 'concrete', thicknessM, frequencyHz: 2e9 });
  const decayDbPerM = (1636 * 0.0326 * 2 ** 0.8095) / Math.sqrt(5.31);
  expect(Math.abs(at(2) - at(1) - decayDbPerM)).toBeLessThan(0.3);
});

test('where half a wavelength fits into lossless-like glass, little is reflected', () => {
  const half = (thicknessM: number) => slabLossDb({ material: 'glass', thicknessM, frequencyHz: 10e9 });
  // Half a wavelength in glass at 10 GHz: 30 mm / (2 sqrt 6.27) = 5.99 mm.
  expect(half(0.00599)).toBeLessThan(half(0.003));
});

describe('indoorLossDb by the site-general formula of P.1238 (coefficients from memory)', () => {
  // 20 lg 2437 + 28 lg 10 - 28 = 67.737, worked by hand from lg 2437 = 3.386856.
  test('10 m in a house', () => {
    expect(indoorLossDb({ frequencyHz: 2.437e9, distanceM: 10, building: 'house' })).toBeCloseTo(67.737, 3);
  });

  test('ten times as far costs N, a floor its figure', () => {
    const { N, floorDb } = vectors.p1238;
    const office = { frequencyHz: 2.45e9, building: 'office' } as const;
    const home = { frequencyHz: 2.45e9, building: 'house' } as const;
    const near = indoorLossDb({ ...office, distanceM: 3 });
    expect(indoorLossDb({ ...office, distanceM: 30 }) - near).toBeCloseTo(N['2.4 GHz office'], 9);
    expect(indoorLossDb({ ...office, distanceM: 3, floorsCount: 1 }) - near).toBeCloseTo(
      floorDb['2.4 GHz office, 1 floor'],
      9,
    );
    const house = indoorLossDb({ ...home, distanceM: 3 });
    expect(indoorLossDb({ ...home, distanceM: 30 }) - house).toBeCloseTo(N['2.4 GHz residential'], 9);
    expect(indoorLossDb({ ...home, distanceM: 3, floorsCount: 1 }) - house).toBeCloseTo(
      floorDb['2.4 GHz house'],
      9,
    );
  });

  test('grows with distance and floors', () => {
    const distance = fc.double({ min: 1, max: 999, noNaN: true });
    const building = fc.constantFrom('house', 'flats', 'office');
    fc.assert(
      fc.property(distance, building, fc.integer({ min: 0, max: 2 }), (distanceM, name, floorsCount) => {
        const path = { frequencyHz: 5.5e9, distanceM, building: name, floorsCount } as const;
        const here = indoorLossDb(path);
        expect(indoorLossDb({ ...path, distanceM: distanceM + 1 })).toBeGreaterThan(here);
        expect(indoorLossDb({ ...path, floorsCount: floorsCount + 1 })).toBeGreaterThan(here);
      }),
    );
  });

  test('other bands are outside its validity', () => {
    expect(() => indoorLossDb({ frequencyHz: 3.5e9, distanceM: 10, building: 'house' })).toThrow(
      expect.objectContaining({ name: 'InputError', code: 'outside-validity', argument: 'frequencyHz' }),
    );
  });
});
