import { regions } from '@finial/lora';
import { isInputError } from '@finial/units';
import { describe, expect, test } from 'vitest';
import { assembleDossier } from '../src/assembleDossier.js';
import type { Plan } from '../src/plan.js';
import { renderHtml } from '../src/renderHtml.js';
import { exampleLog, examplePlan } from './examplePlan.js';

const withWalk: Plan = { ...examplePlan, walk: { file: 'walk.csv' } };

describe('the link budget', () => {
  test('is the sum that a person would write down', async () => {
    const { linkBudget } = await assembleDossier(examplePlan, {});
    // Rec. ITU-R P.525, rounded form: 32.4 + 20 log 868.1 + 20 log 3 = 100.71 dB (the exact form reads 0.05 dB more)
    const freeSpaceDb = 32.4478 + 20 * Math.log10(868.1) + 20 * Math.log10(3);
    expect(linkBudget.freeSpaceLossDb).toBeCloseTo(freeSpaceDb, 3);
    expect(linkBudget.uplink.receivedPowerDbm).toBeCloseTo(14 - 2 - freeSpaceDb - 3 + 2.15 - 1.5, 3);
    // kTB at 290 K in 125 kHz is -123.0 dBm (ITU-R P.372: -174 dBm/Hz), plus noise figure and man-made noise
    expect(linkBudget.uplink.noisePowerDbm).toBeCloseTo(-123.0 + 4 + 3, 1);
    // Semtech SX1276 data sheet: SF9 is decoded from -12.5 dB, SF12 from -20 dB
    expect(linkBudget.uplink.requiredSnrDb).toBe(-12.5);
    expect(linkBudget.downlink.requiredSnrDb).toBe(-20);
  });

  test('a path that cannot close must stop, one with little to spare must be mended', async () => {
    const far = await assembleDossier({ ...examplePlan, link: { distanceM: 500_000 } }, {});
    expect(far.verdict.severity).toBe('stop');
    expect(far.verdict.findings[0]).toMatchObject({ rule: 'uplink-margin', severity: 'stop' });
    const { marginDb } = (await assembleDossier(examplePlan, {})).linkBudget.uplink;
    const closerM = 3000 * 10 ** ((marginDb - 5) / 20);
    const tight = await assembleDossier(
      { ...examplePlan, link: { ...examplePlan.link, distanceM: closerM } },
      {},
    );
    expect(tight.linkBudget.uplink.marginDb).toBeCloseTo(5, 6);
    expect(tight.verdict.findings.map(({ rule, severity }) => `${rule} ${severity}`)).toContain(
      'uplink-margin fix',
    );
  });
});

describe('the law', () => {
  test('a node that sends too often must stop', async () => {
    const { law } = await assembleDossier(examplePlan, {});
    const leastSeconds = law.uplink.minimumIntervalSeconds ?? Number.NaN;
    // ERC/REC 70-03: 1 % in 868.0 to 868.6 MHz, so a hundred times the airtime
    expect(leastSeconds).toBeCloseTo(100 * law.uplink.timeOnAir.totalSeconds, 9);
    const node = { ...examplePlan.node, intervalSeconds: leastSeconds * 0.99 };
    const hasty = await assembleDossier({ ...examplePlan, node }, {});
    expect(hasty.verdict.findings[0]).toMatchObject({ rule: 'duty-cycle', severity: 'stop' });
  });

  test('too much power must stop', async () => {
    const node = { ...examplePlan.node, conductedPowerDbm: 20 };
    expect((await assembleDossier({ ...examplePlan, node }, {})).verdict.severity).toBe('stop');
  });

  test('a payload that fits only fast data rates is said not to fit the slow ones', async () => {
    const uplink = { ...examplePlan.node.uplink, dataRate: 5, applicationBytes: 200 };
    const { law } = await assembleDossier({ ...examplePlan, node: { ...examplePlan.node, uplink } }, {});
    expect(law.dataRates.find(({ dataRate }) => dataRate === 0)).toMatchObject({ permitted: false });
    expect(law.dataRates.find(({ dataRate }) => dataRate === 0)?.airtimeSeconds).toBeUndefined();
    expect(law.dataRates.find(({ dataRate }) => dataRate === 5)).toMatchObject({ permitted: true });
  });
});

