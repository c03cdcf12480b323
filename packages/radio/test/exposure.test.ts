import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import {
  type ExposureLimitName,
  type ExposureQuestion,
  exposureDistance,
  exposureLimit,
  powerDensityWPerM2,
} from '../src/index.js';
import { expectNear, half } from './support.js';

const limitNames: ExposureLimitName[] = [
  'fcc-general',
  'fcc-occupational',
  'icnirp-2020-general',
  'icnirp-2020-occupational',
];
const rules = (question: ExposureQuestion) =>
  exposureDistance(question).findings.map(({ rule, severity }) => `${rule}: ${severity}`);

describe('powerDensityWPerM2', () => {
  // From the exposure prediction in the user manual of a certified 2.4 GHz radio (read), after the equation on page 18 of OET
  // Bulletin 65, edition 97-01: 16.00 dBm, 0 dBi, 20 cm: 0.007920 mW/cm², which is 0.07920 W/m².
  test('a certified radio at 20 cm', () => {
    expectNear(powerDensityWPerM2({ eirpDbm: 16, distanceM: 0.2 }), 0.0792, half(5));
  });
  test('falls with the square of the distance', () =>
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 1e5, noNaN: true }), (d) => {
        const near = powerDensityWPerM2({ eirpDbm: 30, distanceM: d });
        expectNear(near / powerDensityWPerM2({ eirpDbm: 30, distanceM: 3 * d }), 9, 1e-12);
      }),
    ));
});

describe('exposureLimit', () => {
  // 47 CFR 1.1310, table 1: f/1500 and f/300 mW/cm² up to 1500 MHz, 1.0 and 5.0 mW/cm² above; 1 mW/cm² is 10 W/m².
  test.each([
    ['fcc-general', 300e6, 2],
    ['fcc-general', 1500e6, 10],
    ['fcc-general', 2437e6, 10],
    ['fcc-occupational', 300e6, 10],
    ['fcc-occupational', 900e6, 30],
    ['fcc-occupational', 5.8e9, 50],
    // ICNIRP 2020, table 5 (from memory). For the general public the same f/200 and 10 W/m² stand in the French decree 2002-775
    // after EU Recommendation 1999/519/EC (read).
    ['icnirp-2020-general', 400e6, 2],
    ['icnirp-2020-general', 900e6, 4.5],
    ['icnirp-2020-general', 2437e6, 10],
    ['icnirp-2020-occupational', 400e6, 10],
    ['icnirp-2020-occupational', 900e6, 22.5],
    ['icnirp-2020-occupational', 2437e6, 50],
  ] as const)('%s at %d Hz is %d W/m²', (limit, frequencyHz, want) => {
    expectNear(exposureLimit({ limit, frequencyHz }).limitWPerM2, want, 1e-12);
  });
  test('only the tables that were read count as verified', () => {
    const verified = limitNames.map((limit) => exposureLimit({ limit, frequencyHz: 868.1e6 }).isVerified);
    expect(verified).toEqual([true, true, false, false]);
  });
  test('never falls with frequency, and trained people have more room', () =>
    fc.assert(
      fc.property(fc.double({ min: 400e6, max: 50e9, noNaN: true }), (f) => {
        for (const limit of limitNames) {
          const here = exposureLimit({ limit, frequencyHz: f }).limitWPerM2;
          expect(exposureLimit({ limit, frequencyHz: 1.5 * f }).limitWPerM2).toBeGreaterThanOrEqual(here);
        }
        const of = (limit: ExposureLimitName) => exposureLimit({ limit, frequencyHz: f }).limitWPerM2;
        expectNear(of('fcc-occupational') / of('fcc-general'), 5, 1e-12);
        expectNear(of('icnirp-2020-occupational') / of('icnirp-2020-general'), 5, 1e-12);
      }),
    ));
  test('below the tables, and in megahertz, it is refused', () => {
    expect(() => exposureLimit({ limit: 'fcc-general', frequencyHz: 144e6 })).toThrow(
      expect.objectContaining({ code: 'out-of-range', argument: 'frequencyHz' }),
    );
    expect(() => exposureLimit({ limit: 'fcc-general', frequencyHz: 868.1 })).toThrow(/megahertz\?/);
    expect(() => exposureLimit({ limit: 'fcc' as ExposureLimitName, frequencyHz: 868.1e6 })).toThrow(
      expect.objectContaining({ code: 'unknown-option', argument: 'limit' }),
    );
  });
});

