import { describe, expect, test } from 'vitest';
import { linkBudget } from '../../docs/worksheets/link-budget/linkBudget.js';
import { askSheet, checkCode, codeFaults, fact, numberIn, refusedField } from './askSheet.js';

const rules = (outcome: { findings?: readonly { rule: string }[] | undefined }) =>
  outcome.findings?.map(({ rule }) => rule);

describe('the link-budget worksheet', () => {
  test('adds up as by hand', async () => {
    const outcome = await askSheet(linkBudget);
    // 20 log(4 π d f / c) with c = 299792458 m/s: 105.199 dB over 5 km at 868.1 MHz.
    expect(numberIn(outcome, 'Free-space loss')).toBe(105.2);
    // 14 - 0 - 2 - 105.2 + 2 - 1.4 = -92.6 dBm; noise -174 + 51 + 4 + 3 = -116.0 dBm; SF9 needs -12.5 dB.
    expect(fact(outcome, 'Arrives at the gateway')).toBe('-92.6 dBm, SNR 23.4 dB of -12.5 dB needed');
    expect(numberIn(outcome, 'Margin of the uplink')).toBe(35.9);
    // 14 - 1.4 + 2 - 105.2 - 2 = -92.6 dBm; noise -174 + 51 + 6 = -117.0 dBm; SF12 needs -20 dB.
    expect(numberIn(outcome, 'Margin of the downlink')).toBe(44.4);
    expect(outcome.pictures).toHaveLength(2);
  });

  test('knows sensitivity, Fresnel zone and horizon by published figures', async () => {
    const outcome = await askSheet(linkBudget, {
      distanceM: 10_000,
      gatewayHeightM: 20,
      gatewayNoiseFigureDb: 6,
      uplinkSpreadingFactor: '12',
    });
    // SX1276 datasheet rev 7, table 10 (as quoted by others): -136 dBm at SF12 and 125 kHz; the formula is up to 1.5 dB more hopeful.
    expect(Math.abs(numberIn(outcome, 'Sensitivity of the receivers alone') + 136)).toBeLessThan(1.51);
    // Recommendation ITU-R P.526: sqrt(λ d / 4) = sqrt(0.34534 · 10000 / 4) m halfway.
    expect(numberIn(outcome, 'First Fresnel zone halfway')).toBe(29.4);
    // 4.12 sqrt(h) km (handbook rule for 4/3 Earth): 18.4 km from 20 m.
    expect(numberIn(outcome, 'Radio horizon of the gateway')).toBe(18.4);
  });

  test('lists further losses and counts them both ways', async () => {
    const plain = await askSheet(linkBudget);
    const lossy = await askSheet(linkBudget, {
      polarisation: 'circular',
      obstacleLossDb: 25,
      fadingMarginDb: 10,
    });
    // Half of the power of a circular wave fits a straight antenna: 10 log 2 = 3.01 dB.
    const moreDb = numberIn(plain, 'Margin of the uplink') - numberIn(lossy, 'Margin of the uplink');
    expect(moreDb).toBeCloseTo(38.01, 0);
    expect(lossy.tables?.[1]?.rows.map(([name]) => name)).toEqual(
      expect.arrayContaining(['polarisation', 'houses, trees, walls', 'margin for fading']),
    );
  });

  test('says what is wrong', async () => {
    expect(rules(await askSheet(linkBudget, { obstacleLossDb: 50 }))).toContain('uplink-margin');
    const far = await askSheet(linkBudget, { distanceM: 30_000 });
    expect(rules(far)).toContain('beyond-the-horizon');
    expect(rules(await askSheet(linkBudget, { gatewayHeightM: 60, nodeHeightM: 60 }))).toEqual([]);
    const short = await askSheet(linkBudget, { obstacleLossDb: 60 });
    expect(short.lead).toContain('does not close');
    expect(short.findings?.find(({ rule }) => rule === 'uplink-margin')?.severity).toBe('stop');
  });

  test.each([
    [{ distanceM: -1 }, 'distanceM'],
    [{ frequencyHz: 868.1 }, 'frequencyHz'],
    [{ gatewayFeedlineLossDb: -2 }, 'gatewayFeedlineLossDb'],
    [{ nodeNoiseFigureDb: Number.NaN }, 'nodeNoiseFigureDb'],
    [{ nodePowerDbm: 1e6 }, 'nodePowerDbm'],
    [{ fadingMarginDb: Number.NaN }, 'fadingMarginDb'],
    [{ gatewayHeightM: -3 }, 'gatewayHeightM'],
    [{ polarisation: 'tilted', tiltDeg: Number.NaN }, 'tiltDeg'],
    [{ polarisation: 'tilted', crossPolarDiscriminationDb: -1 }, 'crossPolarDiscriminationDb'],
  ])('marks the field of %j', async (values, field) => {
    expect(await refusedField(linkBudget, values)).toBe(field);
  });

  test.each([
    [{}],
    [
      {
        polarisation: 'tilted',
        tiltDeg: 90,
        obstacleLossDb: 20,
        downlinkBandwidthHz: '500000',
        distanceM: 123_456,
      },
    ],
  ])('shows code that runs: %j', async (values) => {
    await checkCode((await askSheet(linkBudget, values)).code);
  });
});

test('the code that was shown compiles', () => {
  expect(codeFaults()).toEqual([]);
});
