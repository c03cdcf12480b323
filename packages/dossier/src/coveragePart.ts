import { type CoverageRaster, receivedPowerDbm, sweepCoverage } from '@finial/propagation';
import type { Elevation } from '@finial/terrain';
import type { Finding } from '@finial/units';
import type { PatternPart } from './antennaPart.js';
import type { BuiltPlan } from './builtPlan.js';
import { type AreaPolygons, type ContourArea, contourAreas } from './contourAreas.js';
import { comparedSites, type SitesPart } from './sitesPart.js';
import type { CoveragePlan, TerrainPlan } from './terrainPlan.js';
import { mappedDataRates, uplinkOf, uplinkSweep, uplinkThresholdDbm } from './uplinkMap.js';

/** One data rate on the map. */
export interface CoverageBand {
  /** The data rate in words: `DR3, SF9`. */
  readonly name: string;
  /** Data rate index of the region. */
  readonly dataRate: number;
  /** Power at the gateway's receiver in dBm from which its frames are read. */
  readonly neededPowerDbm: number;
  /** Area in square metres where the median place reaches that power. */
  readonly areaM2: number;
  /** Rings of the area in degrees (longitude, latitude), as GeoJSON has them. */
  readonly polygons: AreaPolygons;
}

/** The predicted coverage of the dossier, for uplinks. */
export interface CoveragePart {
  /** Radius of the area in metres. */
  readonly radiusM: number;
  /** Side of a cell in metres. */
  readonly cellM: number;
  /** Area in square metres that has a prediction. */
  readonly knownAreaM2: number;
  /** Cells without one, because the ground there or before it is not known. */
  readonly missingCount: number;
  /** Rings of the area that has a prediction, in degrees (longitude, latitude), as GeoJSON has them. */
  readonly knownPolygons: AreaPolygons;
  /** LoRa data rates with the bandwidth of the plan's uplink, slowest (farthest) first. */
  readonly bands: readonly CoverageBand[];
  /** The gateway beside other sites; absent where the plan names none. */
  readonly sites?: SitesPart | undefined;
  /** What the coverage says to a person. */
  readonly findings: readonly Finding[];
}

/** The coverage with the raster behind it, which is too large for the dossier itself. */
export interface SweptCoverage {
  /** What the dossier holds of it. */
  readonly part: CoveragePart;
  /** Losses of the path from the gateway. */
  readonly raster: CoverageRaster;
  /** Power of the plan's node at the gateway's receiver in dBm, cell by cell. */
  readonly powerDbm: Float32Array;
}

/** Predicts for every cell how strong the plan's node arrives, and with which data rates it is heard. */
export async function coveragePart(
  plan: BuiltPlan,
  terrain: TerrainPlan,
  coverage: CoveragePlan,
  ground: { readonly elevation: Elevation; readonly pattern: PatternPart | undefined },
  signal: AbortSignal | undefined,
): Promise<SweptCoverage> {
  const { position, antennaHeightM } = plan.gateway;
  const sweep = uplinkSweep(plan, terrain, coverage, ground.elevation, signal);
  const link = uplinkOf(plan, ground.pattern, ground.elevation);
  const compared = coverage.sites && (await comparedSites(plan, coverage, sweep, link));
  // The comparison has swept the plan's own gateway too.
  const raster =
    compared?.ownRaster ?? (await sweepCoverage({ ...sweep, gateway: { position, antennaHeightM } }));
  const powerDbm = receivedPowerDbm(raster, link);
  const { known, bands } = areasOf(plan, raster, powerDbm);
  const knownCells = powerDbm.reduce((count, power) => count + (Number.isNaN(power) ? 0 : 1), 0);
  return {
    part: {
      radiusM: coverage.radiusM,
      cellM: coverage.cellM,
      knownAreaM2: knownCells * coverage.cellM ** 2,
      missingCount: raster.missingCount,
      knownPolygons: known?.polygons ?? [],
      bands,
      sites: compared?.part,
      findings: findingsOf(raster),
    },
    raster,
    powerDbm,
  };
}

/** Finer contours than these are not seen in the picture, and make large files. */
const greatestDrawnColumns = 300;

/** Below every power that occurs: its contour is the area with a prediction. */
const anyPowerDbm = -1000;

function areasOf(
  plan: BuiltPlan,
  raster: CoverageRaster,
  powerDbm: Float32Array,
): { readonly known: ContourArea | undefined; readonly bands: readonly CoverageBand[] } {
  const levels = mappedDataRates(plan).map(({ name, dataRate, spreadingFactor }) => ({
    name,
    dataRate,
    leastFigure: uplinkThresholdDbm(plan, spreadingFactor),
  }));
  const [known, ...areas] = contourAreas({
    raster,
    figures: powerDbm,
    levels: [{ name: 'known', leastFigure: anyPowerDbm }, ...levels],
    thinningCount: Math.max(1, Math.round(raster.columns / greatestDrawnColumns)),
    quantity: 'uplink power at the receiver',
    unit: 'dBm',
  });
  const bands = areas.map(({ name, leastFigure, areaM2, polygons }) => ({
    name,
    dataRate: levels.find((level) => level.name === name)?.dataRate ?? 0,
    neededPowerDbm: leastFigure,
    areaM2,
    polygons,
  }));
  return { known, bands };
}

function findingsOf({ warnings }: CoverageRaster): Finding[] {
  const source = 'Recommendation ITU-R P.1812-8 (09/2025)';
  return warnings.map((warning): Finding => {
    const message = `The map: ${warning}.`;
    return { rule: 'coverage-limits', severity: 'note', message, source };
  });
}