describe('exposureDistance', () => {
  test('the file still holds its cases', () => expect(vectors.rfExposureExamples).toHaveLength(4));
  test.each(vectors.rfExposureExamples)('$eirpDbm dBm at $frequencyMHz MHz, reference table', (row) => {
    const base = { eirpDbm: row.eirpDbm, frequencyHz: row.frequencyMHz * 1e6 };
    const free = { ...base, groundReflection: 'none' } as const;
    const fcc = exposureDistance({ ...free, limit: 'fcc-general' });
    const icnirp = exposureDistance({ ...free, limit: 'icnirp-2020-general' });
    expectNear(fcc.limitWPerM2, row.fccWm2, half(4));
    expectNear(fcc.distanceM, row.fccM, half(4));
    expectNear(icnirp.limitWPerM2, row.icnirpWm2, half(4));
    expectNear(icnirp.distanceM, row.icnirpM, half(4));
    expectNear(exposureDistance({ ...base, limit: 'fcc-general' }).distanceM, row.fccReflect256M, half(4));
  });
  // The same manual (above): 20 cm is reached with 21.0 dBi on 16.00 dBm, at 1 mW/cm².
  test('a certified radio with the largest antenna it may have', () => {
    const got = exposureDistance({
      eirpDbm: 37,
      frequencyHz: 2400e6,
      limit: 'fcc-general',
      groundReflection: 'none',
    });
    expectNear(got.distanceM, 0.2, half(3));
  });

  const question: fc.Arbitrary<ExposureQuestion> = fc.record({
    eirpDbm: fc.double({ min: -20, max: 70, noNaN: true }),
    frequencyHz: fc.double({ min: 400e6, max: 10e9, noNaN: true }),
    limit: fc.constantFrom(...limitNames),
    dutyCycle: fc.double({ min: 0.001, max: 1, noNaN: true }),
    groundReflection: fc.constantFrom('none', 'typical', 'full'),
  });
  test('at the distance the averaged density, reflections included, is the limit', () =>
    fc.assert(
      fc.property(question, (q) => {
        const got = exposureDistance(q);
        const density = powerDensityWPerM2({ eirpDbm: q.eirpDbm, distanceM: got.distanceM });
        const averaged = density * (q.dutyCycle ?? 1) * got.groundReflectionRatio;
        expectNear(averaged / got.limitWPerM2, 1, 1e-12);
      }),
    ));
  test('the recommended distance is never nearer than the distance, half a wave, or 20 cm', () =>
    fc.assert(
      fc.property(question, (q) => {
        const got = exposureDistance(q);
        expect(got.recommendedDistanceM).toBeGreaterThanOrEqual(Math.max(got.distanceM, 0.2));
        expect(got.recommendedDistanceM).toBeGreaterThanOrEqual(299_792_458 / q.frequencyHz / 2 - 1e-12);
        expect(got.isNearField).toBe(got.distanceM < got.nearFieldWithinM);
        expect(got.findings[0]?.rule).toBe('rf-exposure-caution');
      }),
    ));
  test('a hundredth of the airtime is a tenth of the distance, and full reflection doubles it', () => {
    const base = { eirpDbm: 36, frequencyHz: 915e6, limit: 'fcc-general', groundReflection: 'none' } as const;
    const whole = exposureDistance(base).distanceM;
    expectNear(exposureDistance({ ...base, dutyCycle: 0.01 }).distanceM / whole, 0.1, 1e-12);
    expectNear(exposureDistance({ ...base, groundReflection: 'full' }).distanceM / whole, 2, 1e-12);
  });
});

describe('exposure findings', () => {
  const strong = { eirpDbm: 36, frequencyHz: 915e6, limit: 'fcc-general' } as const; // 0.365 m, λ/2 0.164 m
  const weak = { eirpDbm: 16.15, frequencyHz: 868.1e6, limit: 'fcc-general' } as const; // 0.038 m, λ/2 0.173 m
  test('always a caution', () => expect(rules(strong)).toEqual(['rf-exposure-caution: note']));
  test('a distance in the near field is said to be none', () => {
    expect(rules(weak)).toEqual(['rf-exposure-caution: note', 'rf-exposure-near-field: note']);
    expect(exposureDistance(weak).recommendedDistanceM).toBe(0.2);
  });
  test('a limit from memory is called unverified and never stops anything', () => {
    const question = { ...strong, limit: 'icnirp-2020-general', nearestPersonM: 0.1 } as const;
    expect(rules(question)).toEqual([
      'rf-exposure-caution: note',
      'rf-exposure-limit-unverified: note',
      'rf-exposure-limit: note',
    ]);
    const messages = exposureDistance(question).findings.map((finding) => finding.message);
    expect(messages[1]).toMatch(/unverified/);
    expect(messages[2]).toMatch(/unverified/);
  });
  test('people within a limit that was read: stop', () => {
    expect(rules({ ...strong, nearestPersonM: 0.3 })).toContain('rf-exposure-limit: stop');
    expect(rules({ ...strong, nearestPersonM: 0.4 })).toEqual(['rf-exposure-caution: note']);
    expect(rules({ ...weak, nearestPersonM: 0.1 })).toContain('rf-exposure-margin: note');
  });
  test('the message gives a distance with its unit', () => {
    const [caution] = exposureDistance(strong).findings;
    expect(caution).toMatchObject({ measured: '0.365 m', source: '47 CFR 1.1310, table 1' });
    expect(caution?.message).toMatch(/within 0\.365 m/);
  });
});
