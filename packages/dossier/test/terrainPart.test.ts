import { isInputError } from '@finial/units';
import { describe, expect, test } from 'vitest';
import { assembleDossier } from '../src/assembleDossier.js';
import type { Plan } from '../src/plan.js';
import { renderHtml } from '../src/renderHtml.js';
import { examplePlan } from './examplePlan.js';
import { grid } from './hillGrid.js';

const to = { latitudeDeg: 41.2, longitudeDeg: -37.375 };
// The roof stands in column 30; the node 25 columns, some 2.1 km, east of it. A ridge runs north to south halfway between.
const flat = grid(() => 50);
const ridge = grid((column) => (column === 42 ? 130 : 50));

function planTo(place: Plan['link']['to']): Plan {
  const { distanceM: _, ...link } = examplePlan.link;
  const climate = { deltaN: 45, surfaceRefractivity: 325 };
  const terrain = { elevation: ['hill.asc'], climate, skylineRadiusM: 1500 };
  return { ...examplePlan, link: { ...link, to: place }, terrain };
}

const dossierOver = (text: string, plan = planTo(to)) => assembleDossier(plan, { 'hill.asc': text });

const refusalOf = async (text: string, plan: Plan) => {
  const error = await dossierOver(text, plan).catch((thrown: unknown) => thrown);
  if (!isInputError(error)) throw new Error(`not refused: ${String(error)}`);
  return error;
};

describe('the ground to the node', () => {
  test('gives the link its distance and its loss', async () => {
    const { linkBudget, terrain } = await dossierOver(flat);
    // One degree of longitude at 41.2 N is 83.87 km (WGS 84, radius of the parallel): 0.025 degrees are 2096.7 m.
    expect(linkBudget.distanceM).toBeCloseTo(2096.7, 0);
    expect(linkBudget.pathModel).toMatch(/P\.1812/);
    expect(linkBudget.pathLossDb).toBe(terrain?.path?.prediction.lossDb);
    const item = linkBudget.uplink.items.find(({ name }) => name === 'path loss');
    expect(item?.valueDb).toBe(linkBudget.pathLossDb);
  });

  test('costs more behind a ridge, about a knife edge of its height', async () => {
    const [level, hilly] = [await dossierOver(flat), await dossierOver(ridge)];
    expect(level.terrain?.path?.visible).toBe(true);
    expect(hilly.terrain?.path?.visible).toBe(false);
    // 130 m over a line at 52 to 56 m, about halfway on 2.1 km at 0.3453 m: nu about 8, J 31 dB (P.526, figure 9 formula).
    const excessDb = (hilly.linkBudget.pathLossDb ?? 0) - level.linkBudget.freeSpaceLossDb;
    expect(excessDb).toBeGreaterThan(30);
    expect(excessDb).toBeLessThan(45);
    expect(hilly.verdict.findings.map(({ rule }) => rule)).toContain('path-obstructed');
    expect(renderHtml(hilly)).toContain('The ground hides the node from the gateway.');
  });

  test('says how sure the link is', async () => {
    const { linkBudget } = await dossierOver(flat);
    const { certainty, uplink } = linkBudget;
    expect(certainty?.uplinkRatio).toBeGreaterThan(0.5);
    expect(certainty?.uplinkRatio).toBeLessThan(1);
    expect(uplink.marginDb).toBeGreaterThan(0);
  });

  test('raises the skyline where the ridge is, and nowhere else', async () => {
    const { terrain } = await dossierOver(ridge);
    const { azimuthDeg = [], elevationDeg = [] } = terrain?.skyline ?? {};
    const at = (azimuth: number) => elevationDeg[azimuthDeg.indexOf(azimuth)] ?? Number.NaN;
    // 130 m less the eye at 59 m, 0.0125 degrees of longitude (1048 m) away; a quarter of a cell beside the crest costs 10 m.
    const crestDeg = (Math.atan(71 / 1048) * 180) / Math.PI;
    expect(at(90)).toBeLessThan(crestDeg);
    expect(at(90)).toBeGreaterThan((Math.atan(51 / 1048) * 180) / Math.PI);
    expect(at(270)).toBeLessThan(0);
  });

  test('is left out where the plan states a distance', async () => {
    const { to: _, ...link } = planTo(to).link;
    const dossier = await dossierOver(ridge, { ...planTo(to), link: { ...link, distanceM: 2000 } });
    expect(dossier.terrain?.path).toBeUndefined();
    expect(dossier.linkBudget.pathModel).toBe('free space');
    expect(renderHtml(dossier)).toContain('Skyline within');
  });
});

describe('wrong ground', () => {
  test('a node outside the files is refused', async () => {
    const error = await refusalOf(flat, planTo({ latitudeDeg: 41.5, longitudeDeg: -37.4 }));
    expect(error.code).toBe('out-of-range');
  });

  test('a file cut short is refused with its name and the line that promised more', async () => {
    const error = await refusalOf(flat.split('\n').slice(0, 20).join('\n'), planTo(to));
    expect([error.code, error.file]).toEqual(['malformed-file', 'hill.asc']);
    // The header that promised more rows than there are.
    expect(error.line).toBe(2);
  });

  test('voids on the path are refused, and counted elsewhere', async () => {
    const onPath = grid((column) => (column === 42 ? -9999 : 50));
    expect((await refusalOf(onPath, planTo(to))).code).toBe('missing');
    const aside = grid((column, row) => (row === 2 && column < 5 ? -9999 : 50));
    expect((await dossierOver(aside)).terrain?.voidCount).toBe(5);
  });

  test('a link needs a distance or a place, and not both', async () => {
    const plan = planTo(to);
    const both = await refusalOf(flat, { ...plan, link: { ...plan.link, distanceM: 2000 } });
    expect(both.argument).toBe('link.distanceM');
    expect((await refusalOf(flat, planTo(undefined))).code).toBe('missing');
  });
});
