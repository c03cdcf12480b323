import { batteryLife, type CurrentPhase, energyPerFrame, type NodeCycle, radioCurrents } from '@finial/lora';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

/** SF7, 11 bytes: 61.696 ms (reference/lorawan.md, worked values). */
const cycle: NodeCycle = { timeOnAirSeconds: 0.061696, transmitCurrentA: 0.029, supplyV: 3.3 };

describe('energyPerFrame', () => {
  test('29 mA of the SX1276 at 13 dBm (datasheet, from memory) for 61.696 ms, by hand', () => {
    const current = radioCurrents.find(({ chip, powerDbm }) => chip === 'SX1276' && powerDbm === 13);
    const { chargeCoulombs, energyJ } = energyPerFrame({
      ...cycle,
      transmitCurrentA: current?.currentA as number,
    });
    // 29 mA x 61.696 ms = 1.789184 mC; x 3.3 V = 5.9043072 mJ.
    expect(chargeCoulombs).toBeCloseTo(1.789184e-3, 12);
    expect(energyJ).toBeCloseTo(5.9043072e-3, 12);
  });

  test('sleep in between, by hand', () => {
    const { averageCurrentA, items } = energyPerFrame({
      ...cycle,
      receiveWindows: [{ durationSeconds: 0.1, currentA: 0.01 }],
      sleepCurrentA: 2e-6,
      intervalSeconds: 100,
    });
    // 1.789184 mC + 1 mC + 99.838304 s x 2 µA = 2.988860608 mC in 100 s.
    expect(averageCurrentA).toBeCloseTo(29.88860608e-6, 15);
    expect(items.map(({ name }) => name)).toEqual(['transmit', 'receive window 1', 'sleep']);
  });

  const phase = fc.record({
    durationSeconds: fc.double({ min: 0, max: 3, noNaN: true }),
    currentA: fc.double({ min: 0, max: 0.2, noNaN: true }),
  });
  const phases = fc.array(phase, { maxLength: 5 });

  test('the sum of its items, wherever a phase is counted', () =>
    fc.assert(
      fc.property(phases, phases, (receiveWindows, otherPhases) => {
        const apart = energyPerFrame({ ...cycle, receiveWindows, otherPhases });
        const together = energyPerFrame({ ...cycle, receiveWindows: [...receiveWindows, ...otherPhases] });
        expect(together.chargeCoulombs).toBeCloseTo(apart.chargeCoulombs, 12);
        const parts = [...receiveWindows, ...otherPhases].reduce(
          (sum: number, { durationSeconds, currentA }: CurrentPhase) => sum + durationSeconds * currentA,
          energyPerFrame(cycle).chargeCoulombs,
        );
        expect(apart.chargeCoulombs).toBeCloseTo(parts, 12);
        expect(apart.items.reduce((sum, { energyJ }) => sum + energyJ, 0)).toBeCloseTo(apart.energyJ, 12);
      }),
    ));

  test('twice the time, the current or the voltage: twice the energy', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 1e-3, max: 10, noNaN: true }),
        fc.double({ min: 1e-3, max: 1, noNaN: true }),
        (timeOnAirSeconds, transmitCurrentA) => {
          const one = { ...cycle, timeOnAirSeconds, transmitCurrentA };
          const { energyJ } = energyPerFrame(one);
          const doubled = [
            { ...one, timeOnAirSeconds: 2 * timeOnAirSeconds },
            { ...one, transmitCurrentA: 2 * transmitCurrentA },
            { ...one, supplyV: 6.6 },
          ];
          for (const each of doubled) expect(energyPerFrame(each).energyJ / energyJ).toBeCloseTo(2, 12);
        },
      ),
    ));

  test('the mean current falls to the sleep current as the interval grows', () =>
    fc.assert(
      fc.property(fc.double({ min: 1, max: 1e8, noNaN: true }), (intervalSeconds) => {
        const at = (seconds: number) =>
          energyPerFrame({ ...cycle, sleepCurrentA: 3e-6, intervalSeconds: seconds })
            .averageCurrentA as number;
        expect(at(2 * intervalSeconds)).toBeLessThan(at(intervalSeconds));
        expect(at(intervalSeconds)).toBeGreaterThan(3e-6);
      }),
    ));

  test('every row of the table has a source, and those from memory say so', () => {
    expect(radioCurrents).toHaveLength(13);
    for (const { citation, currentA, state, powerDbm } of radioCurrents) {
      expect(citation.document).not.toBe('');
      expect(currentA).toBeLessThan(0.2);
      expect(powerDbm !== undefined).toBe(state === 'transmit');
    }
    expect(radioCurrents.filter(({ citation }) => citation.status === 'quoted')).toHaveLength(2);
  });

  test.each([
    ['timeOnAirSeconds', { timeOnAirSeconds: 0 }],
    ['transmitCurrentA', { transmitCurrentA: -1 }],
    ['transmitCurrentA', { transmitCurrentA: 101 }],
    ['supplyV', { supplyV: 0 }],
    ['receiveWindows', { receiveWindows: {} }],
    ['receiveWindows[0]', { receiveWindows: [null] }],
    ['receiveWindows[0].currentA', { receiveWindows: [{ durationSeconds: 1 }] }],
    ['otherPhases[0].durationSeconds', { otherPhases: [{ durationSeconds: Number.NaN, currentA: 1 }] }],
    ['otherPhases[0].name', { otherPhases: [{ name: 3, durationSeconds: 1, currentA: 1 }] }],
    ['sleepCurrentA', { intervalSeconds: 60 }],
    ['intervalSeconds', { sleepCurrentA: 1e-6 }],
    ['intervalSeconds', { sleepCurrentA: 1e-6, intervalSeconds: 0.05 }],
  ])('%s of %o is refused by name', (argument, wrong) =>
    expect(() => energyPerFrame({ ...cycle, ...wrong } as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );

  test('milliamperes are hinted at', () =>
    expect(() => energyPerFrame({ ...cycle, transmitCurrentA: 120 })).toThrow(/milliamperes\?/));
});

