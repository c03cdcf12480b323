import { destination } from '@finial/terrain';
import { describe, expect, test } from 'vitest';
import { compareSites, type SiteComparison } from '../src/index.js';
import { plain } from './rasterSupport.js';

const west = { latitudeDeg: 50, longitudeDeg: 16 };
const at = (azimuthDeg: number, distanceM: number) => destination({ from: west, azimuthDeg, distanceM });

// In free space the reach is known in closed form: the loss is 20 log(4 pi d f / c), and what the link bears is 14 + 2 dBm less
// -174 + 10 log(125e3) + 6 - 7.5 dBm (thermal noise at 290 K is -173.975 dBm in a hertz), less 60 dB of other losses.
const reachM = (requiredSnrDb: number) => {
  const neededDbm = -173.975 + 10 * Math.log10(125e3) + 6 + requiredSnrDb;
  return (299_792_458 / (4 * Math.PI * 868.1e6)) * 10 ** ((14 + 2 - 60 - neededDbm) / 20);
};
const fastM = reachM(-7.5);
const slowM = reachM(-12.5);

const question: SiteComparison = {
  sites: [
    { name: 'one', position: west, antennaHeightM: 10 },
    { name: 'two', position: at(90, 300), antennaHeightM: 10 },
  ],
  elevation: plain(west),
  frequencyHz: 868.1e6,
  model: { kind: 'p525' },
  radiusM: 800,
  cellM: 5,
  receiverHeightM: 10,
  link: { conductedPowerDbm: 14, gatewayGainDbi: 2, otherLossDb: 60 },
  noiseFigureDb: 6,
  rows: [
    { dataRate: 3, requiredSnrDb: -12.5, bandwidthHz: 125e3 },
    { dataRate: 5, requiredSnrDb: -7.5, bandwidthHz: 125e3 },
  ],
};

/** Area that two circles of one radius share, at a distance of their centres: elementary geometry. */
function lensM2(radiusM: number, apartM: number): number {
  return (
    2 * radiusM ** 2 * Math.acos(apartM / (2 * radiusM)) -
    (apartM / 2) * Math.sqrt(4 * radiusM ** 2 - apartM ** 2)
  );
}

describe('compareSites in free space', () => {
  test('the reaches that the test counts on', () => {
    expect(fastM).toBeGreaterThan(200);
    expect(slowM).toBeLessThan(800);
  });

  test('areas by data rate are those of circles, exclusive areas those of circles without their lens', async () => {
    const { sites } = await compareSites(question);
    expect(sites.map(({ name }) => name)).toEqual(['one', 'two']);
    for (const site of sites) {
      const [fast, slow] = site.dataRateAreas;
      expect([fast?.dataRate, slow?.dataRate]).toEqual([5, 3]);
      expect((fast?.areaM2 ?? 0) / (Math.PI * fastM ** 2)).toBeCloseTo(1, 2);
      expect(site.servedM2 / (Math.PI * slowM ** 2)).toBeCloseTo(1, 2);
      expect((fast?.areaM2 ?? 0) + (slow?.areaM2 ?? 0)).toBe(slow?.areaAndAboveM2);
      expect(site.exclusiveM2 / (Math.PI * slowM ** 2 - lensM2(slowM, 300))).toBeCloseTo(1, 2);
    }
  });

  test('points count by their weight, for whoever serves them', async () => {
    const points = [
      { name: 'near the first', position: at(270, slowM - 20), weightRatio: 3 },
      { name: 'between', position: at(90, 150) },
      { name: 'near the second', position: at(90, 300 + slowM - 20), weightRatio: 2 },
      { name: 'out of reach', position: at(0, 790), weightRatio: 4 },
      { name: 'beyond the radius', position: at(0, 5000), weightRatio: 0 },
    ];
    const table = await compareSites({ ...question, points });
    expect(table.points.map(({ servedBy }) => servedBy)).toEqual([['one'], ['one', 'two'], ['two'], [], []]);
    expect(table.points[1]?.dataRates).toEqual([5, 5]);
    expect(table.points[4]?.dataRates).toEqual([-1, -1]);
    const [one, two] = table.sites;
    expect([one?.servedPointCount, two?.servedPointCount]).toEqual([2, 2]);
    expect(one?.servedWeightRatio).toBeCloseTo(4 / 10, 12);
    expect(two?.exclusiveWeightRatio).toBeCloseTo(2 / 10, 12);
    expect(one?.exclusivePointCount).toBe(1);
  });

  test('heights at one place share every cell; a better link there serves all that the other does', async () => {
    const [site] = question.sites;
    if (site === undefined) throw new Error('no site');
    const better = { ...site, name: 'better', link: { conductedPowerDbm: 17 } };
    const { sites } = await compareSites({ ...question, sites: [site, better] });
    expect(sites[0]?.exclusiveM2).toBe(0);
    expect(sites[1]?.exclusiveM2).toBe((sites[1]?.servedM2 ?? 0) - (sites[0]?.servedM2 ?? 0));
  });

  test('sites that are far apart share nothing', async () => {
    const sites = [question.sites[0], { name: 'far', position: at(45, 20_000), antennaHeightM: 10 }] as never;
    const table = await compareSites({ ...question, sites });
    for (const { exclusiveM2, servedM2 } of table.sites) expect(exclusiveM2).toBe(servedM2);
  });

  test('progress runs from site to site and ends at one', async () => {
    const told: number[] = [];
    await compareSites({ ...question, onProgress: ({ doneRatio }) => told.push(doneRatio) });
    expect(told.toSorted((one, other) => one - other)).toEqual(told);
    expect(told).toContain(0.5);
    expect(told.at(-1)).toBe(1);
  });

  test('a pattern takes the ground of the sweep', async () => {
    const { gatewayGainDbi, ...link } = question.link;
    const pattern = { elevationDeg: [-90, 90], gainDbi: [gatewayGainDbi ?? 0, gatewayGainDbi ?? 0] };
    const table = await compareSites({ ...question, link: { ...link, pattern } });
    const plainTable = await compareSites(question);
    expect(table.sites.map(({ servedM2 }) => servedM2)).toEqual(
      plainTable.sites.map(({ servedM2 }) => servedM2),
    );
  });

  test.each([
    ['sites', { sites: [] }],
    ['sites.name', { sites: [question.sites[0], question.sites[0]] }],
    [
      'sites[1].antennaHeightM',
      { sites: [question.sites[0], { name: 'x', position: west, antennaHeightM: Number.NaN }] },
    ],
    ['points[0].weightRatio', { points: [{ name: 'x', position: west, weightRatio: -1 }] }],
    [
      'points[0].position.latitudeDeg',
      { points: [{ name: 'x', position: { latitudeDeg: 91, longitudeDeg: 0 } }] },
    ],
    ['noiseFigureDb', { noiseFigureDb: undefined }],
    ['rows', { rows: [] }],
    ['link', { link: undefined }],
  ])('refuses %s', async (argument, changes) => {
    await expect(compareSites({ ...question, ...changes } as never)).rejects.toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  });

  test('stops when told to', async () => {
    const signal = AbortSignal.abort(new Error('enough'));
    await expect(compareSites({ ...question, signal })).rejects.toThrow('enough');
  });
});
