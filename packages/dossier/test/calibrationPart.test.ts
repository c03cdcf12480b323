import { describe, expect, test } from 'vitest';
import { assembleDossier } from '../src/assembleDossier.js';
import type { Plan } from '../src/plan.js';
import { renderHtml } from '../src/renderHtml.js';
import { exampleLog, examplePlan } from './examplePlan.js';
import { grid } from './hillGrid.js';

const terrain = {
  elevation: ['hill.asc'],
  climate: { deltaN: 45, surfaceRefractivity: 325 },
  coverage: { radiusM: 2000, cellM: 50 },
};
const plan: Plan = { ...examplePlan, terrain, walk: { file: 'walk.csv' } };
const dossierOf = (log: string, changes: Partial<Plan> = {}) =>
  assembleDossier({ ...plan, ...changes }, { 'hill.asc': grid(() => 50), 'walk.csv': log });

describe('the prediction against the walk', () => {
  test('is found too good by what it promised more than the walk measured', async () => {
    const { calibration, verdict } = await dossierOf(exampleLog);
    const quay = calibration?.residuals.find(({ spot }) => spot === 'quay');
    // Level ground: free space over 370 m is 82.6 dB. 14 - 2 - 3 + 2.15 - 1.5 - 82.6 is -73 dBm; the log says -92.2 dBm
    // on average with 8 dB of SNR, of which 10 lg(1 + 10^-0.8), 0.6 dB, are noise.
    expect(quay?.predictedDbm).toBeGreaterThan(-80);
    expect(quay?.predictedDbm).toBeLessThan(-72);
    expect(quay?.errorDb).toBeCloseTo((quay?.predictedDbm ?? 0) + 92.84, 1);
    expect(calibration?.biasDb).toBeGreaterThan(0);
    expect(verdict.findings.map(({ rule }) => rule).includes('prediction-optimistic')).toBe(
      (calibration?.biasLowerDb ?? 0) > 0,
    );
  });

  test('a stronger log by 10 dB brings the error down by 10 dB', async () => {
    const louder = exampleLog.replace(/,1,-(\d+),/g, (_, level) => `,1,-${Number(level) - 10},`);
    const errorOf = async (log: string) =>
      (await dossierOf(log)).calibration?.residuals.find(({ spot }) => spot === 'quay')?.errorDb ??
      Number.NaN;
    expect((await errorOf(exampleLog)) - (await errorOf(louder))).toBeCloseTo(10, 6);
  });

  test('maps where a frame gets through, and says where to walk next', async () => {
    const { calibration, coverage } = await dossierOf(exampleLog);
    const [half, nearlyAll] = calibration?.bands ?? [];
    expect(half?.areaM2).toBeGreaterThan(nearlyAll?.areaM2 ?? Number.NaN);
    expect(half?.areaM2).toBeLessThanOrEqual(1.01 * (coverage?.knownAreaM2 ?? 0));
    expect(calibration?.nextSpots).toHaveLength(5);
    for (const { uncertaintyBeforeDb, uncertaintyAfterDb } of calibration?.nextSpots ?? []) {
      expect(uncertaintyAfterDb).toBeLessThan(uncertaintyBeforeDb);
    }
  });

  test('takes the usual shadowing where the spots are few', async () => {
    const { calibration } = await dossierOf(exampleLog);
    expect(calibration?.isShadowingFitted).toBe(false);
    expect(calibration?.shadowing.shadowingDb).toBe(7.5);
  });

  test('is drawn with its numbers', async () => {
    const page = renderHtml(await dossierOf(exampleLog));
    expect(page).toContain('Measured level over predicted level');
    expect(page).toContain('Where to walk next');
  });

  test.each([
    ['a walk elsewhere', exampleLog.replaceAll(',41.2', ',43.2')],
    ['two spots only', exampleLog.split('\n').slice(0, 13).join('\n')],
  ])('is left out for %s', async (_, log) => {
    const dossier = await dossierOf(log);
    expect(dossier.calibration).toBeUndefined();
    expect(renderHtml(dossier)).not.toContain('The prediction against the walk');
  });

  test('is left out without a map', async () => {
    const { coverage: _, ...bare } = terrain;
    expect((await dossierOf(exampleLog, { terrain: bare })).calibration).toBeUndefined();
  });
});

describe('the statement', () => {
  test('claims nothing that six frames cannot prove', async () => {
    const { walk } = await dossierOf(exampleLog);
    // 29 of 29 frames are the least that prove 90 % with 95 % confidence: 0.9^29 is 0.047.
    expect(walk?.statement?.provedCount).toBe(0);
    expect(walk?.statement?.claim).toMatch(/^It is not proved/);
    expect(walk?.statement?.spots.find(({ spot }) => spot === 'cut')?.verdict).toBe('refuted');
  });

  test('claims a spot once enough frames came through', async () => {
    const rows = exampleLog.split('\n');
    const quay = rows.filter((row) => row.includes(',quay,'));
    const many = Array.from({ length: 60 }, (_, index) =>
      (quay[index % quay.length] ?? '').replace(/,\d+,9,/, `,${index + 100},9,`),
    );
    const { walk } = await dossierOf([rows[0], ...many, ...rows.slice(7)].join('\n'));
    expect(walk?.statement?.claim).toMatch(/^A node at 1\.5 m, SF9,.*: quay/);
    expect(walk?.statement?.sentences.join(' ')).toMatch(/the law allows one every/);
  });

  test('needs a log that shows what was missed', async () => {
    const column = exampleLog.split(',').indexOf('received');
    const received = exampleLog
      .split('\n')
      .filter((row) => !row.includes(',0,'))
      .map((row) => row.split(',').toSpliced(column, 1).join(','));
    const walk = { file: 'walk.csv', receivedOnly: true };
    expect((await dossierOf(received.join('\n'), { walk })).walk?.statement).toBeUndefined();
  });
});
