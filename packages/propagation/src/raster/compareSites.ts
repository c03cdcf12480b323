import type { GeoPosition } from '@finial/terrain';
import { checkList, checkObject, checkRange, InputError } from '@finial/units';
import type { CoverageRaster } from '../sweep/SweepJob.js';
import { type CoverageOptions, type CoverageProgress, sweepCoverage } from '../sweep/sweepCoverage.js';
import { checkName } from './areaByClass.js';
import { bestDataRate, checkLadder, type DataRateLadder, noDataRate } from './bestDataRate.js';
import { cellAt, checkPosition } from './cellPosition.js';
import { exclusiveCells } from './exclusiveCells.js';
import { type CoverageLink, receivedPowerDbm } from './receivedPowerDbm.js';

/** A place, or a height, where the gateway might stand. */
export interface CandidateSite {
  /** What the table calls it; each site another. */
  readonly name: string;
  /** Where the mast would stand, WGS 84. */
  readonly position: GeoPosition;
  /** Height of the antenna above the ground in metres, 0.1 to 3000. */
  readonly antennaHeightM: number;
  /** What is different about the link here, such as a longer feedline. */
  readonly link?: Partial<CoverageLink> | undefined;
}

/** A place that should be served: a home, a sensor. */
export interface ServedPoint {
  /** What the table calls it. */
  readonly name: string;
  /** Where it is, WGS 84. */
  readonly position: GeoPosition;
  /**
   * How much it counts beside others, as a ratio to one of 1, 0 to 1e9: four households in a house, say.
   *
   * @defaultValue 1
   */
  readonly weightRatio?: number | undefined;
}

/** What {@link compareSites} is asked: everything that {@link sweepCoverage} is, but with several gateways. */
export interface SiteComparison extends Omit<CoverageOptions, 'gateway'>, DataRateLadder {
  /** The candidates. */
  readonly sites: readonly CandidateSite[];
  /** Powers, gains and losses that all sites share. With a pattern the elevation of the sweep is taken. */
  readonly link: CoverageLink;
  /**
   * Places that should be served.
   *
   * @defaultValue none
   */
  readonly points?: readonly ServedPoint[] | undefined;
}

/** The area that has one data rate. */
export interface DataRateArea {
  /** Index of the data rate. */
  readonly dataRate: number;
  /** Area in square metres where this is the best data rate. */
  readonly areaM2: number;
  /** Area in square metres that has this data rate or a faster one. */
  readonly areaAndAboveM2: number;
}

/** What one site wins: a row of the table. */
export interface SiteResult {
  /** Name of the site. */
  readonly name: string;
  /** Areas by data rate, the fastest first. */
  readonly dataRateAreas: readonly DataRateArea[];
  /** Area in square metres that has any data rate. */
  readonly servedM2: number;
  /** Area in square metres that this site serves and no other. */
  readonly exclusiveM2: number;
  /** How many points it serves. */
  readonly servedPointCount: number;
  /** Weight of those points as a share of the weight of all, 0 to 1; 0 where there are no points. */
  readonly servedWeightRatio: number;
  /** How many points it serves that no other does. */
  readonly exclusivePointCount: number;
  /** Weight of those as a share of the weight of all, 0 to 1. */
  readonly exclusiveWeightRatio: number;
  /** Best data rate of each cell: -1 where none is read, NaN where there is no data. */
  readonly dataRates: Float32Array;
  /** The losses, on a grid around this site. */
  readonly raster: CoverageRaster;
}

/** What a point gets from the sites. */
export interface PointResult {
  /** Name of the point. */
  readonly name: string;
  /** How much it counts. */
  readonly weightRatio: number;
  /** Best data rate from each site in their order: -1 where none is read, the point lies beyond the radius, or its ground is not known. */
  readonly dataRates: readonly number[];
  /** Names of the sites that serve it. */
  readonly servedBy: readonly string[];
}

/** Several sites side by side. */
export interface SiteTable {
  /** One row for each site, in the order given. */
  readonly sites: readonly SiteResult[];
  /** One row for each point, in the order given. */
  readonly points: readonly PointResult[];
}

