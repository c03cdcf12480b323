import { compareSites } from '@finial/propagation';
import type { Elevation } from '@finial/terrain';
import type { BuiltPlan } from './builtPlan.js';
import { inPlanLater } from './inPlan.js';
import type { CoveragePlan, TerrainPlan } from './terrainPlan.js';
import { mappedDataRates, type SweepWatch, uplinkOf, uplinkSweep } from './uplinkMap.js';

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

/** Compares the plan's gateway with the other sites that it names. */
export async function sitesPart(
  plan: BuiltPlan,
  terrain: TerrainPlan,
  coverage: CoveragePlan,
  elevation: Elevation,
  watch: SweepWatch,
): Promise<SitesPart> {
  const { gateway } = plan;
  const own = { name: ownSite, position: gateway.position, antennaHeightM: gateway.antennaHeightM };
  const others = (coverage.sites ?? []).map(({ feedlineLossDb, ...site }) => ({
    ...site,
    ...(feedlineLossDb === undefined ? {} : { link: { feedlineLossDb } }),
  }));
  const all = [own, ...others];
  const rates = mappedDataRates(plan);
  const question = {
    ...uplinkSweep(plan, terrain, coverage, elevation),
    sites: all,
    link: uplinkOf(plan, elevation),
    rows: rates,
    noiseFigureDb: gateway.noiseFigureDb,
    noiseRiseDb: gateway.manMadeNoiseDb,
    points: coverage.points,
    ...watch,
  };
  const { sites, points } = await inPlanLater('terrain.coverage.sites', () => compareSites(question));
  const nameOf = (dataRate: number) =>
    rates.find((rate) => rate.dataRate === dataRate)?.name ?? `DR${dataRate}`;
  return {
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
}
