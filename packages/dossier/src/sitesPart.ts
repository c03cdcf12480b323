import { type CoverageLink, type CoverageRaster, compareSites } from '@finial/propagation';
import type { BuiltPlan } from './builtPlan.js';
import { inPlanLater } from './inPlan.js';
import type { CoveragePlan } from './terrainPlan.js';
import { mappedDataRates, type UplinkSweep } from './uplinkMap.js';

/** The area of one data rate. */
export interface SiteArea {
  /** The data rate in words. */
  readonly name: string;
  /** Area in square metres for which it is the fastest. */
  readonly areaM2: number;
}

/** A place of the plan that should be served. */
export interface SitePoint {
  /** Name of the place. */
  readonly name: string;
  /** Names of the sites that serve it. */
  readonly servedBy: readonly string[];
}

/** What one site would serve. */
export interface SiteRow {
  /** Name of the site; the plan's own gateway comes first. */
  readonly name: string;
  /** Height of its antenna above the ground in metres. */
  readonly antennaHeightM: number;
  /** Area in square metres for which each data rate is the fastest, fastest first. */
  readonly dataRateAreas: readonly SiteArea[];
  /** Area in square metres that hears anything. */
  readonly servedM2: number;
  /** Area in square metres that this site serves and no other. */
  readonly exclusiveM2: number;
  /** Weight of the plan's points that it serves, as a share of all, 0 to 1. */
  readonly servedWeightRatio: number;
}

/** Several sites side by side, over the same ground. */
export interface SitesPart {
  /** One row for each site. */
  readonly rows: readonly SiteRow[];
  /** The plan's points with the names of the sites that serve them. */
  readonly points: readonly SitePoint[];
}

/** What the plan's own gateway is called beside the others. */
const ownSite = 'as planned';

/** The comparison, with the sweep of the plan's own gateway, which need not be made again. */
export interface ComparedSites {
  readonly part: SitesPart;
  readonly ownRaster: CoverageRaster | undefined;
}

/** Compares the plan's gateway with the other sites that it names. */
export async function comparedSites(
  plan: BuiltPlan,
  coverage: CoveragePlan,
  sweep: UplinkSweep,
  link: CoverageLink,
): Promise<ComparedSites> {
  const { gateway } = plan;
  const own = { name: ownSite, position: gateway.position, antennaHeightM: gateway.antennaHeightM };
  const others = (coverage.sites ?? []).map(({ feedlineLossDb, ...site }) => ({
    ...site,
    ...(feedlineLossDb === undefined ? {} : { link: { feedlineLossDb } }),
  }));
  const all = [own, ...others];
  const rates = mappedDataRates(plan);
  const question = {
    ...sweep,
    sites: all,
    link,
    rows: rates.map(({ dataRate, requiredSnrDb, bandwidthHz }) => ({ dataRate, requiredSnrDb, bandwidthHz })),
    noiseFigureDb: gateway.noiseFigureDb,
    noiseRiseDb: gateway.manMadeNoiseDb,
    points: coverage.points,
  };
  const { sites, points } = await inPlanLater('terrain.coverage.sites', () => compareSites(question));
  const nameOf = (dataRate: number) =>
    rates.find((rate) => rate.dataRate === dataRate)?.name ?? `DR${dataRate}`;
  const part = {
    rows: sites.map(({ name, dataRateAreas, servedM2, exclusiveM2, servedWeightRatio }, index) => ({
      name,
      antennaHeightM: all[index]?.antennaHeightM ?? 0,
      dataRateAreas: dataRateAreas.map(({ dataRate, areaM2 }) => ({ name: nameOf(dataRate), areaM2 })),
      servedM2,
      exclusiveM2,
      servedWeightRatio,
    })),
    points: points.map(({ name, servedBy }) => ({ name, servedBy })),
  };
  return { part, ownRaster: sites[0]?.raster };
}
