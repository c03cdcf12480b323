import { isInputError } from '@finial/units';
import { describe, expect, test } from 'vitest';
import { assembleDossier } from '../src/assembleDossier.js';
import type { Plan } from '../src/plan.js';
import { renderHtml } from '../src/renderHtml.js';
import type { SitePlan } from '../src/sitePlan.js';
import { examplePlan } from './examplePlan.js';

const box = {
  widthM: 0.2,
  heightM: 0.2,
  depthM: 0.1,
  mounting: 'wall',
  faceAzimuthDeg: 180,
  powerW: 4,
  colour: 'black',
  date: '2026-07-15',
  highestAirC: 34,
  lowestAirC: 20,
} as const;
const mast = {
  wind: { code: 'asce-7', gustSpeedMPerS: 40, exposureRatio: 1 },
  parts: [
    { name: 'mast', shape: 'round', widthM: 0.04, heightM: 2, centreM: 1 },
    { name: 'antenna', shape: 'round', widthM: 0.025, heightM: 0.6, centreM: 2.3 },
    { name: 'box', shape: 'flat-by-aspect', widthM: 0.2, heightM: 0.15, centreM: 1 },
  ],
  foot: { kind: 'ballast', tippingArmM: 0.45, frictionRatio: 0.4 },
} as const;
const supply = {
  supplyV: 5.1,
  leastLoadV: 4.75,
  wire: '1 mm2',
  lengthM: 5,
  connectorsOhm: 0,
  states: [{ name: 'boot', currentA: 2.5 }],
};

const dossierOf = (site: SitePlan) => assembleDossier({ ...examplePlan, site } as Plan, {});

describe('the site', () => {
  test('drops the voltage that the published example drops', async () => {
    // hardware-vectors.json, voltageDrop: 5.1 V, 2.5 A, 5 m of 1 mm2: 4.6125 V, below 4.75 V.
    const { site, verdict } = await dossierOf({ supply });
    expect(site?.supply?.states[0]?.loadV).toBeCloseTo(4.6125, 4);
    expect(verdict.findings.map(({ rule }) => rule)).toContain('supply-drop');
  });

  test('asks for the ballast of the published example', async () => {
    // hardware-vectors.json, windExamples: 147.12 N, 170.07 Nm, 57.8 kg.
    const { site } = await dossierOf({ mast });
    expect(site?.mast?.forceN).toBeCloseTo(147.12, 2);
    expect(site?.mast?.hold?.ballastNeededKg).toBeCloseTo(57.8, 1);
  });

  test('gets hotter in black than in white, at the place of the gateway', async () => {
    const hottest = async (colour: 'black' | 'white') =>
      (await dossierOf({ box: { ...box, colour } })).site?.box?.hottestInsideC ?? Number.NaN;
    expect(await hottest('black')).toBeGreaterThan((await hottest('white')) + 5);
  });

  test('knows the dew point of the air, and needs a box to be damp in', async () => {
    // hardware-vectors.json, dewPoint: 30 degrees C and 70 % have 23.927 (Magnus).
    const humid = { relativeHumidityPercent: 70, breathing: 'gasketed' } as const;
    const { site } = await dossierOf({ box: { ...box, highestAirC: 30 }, moisture: humid });
    expect(site?.moisture?.dewPointC).toBeCloseTo(23.927, 2);
    expect(site?.findings).toEqual(expect.arrayContaining([...(site?.moisture?.findings ?? [])]));
    expect(site?.moisture?.findings.length).toBeGreaterThan(0);
    await expect(dossierOf({ moisture: humid })).rejects.toThrow(/site\.moisture\.box/);
  });

  test('is drawn with its numbers, and always with cautions', async () => {
    const dossier = await dossierOf({ supply, box, mast, safety: {} });
    const page = renderHtml(dossier);
    expect(page).toContain('Temperature of air and box through the day');
    expect(page).toContain('What a change would buy');
    expect(page).toContain('The wind on each part');
    const rules = dossier.verdict.findings.map(({ rule }) => rule);
    expect(rules).toContain('ladder-not-stated');
    expect(rules).not.toContain('rf-exposure-not-stated');
  });

  test('refuses by the key of the plan', async () => {
    const error = await dossierOf({ supply: { ...supply, wire: 'barbed' } }).catch(
      (thrown: unknown) => thrown,
    );
    expect(isInputError(error) && error.argument).toBe('site.supply.wire');
  });

  test('is left out where the plan says nothing of it', async () => {
    const dossier = await assembleDossier(examplePlan, {});
    expect(dossier.site).toBeUndefined();
    expect(renderHtml(dossier)).not.toContain('Power, heat and wind');
  });
});
