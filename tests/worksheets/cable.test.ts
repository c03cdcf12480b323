import { describe, expect, test } from 'vitest';
import { cable } from '../../docs/worksheets/cable/cable.js';
import { askSheet, checkCode, codeFaults, fact, numberIn, refusedField } from './askSheet.js';

/** Gateway and antenna joined by nothing but the parts given. */
const only = { part1: 'none', part2: 'none', part3: 'none' };

describe('the cable worksheet', () => {
  test.each([
    // Worked chains of tests/reference/hardware-vectors.json, chainExamples, from fits made outside this project.
    [
      '10 m of RG-58C/U with two pairs at 868.1 MHz',
      { ...only, gatewayEnd: 'N jack', part1: 'cable', cable1: 'RG-58C/U', length1M: 10 },
      6.436,
    ],
    [
      '10 m of the 10 mm class, arrestor and pigtail with four pairs',
      {
        ...only,
        gatewayEnd: 'SMA jack',
        part1: 'pigtail',
        pigtail1: 'SMA plug to N jack, 0.3 m of RG-316/U',
        part2: 'arrestor',
        arrestor2: 'gas-discharge arrestor, N plug to N jack',
        part3: 'cable',
        cable3: 'low-loss 10 mm class',
        length3M: 10,
      },
      1.894,
    ],
  ])('%s', async (_, values, wantedDb) => {
    const outcome = await askSheet(cable, values);
    expect(Math.abs(numberIn(outcome, 'Loss') - wantedDb)).toBeLessThanOrEqual(0.015);
    expect(outcome.lead).toMatch(/^Every joint mates/);
    await checkCode(outcome.code);
  });

  test('sends and hears by as much less as the run loses', async () => {
    const outcome = await askSheet(cable);
    const lossDb = numberIn(outcome, 'Loss');
    expect(numberIn(outcome, 'Radiated power (EIRP)')).toBeCloseTo(14 + 2 - lossDb, 0);
    // A loss at 290 K ahead of a receiver adds its decibels to the noise figure (Friis).
    expect(numberIn(outcome, 'Noise figure at the antenna')).toBeCloseTo(4 + lossDb, 0);
    expect(numberIn(outcome, 'Power that reaches the antenna')).toBeCloseTo(100 * 10 ** (-lossDb / 10), 0);
  });

  test('the wrong polarity does not join, and the missing adapter is named', async () => {
    const outcome = await askSheet(cable, { pigtail1: 'RP-SMA plug to N jack, 0.3 m of RG-316/U' });
    expect(outcome.lead).toMatch(/^One joint does not mate/);
    expect(outcome.findings?.some(({ severity }) => severity === 'stop')).toBe(true);
    expect(fact(outcome, 'Still to be bought')).toContain('RP-SMA jack');
    expect(outcome.pictures?.[0]?.svg).toContain('class="unjoined"');
    await checkCode(outcome.code);
  });

  test('a part can be turned round', async () => {
    const values = {
      ...only,
      gatewayEnd: 'SMA jack',
      part1: 'adapter',
      adapter1: 'N jack to SMA plug',
      part2: 'cable',
    };
    expect((await askSheet(cable, values)).lead).toMatch(/not mate/);
    const turned = await askSheet(cable, { ...values, turned1: true });
    expect(turned.lead).toMatch(/^Every joint mates/);
    await checkCode(turned.code);
  });

  test('what stands behind an empty place is left out', async () => {
    const outcome = await askSheet(cable, { part2: 'none' });
    expect(numberIn(outcome, 'Cable by the metre')).toBe(0);
    expect(outcome.tables).toHaveLength(1);
    await checkCode(outcome.code);
  });

  test('compares the cables of the same impedance over the longest run', async () => {
    const outcome = await askSheet(cable, { length3M: 15, part4: 'cable', length4M: 2 });
    const rows = outcome.tables?.[1]?.rows ?? [];
    const lossOf = (name: string) =>
      Number.parseFloat(rows.find(([each]) => each?.startsWith(name))?.[1] ?? '');
    // tests/reference/hardware-vectors.json: 63.4 dB per 100 m at 868.1 MHz by k1 √f + k2 f of RG-58C/U.
    expect(Math.abs(lossOf('RG-58C/U') - 0.15 * (1.33528 * Math.sqrt(868.1) + 0.02775 * 868.1))).toBeLessThan(
      0.02,
    );
    expect(rows.some(([name]) => name?.includes('RG-6'))).toBe(false);
    expect(rows.map(([, loss]) => Number.parseFloat(loss ?? ''))).toEqual(
      rows.map(([, loss]) => Number.parseFloat(loss ?? '')).toSorted((a, b) => a - b),
    );
  });

  test('each place is asked for when those before it are taken', () => {
    const asked = (values: object) =>
      cable.groups
        .filter(({ fields }) =>
          fields.some(({ isAsked }) => isAsked?.({ ...cable.defaults, ...values }) ?? true),
        )
        .map(({ legend }) => legend)
        .filter((legend) => legend.startsWith('Part'));
    expect(asked({})).toEqual(['Part 1', 'Part 2', 'Part 3', 'Part 4']);
    expect(asked({ part1: 'none' })).toEqual(['Part 1']);
  });

  test.each([
    [{ length3M: 0 }, 'length3M'],
    [{ length3M: Number.NaN }, 'length3M'],
    [{ part4: 'cable', length4M: -2 }, 'length4M'],
    [{ frequencyHz: 868.1 }, 'frequencyHz'],
    [{ temperatureC: 500 }, 'temperatureC'],
    [{ conductedPowerDbm: Number.NaN }, 'conductedPowerDbm'],
    [{ receiverNoiseFigureDb: -1 }, 'receiverNoiseFigureDb'],
  ])('marks the field of %j', async (values, field) => {
    expect(await refusedField(cable, values)).toBe(field);
  });
});

test('the code that was shown compiles', () => {
  expect(codeFaults()).toEqual([]);
});
