import { describe, expect, test } from 'vitest';
import { assembleDossier } from '../src/assembleDossier.js';
import type { SweptCoverage } from '../src/coveragePart.js';
import type { Plan } from '../src/plan.js';
import { renderHtml } from '../src/renderHtml.js';
import { toGeoJson } from '../src/toGeoJson.js';
import { exampleLog, examplePlan } from './examplePlan.js';
import { grid } from './hillGrid.js';

const coverage = { radiusM: 1500, cellM: 50 };
const terrain = { elevation: ['hill.asc'], climate: { deltaN: 45, surfaceRefractivity: 325 }, coverage };
const plan: Plan = { ...examplePlan, terrain };
// A ridge of 150 m, 1.0 km east of the roof; level ground elsewhere.
const ridge = grid((column) => (column === 42 ? 200 : 50));

const dossierOver = (text: string, changes: Partial<Plan> = {}) =>
  assembleDossier({ ...plan, ...changes }, { 'hill.asc': text, 'walk.csv': exampleLog });

describe('the predicted coverage', () => {
  test('needs the power that noise and required SNR ask for', async () => {
    const { coverage: found } = await dossierOver(grid(() => 50));
    // SF12 needs -20 dB (SX1276 data sheet) over -174 + 51 dB of 125 kHz, 4 dB noise figure and 3 dB of man-made noise: -136 dBm.
    expect(found?.bands[0]?.name).toBe('DR0, SF12');
    expect(found?.bands[0]?.neededPowerDbm).toBeCloseTo(-136, 1);
    expect(found?.bands.at(-1)?.name).toBe('DR5, SF7');
  });

  test('covers level ground nearby at every data rate', async () => {
    const { coverage: found } = await dossierOver(grid(() => 50));
    const discM2 = Math.PI * 1500 ** 2;
    for (const { areaM2 } of found?.bands ?? []) expect(Math.abs(areaM2 / discM2 - 1)).toBeLessThan(0.01);
  });

  test('loses the ground behind a ridge, the fast rates first', async () => {
    const hard = { ...examplePlan.node, conductedPowerDbm: -20 };
    const { coverage: found } = await dossierOver(ridge, { node: hard });
    const areas = found?.bands.map(({ areaM2 }) => areaM2) ?? [];
    expect(areas).toEqual(areas.toSorted((a, b) => b - a));
    expect(areas.at(-1)).toBeLessThan(0.9 * (areas[0] ?? 0));
  });

  test('hands out the raster, which agrees with the losses of the path', async () => {
    let swept: SweptCoverage | undefined;
    const onCoverage = (found: SweptCoverage) => {
      swept = found;
    };
    await assembleDossier(plan, { 'hill.asc': grid(() => 50) }, { onCoverage });
    const { raster, powerDbm } = swept as unknown as SweptCoverage;
    const cell = powerDbm.findIndex((power) => !Number.isNaN(power));
    // 14 dBm and -2 dBi at the node, 3 dB of body, 2.15 dBi and 1.5 dB of feedline at the gateway.
    expect(powerDbm[cell]).toBeCloseTo(14 - 2 - 3 + 2.15 - 1.5 - (raster.lossDb[cell] ?? 0), 3);
  });

  test('says where the files end', async () => {
    const wide = { ...terrain, coverage: { radiusM: 5000, cellM: 100 } };
    const { coverage: found, verdict } = await dossierOver(ridge, { terrain: wide });
    expect(found?.missingCount).toBeGreaterThan(0);
    expect(verdict.findings.map(({ rule }) => rule)).toContain('coverage-limits');
  });

  test('is drawn with the spots of the walk, and written as GeoJSON', async () => {
    const dossier = await dossierOver(ridge, { walk: { file: 'walk.csv' } });
    const page = renderHtml(dossier);
    expect(page).toContain('Predicted coverage by data rate');
    expect(page).toContain('quay: 6 of 6 frames');
    const { features } = JSON.parse(toGeoJson(dossier));
    const kinds = features.map(({ properties }: { properties: { kind: string } }) => properties.kind);
    expect(kinds).toEqual(['gateway', ...Array(6).fill('predicted coverage'), ...Array(3).fill('spot')]);
    for (const { geometry } of features) expect(geometry.type).toMatch(/^(Point|MultiPolygon)$/);
  });

  test('is left out where the plan asks for none', async () => {
    const { coverage: _, ...bare } = terrain;
    const dossier = await dossierOver(ridge, { terrain: bare });
    expect(dossier.coverage).toBeUndefined();
    expect(renderHtml(dossier)).not.toContain('Predicted coverage');
  });
});

describe('other sites', () => {
  const { position } = examplePlan.gateway;
  const hut = { latitudeDeg: 41.2, longitudeDeg: -37.386 };
  const weak = { ...examplePlan.node, conductedPowerDbm: -30 };
  const behind = { name: 'behind the ridge', position: { latitudeDeg: 41.2, longitudeDeg: -37.3835 } };
  const compared = (sites: { name: string; position: typeof hut; antennaHeightM: number }[]) =>
    dossierOver(ridge, {
      node: weak,
      terrain: { ...terrain, coverage: { ...coverage, sites, points: [behind] } },
    });

  test('a taller mast serves no less, and a site beyond the ridge serves what lies there', async () => {
    const { coverage: found } = await compared([
      { name: 'taller', position, antennaHeightM: 40 },
      { name: 'hut', position: hut, antennaHeightM: 9 },
    ]);
    const [planned, taller, beyond] = found?.sites?.rows ?? [];
    expect(planned?.name).toBe('as planned');
    expect(taller?.servedM2).toBeGreaterThanOrEqual(planned?.servedM2 ?? Number.NaN);
    expect(beyond?.exclusiveM2).toBeGreaterThan(0);
    expect(found?.sites?.points[0]?.servedBy).toContain('hut');
  });

  test('are drawn and listed', async () => {
    const page = renderHtml(await compared([{ name: 'taller', position, antennaHeightM: 40 }]));
    expect(page).toContain('Area served by each site');
    expect(page).toContain('taller');
  });

  test('need names of their own', async () => {
    const twins = [
      { name: 'a', position, antennaHeightM: 9 },
      { name: 'a', position, antennaHeightM: 12 },
    ];
    await expect(compared(twins)).rejects.toThrow(/sites/);
  });
});