describe('batteryLife', () => {
  test('without self-discharge it is division: 2.4 Ah at 100 µA, all of it, are 1000 days', () => {
    const life = batteryLife({ averageCurrentA: 100e-6, capacityAh: 2.4, usableRatio: 1 });
    expect(life.lifeDays).toBeCloseTo(1000, 9);
    expect(life.usedCoulombs).toBeCloseTo(8640, 6);
    expect(life.selfDischargedCoulombs).toBeCloseTo(0, 6);
  });

  const anyBattery = fc.record({
    averageCurrentA: fc.double({ min: 1e-7, max: 1, noNaN: true }),
    capacityAh: fc.double({ min: 0.01, max: 100, noNaN: true }),
    usableRatio: fc.double({ min: 0.01, max: 1, noNaN: true }),
    selfDischargePerYearRatio: fc.double({ min: 0, max: 0.99, noNaN: true }),
  });

  test('the charge is used, lost or left', () =>
    fc.assert(
      fc.property(anyBattery, (battery) => {
        const { usedCoulombs, selfDischargedCoulombs, leftCoulombs, lifeDays } = batteryLife(battery);
        const full = battery.capacityAh * 3600;
        expect((usedCoulombs + selfDischargedCoulombs + leftCoulombs) / full).toBeCloseTo(1, 9);
        expect(lifeDays).toBeGreaterThan(0);
      }),
    ));

  test('self-discharge is that of the charge that is there: against small steps of time', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 1e-5, max: 1e-3, noNaN: true }),
        fc.double({ min: 0.01, max: 0.5, noNaN: true }),
        fc.double({ min: 0.3, max: 1, noNaN: true }),
        (averageCurrentA, selfDischargePerYearRatio, usableRatio) => {
          const battery = { averageCurrentA, capacityAh: 2, usableRatio, selfDischargePerYearRatio };
          const { lifeSeconds } = batteryLife(battery);
          const steps = 20_000;
          const step = lifeSeconds / steps;
          const keptPerStep = (1 - selfDischargePerYearRatio) ** (step / (365.25 * 86_400));
          let charge = 2 * 3600;
          for (let count = 0; count < steps; count++) charge = charge * keptPerStep - averageCurrentA * step;
          expect(Math.abs(charge - 7200 * (1 - usableRatio))).toBeLessThan(0.005 * 7200);
        },
      ),
      { numRuns: 20 },
    ));

  test('less current, more capacity, less loss: longer', () =>
    fc.assert(
      fc.property(anyBattery, (battery) => {
        const { lifeDays } = batteryLife(battery);
        const longer = [
          { ...battery, averageCurrentA: battery.averageCurrentA / 2 },
          { ...battery, capacityAh: battery.capacityAh * 2 },
          { ...battery, selfDischargePerYearRatio: battery.selfDischargePerYearRatio / 2 },
        ];
        for (const each of longer) {
          expect(batteryLife(each).lifeDays).toBeGreaterThanOrEqual(lifeDays * (1 - 1e-9));
        }
      }),
    ));

  test('a vanishing self-discharge joins the plain division', () => {
    const battery = { averageCurrentA: 1e-5, capacityAh: 2, usableRatio: 0.8 };
    const plain = batteryLife(battery).lifeDays;
    for (const selfDischargePerYearRatio of [1e-15, 1e-12, 1e-9, 1e-8]) {
      expect(batteryLife({ ...battery, selfDischargePerYearRatio }).lifeDays / plain).toBeCloseTo(1, 6);
    }
  });

  test.each([
    ['averageCurrentA', { averageCurrentA: 0 }],
    ['capacityAh', { capacityAh: 0 }],
    ['usableRatio', { usableRatio: 1.1 }],
    ['usableRatio', { usableRatio: undefined }],
    ['selfDischargePerYearRatio', { selfDischargePerYearRatio: 1 }],
  ])('%s of %o is refused by name', (argument, wrong) => {
    const battery = { averageCurrentA: 1e-5, capacityAh: 2, usableRatio: 0.8, ...wrong };
    expect(() => batteryLife(battery as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  });
});
