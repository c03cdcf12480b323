import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import { wireResistanceOhm } from '../../src/supply/wireResistanceOhm.js';

describe('wireResistanceOhm against the gauges of NBS Circular 31 as reprinted', () => {
  test('the file still holds its gauges', () => expect(vectors.awg).toHaveLength(6));
  // 1.2 %: the printed table rounds its diameters. Greatest difference seen: 0.02 %.
  test.each(vectors.awg)('$awg AWG', ({ awg, publishedOhmPerKm }) => {
    const got = wireResistanceOhm({ wire: `${awg} AWG`, lengthM: 1000 });
    expect(Math.abs(got / publishedOhmPerKm - 1)).toBeLessThan(0.012);
  });
});

describe('wireResistanceOhm against IEC 60228:2004 (class 5) and DIN VDE 0295 as reprinted', () => {
  const { class5and6plain, smallSizesDinVde0295 } = vectors.iec60228MaxOhmPerKm20C;
  const rows = Object.entries({ ...class5and6plain, ...smallSizesDinVde0295 });
  test('the file still holds its sizes', () => expect(rows).toHaveLength(7));
  test.each(rows)('%s mm2', (size, ohmPerKm) => {
    expect(wireResistanceOhm({ wire: `${size} mm2`, lengthM: 1000 })).toBeCloseTo(ohmPerKm, 9);
    expect(wireResistanceOhm({ wire: `${size}mm²`, lengthM: 1000 })).toBeCloseTo(ohmPerKm, 9);
  });

  // Kt brings a measured resistance to 20 degrees C; the printed table follows its approximate form, up to 0.3 % away.
  test.each(Object.entries(vectors.copperTemperature.kt))(
    'correction at %s degrees C',
    (temperatureC, kt) => {
      const warm = wireResistanceOhm({ wire: '1 mm2', lengthM: 1000, temperatureC: Number(temperatureC) });
      expect(Math.abs((warm * kt) / 19.5 - 1)).toBeLessThan(0.004);
    },
  );
});

test('is proportional to length, and grows with warmth', () => {
  const length = fc.double({ min: 0.01, max: 500, noNaN: true });
  const temperature = fc.double({ min: -60, max: 199, noNaN: true });
  fc.assert(
    fc.property(length, temperature, (lengthM, temperatureC) => {
      const one = wireResistanceOhm({ wire: '18 AWG', lengthM, temperatureC });
      expect(wireResistanceOhm({ wire: '18 AWG', lengthM: 2 * lengthM, temperatureC }) / one).toBeCloseTo(
        2,
        12,
      );
      expect(wireResistanceOhm({ wire: '18 AWG', lengthM, temperatureC: temperatureC + 1 })).toBeGreaterThan(
        one,
      );
    }),
  );
});

test('three gauges are about half the area, by the rule of the trade', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 37 }), (gauge) => {
      const ratio =
        wireResistanceOhm({ wire: `${gauge + 3} AWG`, lengthM: 1 }) /
        wireResistanceOhm({ wire: `${gauge} AWG`, lengthM: 1 });
      expect(Math.abs(ratio - 2)).toBeLessThan(0.01);
    }),
  );
});

test.each(['41 AWG', '-1 AWG', '', '3 mm2', 'AWG', '24', 24, null, [], {}, { resistanceOhmPerM: '0.1' }])(
  'the wire %s is refused by name',
  (wire) => {
    expect(() => wireResistanceOhm({ wire: wire as string, lengthM: 1 })).toThrow(
      expect.objectContaining({ name: 'InputError', argument: expect.stringMatching(/^wire/) }),
    );
  },
);
