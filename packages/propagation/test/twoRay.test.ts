import { p525, twoRay } from '@finial/propagation';
import { describe, expect, test } from 'vitest';

describe('two rays over flat ground, against textbook limits', () => {
  // Plane-earth law (textbook matter, from memory): loss → 40 log d - 20 log(h1 h2) far beyond the breakpoint, where the reflection tends to -1.
  test('the fourth-power law', () => {
    const got = twoRay.twoRayLoss({
      frequencyHz: 868.1e6,
      distanceM: 100_000,
      transmitterHeightM: 10,
      receiverHeightM: 10,
      polarisation: 'horizontal',
    });
    expect(got.planeEarthLossDb).toBeCloseTo(160, 9);
    expect(Math.abs(got.lossDb - 160)).toBeLessThan(0.02);
  });

  // Brewster (textbook matter, from memory): a lossless ground takes a vertical wave in whole at tan θ = 1/√ε above the ground.
  test('no reflection at the Brewster angle', () => {
    const got = twoRay.twoRayLoss({
      frequencyHz: 868.1e6,
      distanceM: 40,
      transmitterHeightM: 5,
      receiverHeightM: 5,
      permittivityRatio: 16,
      conductivitySPerM: 0,
    });
    expect(got.reflectionRatio).toBeLessThan(1e-12);
    expect(got.lossDb).toBeCloseTo(got.freeSpaceLossDb, 9);
  });

  // Fresnel's coefficient (textbook matter, from memory) straight down: (√ε - 1)/(√ε + 1), 0.6 for ε = 16.
  test.each(['horizontal', 'vertical'] as const)('steep incidence, %s', (polarisation) => {
    const got = twoRay.twoRayLoss({
      frequencyHz: 868.1e6,
      distanceM: 1,
      transmitterHeightM: 1000,
      receiverHeightM: 1000,
      permittivityRatio: 16,
      conductivitySPerM: 0,
      polarisation,
    });
    expect(got.reflectionRatio).toBeCloseTo(0.6, 6);
  });
});

// 32.44778 + 20 log f + 20 log d in MHz and km: the exact form of P.525, c = 299792458 m/s, printed with more digits.
test('free space along the slant', () => {
  const path = {
    frequencyHz: 868.1e6,
    distanceM: [0, 3000],
    heightM: [4000, 0],
    transmitterHeightM: 10,
    receiverHeightM: 10,
  };
  expect(p525.freeSpace(path).slantDistanceM).toBe(5000);
  expect(p525.freeSpace(path).lossDb).toBeCloseTo(32.447783 + 20 * Math.log10(868.1) + 20 * Math.log10(5), 5);
  expect(p525.model()(path)).toEqual({
    lossDb: p525.freeSpace(path).lossDb,
    terms: { freeSpaceLossDb: p525.freeSpace(path).lossDb },
    warnings: [],
  });
});
