import fc from 'fast-check';
import { expect, test } from 'vitest';
import { solarSizing } from '../../src/supply/solarSizing.js';

// A public worksheet for off-grid batteries (after the IEEE method, as its author says): 1000 Wh a day, 2.5 days, half of the capacity
// used, 1.30 for cold at 40 degrees F, 12 V: 6500 Wh.
test('battery of a published worked example', () => {
  const sized = solarSizing({
    meanLoadW: 1000 / 24,
    worstMonthWPerM2: 100,
    autonomyDays: 2.5,
    batteryV: 12,
    usableRatio: 0.5,
    coldAndAgedRatio: 1 / 1.3,
    storageEfficiencyRatio: 1,
  });
  expect(sized.batteryJ / 3600).toBeCloseTo(6500, 6);
  expect(sized.batteryAh).toBeCloseTo(6500 / 12, 6);
});

const load = { meanLoadW: 5, worstMonthWPerM2: 83.3, autonomyDays: 5, batteryV: 12 };

test('a panel of one kilowatt under one peak sun hour gives one kilowatt hour a day', () => {
  const sized = solarSizing({
    ...load,
    meanLoadW: 1000 / 24,
    worstMonthWPerM2: 1000 / 24,
    storageEfficiencyRatio: 1,
    panelPerformanceRatio: 1,
    arrayToLoadRatio: 1,
  });
  expect(sized.panelW).toBeCloseTo(1000, 9);
  expect(sized.recoveryDays).toBeUndefined();
});

test('energy closes: the surplus of the recovery days is what the autonomy took', () => {
  const watts = fc.double({ min: 0.1, max: 50, noNaN: true });
  const days = fc.double({ min: 0.5, max: 20, noNaN: true });
  const array = fc.double({ min: 1.01, max: 4, noNaN: true });
  const efficiency = fc.double({ min: 0.3, max: 1, noNaN: true });
  fc.assert(
    fc.property(watts, days, array, efficiency, (meanLoadW, autonomyDays, arrayToLoadRatio, ratio) => {
      const ask = { ...load, meanLoadW, autonomyDays, arrayToLoadRatio, storageEfficiencyRatio: ratio };
      const sized = solarSizing(ask);
      const { recoveryDays = 0, panelMeanW, autonomyJ } = sized;
      const surplusJ = (panelMeanW * ratio - meanLoadW) * recoveryDays * 86_400;
      expect(surplusJ / (autonomyJ * ratio)).toBeCloseTo(1, 6);
      const twice = solarSizing({ ...ask, meanLoadW: 2 * meanLoadW });
      expect(twice.panelW / sized.panelW).toBeCloseTo(2, 9);
      expect(twice.batteryAh / sized.batteryAh).toBeCloseTo(2, 9);
    }),
  );
});

test('a slow recovery and a short autonomy are named', () => {
  const rules = (ask: Parameters<typeof solarSizing>[0]) => solarSizing(ask).findings.map(({ rule }) => rule);
  expect(rules({ ...load, arrayToLoadRatio: 1.05 })).toContain('solar-recovery');
  expect(rules({ ...load, autonomyDays: 1 })).toContain('solar-autonomy');
  expect(rules(load)).toEqual(['battery-safety', 'panel-wind']);
});

test('kilowatt hours a day in the place of W/m2 are recognised', () => {
  expect(() => solarSizing({ ...load, worstMonthWPerM2: 2 })).toThrow(
    /kilowatt hours per square metre and day\?/,
  );
});