/**
 * Compares candidate sites, or heights at one site, over the same terrain: what area each serves at which data rate, which points, and what
 * only it serves.
 *
 * Every site has a grid of its own around it, so an area that two sites share is matched to the nearest cell, half a cell apart at most;
 * exclusive areas are uncertain by that along their edges. A cell without data at the other site counts as not served there. All figures
 * are medians: see {@link receptionProbability} before promising a home anything. Sites are swept one after the other; ten of them take ten
 * times as long as one, and each keeps its raster in memory.
 *
 * @returns areas in square metres as multiples of a cell, in the order of the sites
 * @throws {@link InputError} (the promise is rejected) `wrong-type`, `missing`, `not-a-finite-number`, `out-of-range` (also where two sites
 * have one name) or `unknown-option`; whatever {@link sweepCoverage} and {@link receivedPowerDbm} refuse
 * @source counting of cells; the losses as {@link sweepCoverage}
 * @example Two heights on a plain, in free space
 * ```ts
 * import { compareSites } from '@finial/propagation';
 *
 * const grid = { kind: 'geographic', northDeg: 51, westDeg: 16, rowStepDeg: 1, columnStepDeg: 1 } as const;
 * const tile = { name: 'plain', columns: 2, rows: 2, heightsM: Int16Array.of(90, 90, 90, 90), voidCount: 0, grid };
 * const position = { latitudeDeg: 50.5, longitudeDeg: 16.5 };
 *
 * const { sites, points } = await compareSites({
 *   sites: [{ name: 'shed', position, antennaHeightM: 4 }, { name: 'barn', position, antennaHeightM: 9 }],
 *   elevation: { tiles: [tile], voidCount: 0, filledCount: 0 },
 *   frequencyHz: 868.1e6, model: { kind: 'p526', deltaN: 40 }, radiusM: 3000, cellM: 100, receiverHeightM: 1.5,
 *   link: { conductedPowerDbm: 14, gatewayGainDbi: 2, otherLossDb: 20 },
 *   noiseFigureDb: 6, rows: [{ dataRate: 5, requiredSnrDb: -7.5, bandwidthHz: 125e3 }],
 *   points: [{ name: 'mill', position: { latitudeDeg: 50.51, longitudeDeg: 16.5 } }],
 * });
 * const [shed, barn] = sites;
 * shed && barn && barn.servedM2 > shed.servedM2; // → true
 * points[0]?.servedBy; // → ['shed', 'barn']
 * ```
 */
export async function compareSites(comparison: SiteComparison): Promise<SiteTable> {
  checkObject(comparison, 'comparison');
  const {
    sites,
    link,
    points = [],
    noiseFigureDb,
    noiseRiseDb,
    rows,
    wantedMarginDb,
    onProgress,
    ...shared
  } = comparison;
  checkSites(sites);
  checkObject(link, 'link');
  const weighted = checkPoints(points);
  const ladder = { noiseFigureDb, noiseRiseDb, rows, wantedMarginDb };
  checkLadder(ladder);

  const swept: SweptSite[] = [];
  for (const [place, { name, position, antennaHeightM, link: own }] of sites.entries()) {
    const raster = await sweepCoverage({
      ...shared,
      gateway: { position, antennaHeightM },
      onProgress: shareOf(onProgress, place, sites.length),
    });
    const whole = withElevation({ ...link, ...own }, shared.elevation);
    const powerDbm = receivedPowerDbm(raster, whole);
    swept.push({ name, raster, dataRates: bestDataRate(raster, { ...ladder, powerDbm }) });
  }
  const served = weighted.map((point) => pointResult(point, swept));
  return { sites: swept.map((site) => siteResult(site, swept, served, ladder)), points: served };
}

interface SweptSite {
  readonly name: string;
  readonly raster: CoverageRaster;
  readonly dataRates: Float32Array;
}

