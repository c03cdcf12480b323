import { describe, expect, test } from 'vitest';
import * as propagation from '../src/index.js';

const { models } = propagation;

describe('the table of models', () => {
  test('names only what the package has', () => {
    const exported = Object.keys(propagation);
    for (const { namespace } of models) expect(exported).toContain(namespace);
    expect(new Set(models.map(({ name }) => name)).size).toBe(models.length);
  });

  test('ranges are ranges', () => {
    for (const row of models) {
      expect(row.minimumFrequencyHz).toBeLessThan(row.maximumFrequencyHz);
      if (row.maximumDistanceM !== undefined) expect(row.minimumDistanceM).toBeLessThan(row.maximumDistanceM);
    }
  });

  // The table must not promise what the functions refuse: each is called at its ends and just beyond them.
  const building = { buildingClass: 'traditional', probability: 0.5 } as const;
  const hataPath = { baseHeightM: 30, mobileHeightM: 1.5, distanceM: 2000 };
  const calls: Readonly<Record<string, (frequencyHz: number) => unknown>> = {
    'Okumura-Hata': (frequencyHz) =>
      propagation.hata.okumuraHata({ ...hataPath, frequencyHz, surroundings: 'open' }),
    'COST 231-Hata': (frequencyHz) =>
      propagation.hata.cost231Hata({ ...hataPath, frequencyHz, surroundings: 'medium-city' }),
    'Short paths outdoors (site-general)': (frequencyHz) =>
      propagation.p1411.siteGeneralLoss({ frequencyHz, distanceM: 100, situation: 'line-of-sight' }),
    'Street level to street level': (frequencyHz) =>
      propagation.p1411.streetLevelLoss({
        frequencyHz,
        distanceM: 100,
        surroundings: 'urban',
        probability: 0.5,
      }),
    'Clutter at one end, by height': (frequencyHz) =>
      propagation.p2108.terminalClutterLoss({ frequencyHz, antennaHeightM: 1.5, surroundings: 'urban' }),
    'Clutter at one end, by statistics': (frequencyHz) =>
      propagation.p2108.terrestrialClutterLoss({ frequencyHz, distanceM: 1000, probability: 0.5 }),
    'Clutter under a slant path': (frequencyHz) =>
      propagation.p2108.slantClutterLoss({ frequencyHz, elevationDeg: 10, probability: 0.5 }),
    'Building entry': (frequencyHz) => propagation.p2109.buildingEntryLoss({ ...building, frequencyHz }),
    Woodland: (frequencyHz) => propagation.p833.woodlandLoss({ frequencyHz, depthM: 10 }),
  };

  test.each(Object.entries(calls))('%s holds over the range that its row states', (name, call) => {
    const row = models.find((model) => model.name === name);
    if (row === undefined) throw new Error(`no row ${name}`);
    expect(() => call(row.minimumFrequencyHz)).not.toThrow();
    expect(() => call(row.maximumFrequencyHz)).not.toThrow();
    for (const frequencyHz of [row.minimumFrequencyHz * 0.99, row.maximumFrequencyHz * 1.01]) {
      expect(() => call(frequencyHz)).toThrow(expect.objectContaining({ argument: 'frequencyHz' }));
    }
  });
});
