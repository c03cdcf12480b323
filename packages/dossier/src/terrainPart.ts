import { type Elevation, finestStepM, horizon, openElevation } from '@finial/terrain';
import type { Finding } from '@finial/units';
import { type GroundPath, groundPath } from './groundPath.js';
import { inPlanLater } from './inPlan.js';
import { type NamedPlace, type PlacePath, placePaths } from './placePaths.js';
import type { Plan } from './plan.js';
import { type ReliefPart, reliefPart } from './reliefPart.js';
import type { TerrainPlan } from './terrainPlan.js';

/** The skyline seen from the gateway's antenna. */
export interface SkylinePart {
  /** How far it was looked for in metres. */
  readonly radiusM: number;
  /** Azimuths in degrees from north, rising. */
  readonly azimuthDeg: readonly number[];
  /** Angle of the skyline at each in degrees above the horizontal. */
  readonly elevationDeg: readonly number[];
  /** Distance to what makes it at each in metres. */
  readonly distanceM: readonly number[];
}

/** The terrain part of the dossier. */
export interface TerrainPart {
  /** How many cells of the elevation files hold no height. */
  readonly voidCount: number;
  /** The path to the node; absent where the plan does not say where the node is. */
  readonly path?: GroundPath | undefined;
  /** The ground to each spot of the walk and to each point that should be served, as far as the elevation files reach. */
  readonly places: readonly PlacePath[];
  /** The skyline all around. */
  readonly skyline: SkylinePart;
  /** The ground under the maps, lit from one side; absent where the plan asks for no coverage. */
  readonly relief?: ReliefPart | undefined;
  /** What the terrain says to a person. */
  readonly findings: readonly Finding[];
}

const defaultSkylineRadiusM = 20_000;

/** Reads the elevation files and looks along the path to the node and round the horizon; the elevation goes on to the coverage. */
export async function terrainPart(
  plan: Plan,
  terrain: TerrainPlan,
  bytesOf: (file: string) => Uint8Array,
  namedPlaces: readonly NamedPlace[],
  signal: AbortSignal | undefined,
): Promise<{ readonly part: TerrainPart; readonly elevation: Elevation }> {
  const files = terrain.elevation.map((name) => ({ name, bytes: bytesOf(name) }));
  const elevation = await openElevation(files, { signal });
  const path = plan.link.to && groundPath(plan, terrain, elevation, plan.link.to);
  const places = placePaths(plan, terrain, elevation, namedPlaces);
  const skyline = await skylinePart(plan, terrain, elevation, signal);
  const relief = terrain.coverage && reliefPart(plan.gateway.position, terrain.coverage.radiusM, elevation);
  const findings = path ? pathFindings(path) : [];
  return { part: { voidCount: elevation.voidCount, path, places, skyline, relief, findings }, elevation };
}

async function skylinePart(
  { gateway }: Plan,
  { skylineRadiusM = defaultSkylineRadiusM }: TerrainPlan,
  elevation: Elevation,
  signal: AbortSignal | undefined,
): Promise<SkylinePart> {
  const look = {
    position: gateway.position,
    antennaHeightM: gateway.antennaHeightM,
    radiusM: skylineRadiusM,
    // Half a cell: a sharp ridge between two points of a ray would be cut off.
    stepM: Math.max(finestStepM(elevation) / 2, skylineRadiusM / 2000),
    azimuthStepDeg: 2,
    missingHeights: 'skip',
    signal,
  } as const;
  const { points } = await inPlanLater('gateway.position', () => horizon(elevation, look));
  return {
    radiusM: skylineRadiusM,
    azimuthDeg: points.map(({ azimuthDeg }) => azimuthDeg),
    elevationDeg: points.map(({ elevationDeg }) => elevationDeg),
    distanceM: points.map(({ distanceM }) => distanceM),
  };
}

function pathFindings(path: GroundPath): Finding[] {
  const { prediction, visible, clearanceM, obstacleDistanceM, freeSpaceLossDb: free } = path;
  const source = 'Recommendation ITU-R P.1812-8 (09/2025)';
  const warnings = prediction.warnings.map((message): Finding => {
    return { rule: 'prediction-range', severity: 'note', message, source };
  });
  const excessDb = prediction.lossDb - free;
  if (visible && excessDb < 6) return warnings;
  const where = `${(obstacleDistanceM / 1000).toFixed(1)} km out`;
  const what = visible
    ? `The ground stands into the first Fresnel zone ${where}`
    : `The ground hides the node: ${(-clearanceM).toFixed(0)} m above the straight line ${where}`;
  return [
    {
      rule: 'path-obstructed',
      severity: 'note',
      message: `${what}. It costs ${excessDb.toFixed(0)} dB more than free space.`,
      measured: `${prediction.lossDb.toFixed(1)} dB`,
      limit: `${free.toFixed(1)} dB in free space`,
      source,
    },
    ...warnings,
  ];
}