function siteResult(
  site: SweptSite,
  swept: readonly SweptSite[],
  points: readonly PointResult[],
  ladder: DataRateLadder,
): SiteResult {
  const { name, raster, dataRates } = site;
  const cellM2 = raster.cellM ** 2;
  const others = swept.filter((other) => other !== site);
  const mine = points.filter(({ servedBy }) => servedBy.includes(name));
  const alone = mine.filter(({ servedBy }) => servedBy.length === 1);
  const weight = (some: readonly PointResult[]) =>
    some.reduce((sum, { weightRatio }) => sum + weightRatio, 0);
  const all = weight(points);
  const dataRateAreas = areasOf(dataRates, ladder, cellM2);
  return {
    name,
    dataRateAreas,
    servedM2: dataRateAreas.at(-1)?.areaAndAboveM2 ?? 0,
    exclusiveM2: exclusiveCells(site, others) * cellM2,
    servedPointCount: mine.length,
    servedWeightRatio: all === 0 ? 0 : weight(mine) / all,
    exclusivePointCount: alone.length,
    exclusiveWeightRatio: all === 0 ? 0 : weight(alone) / all,
    dataRates,
    raster,
  };
}

function areasOf(dataRates: Float32Array, { rows }: DataRateLadder, cellM2: number): readonly DataRateArea[] {
  const counts = new Float64Array(16);
  for (const rate of dataRates) if (rate >= 0) counts[rate] = (counts[rate] as number) + 1;
  let areaAndAboveM2 = 0;
  return rows
    .map(({ dataRate }) => dataRate)
    .sort((one, other) => other - one)
    .map((dataRate) => {
      const areaM2 = (counts[dataRate] as number) * cellM2;
      areaAndAboveM2 += areaM2;
      return { dataRate, areaM2, areaAndAboveM2 };
    });
}

function pointResult(
  { name, position, weightRatio }: Required<ServedPoint> & { readonly weightRatio: number },
  swept: readonly SweptSite[],
): PointResult {
  const dataRates = swept.map(({ raster, dataRates: rates }) => {
    const cell = cellAt({ raster, position });
    const rate = cell === undefined ? Number.NaN : (rates[cell.index] as number);
    return Number.isNaN(rate) ? noDataRate : rate;
  });
  const servedBy = swept.flatMap((site, place) => ((dataRates[place] as number) >= 0 ? [site.name] : []));
  return { name, weightRatio, dataRates, servedBy };
}

/** A pattern needs the ground; that of the sweep, unless the caller gave another. */
function withElevation(link: CoverageLink, elevation: CoverageOptions['elevation']): CoverageLink {
  return link.pattern === undefined ? link : { ...link, elevation: link.elevation ?? elevation };
}

function shareOf(
  onProgress: ((progress: CoverageProgress) => void) | undefined,
  place: number,
  count: number,
): ((progress: CoverageProgress) => void) | undefined {
  if (onProgress === undefined) return undefined;
  return ({ doneRatio }) => onProgress({ doneRatio: (place + doneRatio) / count });
}

function checkSites(sites: readonly CandidateSite[]): void {
  const names = checkList(sites, 'sites').map((site, index) => {
    const argument = `sites[${index}]`;
    checkObject(site, argument);
    if (site.link !== undefined) checkObject(site.link, `${argument}.link`);
    // All are checked before the first is swept: a slip in the last must not cost the time of the others.
    checkPosition(site.position, `${argument}.position`);
    checkRange(site.antennaHeightM, `${argument}.antennaHeightM`, {
      min: 0.1,
      max: 3000,
      unit: 'metres above the ground',
    });
    return checkName(site.name, `${argument}.name`);
  });
  const twice = names.find((name, index) => names.indexOf(name) !== index);
  if (twice === undefined) return;
  throw new InputError({
    code: 'out-of-range',
    argument: 'sites.name',
    received: twice,
    expected: 'a name of its own for each site',
  });
}

function checkPoints(
  points: readonly ServedPoint[],
): readonly (Required<ServedPoint> & { readonly weightRatio: number })[] {
  if (Array.isArray(points) && points.length === 0) return [];
  return checkList(points, 'points').map((point, index) => {
    const argument = `points[${index}]`;
    const { name, position, weightRatio = 1 } = checkObject(point, argument);
    checkName(name, `${argument}.name`);
    checkPosition(position, `${argument}.position`);
    checkRange(weightRatio, `${argument}.weightRatio`, { min: 0, max: 1e9, unit: 'as a ratio' });
    return { name, position, weightRatio };
  });
}