describe('the walk', () => {
  test('counts what the log holds', async () => {
    const { walk } = await assembleDossier(withWalk, { 'walk.csv': exampleLog });
    expect(walk).toMatchObject({ rows: 18, skipped: [], delivery: { received: 13, sent: 18 } });
    expect(walk?.spots.map(({ spot, received, sent }) => [spot, received, sent])).toEqual([
      ['quay', 6, 6],
      ['mill', 6, 6],
      ['cut', 1, 6],
    ]);
    expect(walk?.frames.filter(({ signalDbm }) => signalDbm === undefined)).toHaveLength(5);
  });

  test('a near spot that is deaf while a farther one is heard is found', async () => {
    const { verdict } = await assembleDossier(withWalk, { 'walk.csv': exampleLog });
    expect(verdict.findings.find(({ rule }) => rule === 'hollow-spots')?.message).toContain('cut (1 of 6)');
  });

  test('reads bytes as well as text', async () => {
    const fromText = await assembleDossier(withWalk, { 'walk.csv': exampleLog });
    const fromBytes = await assembleDossier(withWalk, { 'walk.csv': new TextEncoder().encode(exampleLog) });
    expect(fromBytes).toEqual(fromText);
  });

  test('a bad row stops by default and is counted on request', async () => {
    const broken = exampleLog.replace('-109,-3', 'strong,-3');
    const refused = assembleDossier(withWalk, { 'walk.csv': broken });
    await expect(refused).rejects.toSatisfy(isInputError);
    await expect(refused).rejects.toThrow(
      /^walk\.csv \(line 8, column 8\): rssiDbm: expected .*, got "strong"$/,
    );
    const tolerant: Plan = { ...withWalk, walk: { file: 'walk.csv', onBadRow: 'skip' } };
    const { walk, verdict } = await assembleDossier(tolerant, { 'walk.csv': broken });
    expect(walk).toMatchObject({ rows: 18, delivery: { received: 12, sent: 17 } });
    expect(walk?.skipped).toHaveLength(1);
    expect(verdict.findings.map(({ rule }) => rule)).toContain('walk-rows-skipped');
  });

  test('a log without SNR is fitted by its RSSI, one whose frames are all near by nothing', async () => {
    const rssiOnly = exampleLog.replace(/,(-\d+),-?\d+$/gm, ',$1,');
    const { walk } = await assembleDossier(withWalk, { 'walk.csv': rssiOnly });
    expect(walk?.fit).toMatchObject({ signal: 'rssi', usedFrames: 13 });
    const near = exampleLog.replace(/41\.2\d+,-37\.\d+/g, '41.2001,-37.4001');
    expect((await assembleDossier(withWalk, { 'walk.csv': near })).walk?.fit).toBeUndefined();
  });

  test('without a log the dossier says what one would add', async () => {
    const dossier = await assembleDossier(examplePlan, {});
    expect(dossier.walk).toBeUndefined();
    expect(dossier.missing.map(({ part }) => part)).toEqual([
      'feedline',
      'antenna sweep',
      'site',
      'terrain',
      'walk',
      'beacon',
    ]);
  });

  test.each(['walk.csv', '__proto__', 'constructor'])(
    'the file %s that is not there is refused by name',
    async (file) => {
      const plan: Plan = { ...examplePlan, walk: { file } };
      await expect(assembleDossier(plan, {})).rejects.toThrow(
        expect.objectContaining({ code: 'missing', argument: 'walk.file' }),
      );
    },
  );
});

describe('long work', () => {
  test('reports steps that never go back and end at one', async () => {
    const ratios: number[] = [];
    await assembleDossier(
      withWalk,
      { 'walk.csv': exampleLog },
      { onProgress: ({ doneRatio }) => ratios.push(doneRatio) },
    );
    expect(ratios).toEqual([...ratios].sort((a, b) => a - b));
    expect(ratios.at(-1)).toBe(1);
  });

  test('stops with the reason of its signal', async () => {
    const abort = new AbortController();
    const work = assembleDossier(
      examplePlan,
      {},
      { signal: abort.signal, onProgress: () => abort.abort(new Error('enough')) },
    );
    await expect(work).rejects.toThrow('enough');
  });
});

test('a dossier is plain data: JSON keeps all of it', async () => {
  const dossier = await assembleDossier(withWalk, { 'walk.csv': exampleLog });
  const back: unknown = JSON.parse(JSON.stringify(dossier));
  expect(JSON.stringify(back)).toBe(JSON.stringify(dossier));
  expect(JSON.stringify(dossier)).not.toContain('null');
});

test('findings are listed gravest first', async () => {
  const node = { ...examplePlan.node, conductedPowerDbm: 20, intervalSeconds: 1 };
  const { verdict } = await assembleDossier(
    { ...withWalk, node, link: { distanceM: 90_000 } },
    { 'walk.csv': exampleLog },
  );
  const order = ['stop', 'fix', 'note'];
  const weights = verdict.findings.map(({ severity }) => order.indexOf(severity));
  expect(weights).toEqual([...weights].sort());
  expect(new Set(weights).size).toBeGreaterThan(1);
});

describe('every region under every law', () => {
  const laws = ['EU', 'US', 'AU', 'JP', 'IN', 'KR', 'CN'] as const;
  const pairs = Object.values(regions).flatMap((region) =>
    laws.map((jurisdiction) => ({ region, jurisdiction })),
  );

  test.each(pairs)('$region.name, $jurisdiction', async ({ region, jurisdiction }) => {
    const rate = region.dataRates.find(
      ({ modulation, direction, dwellMacPayloadBytes }) =>
        modulation === 'LoRa' && direction !== 'downlink' && dwellMacPayloadBytes !== null,
    );
    const frequencyHz = region.channels.find(({ direction }) => direction !== 'downlink')?.firstHz ?? 0;
    const uplink = { dataRate: rate?.dataRate ?? 0, frequencyHz, applicationBytes: 4 };
    const plan: Plan = {
      ...withWalk,
      region: region.name as Plan['region'],
      jurisdiction,
      gateway: { ...examplePlan.gateway, downlink: undefined },
      node: { ...examplePlan.node, uplink },
    };
    const dossier = await assembleDossier(plan, { 'walk.csv': exampleLog });
    const uplinkRates = region.dataRates.filter(({ direction }) => direction !== 'downlink');
    expect(dossier.law.dataRates).toHaveLength(uplinkRates.length);
    // What is refused says why, and what is allowed to last says how long.
    for (const row of dossier.law.dataRates) {
      if (row.permitted) expect(row.airtimeSeconds).toBeGreaterThan(0);
      else expect(row.reason).toMatch(/\.$/);
    }
    expect(renderHtml(dossier)).not.toMatch(/NaN|Infinity|undefined|\[object/);
  });
});
