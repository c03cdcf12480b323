import { p1812 } from '@finial/propagation';
import { freeSpaceLossDb, fresnelRadiusM, wavelengthM } from '@finial/radio';
import {
  type Elevation,
  finestStepM,
  geodesic,
  horizon,
  lineOfSight,
  openElevation,
  profile,
} from '@finial/terrain';
import type { Finding } from '@finial/units';
import { inPlan, inPlanLater } from './inPlan.js';
import type { Plan } from './plan.js';
import type { Position } from './position.js';
import type { TerrainPlan } from './terrainPlan.js';

/** The ground between gateway and node, and what it costs. Lists have one entry for each point of the profile. */
export interface GroundPath {
  /** Length of the geodesic in metres. */
  readonly lengthM: number;
  /** Azimuth from the gateway in degrees clockwise from north. */
  readonly azimuthDeg: number;
  /** Distance of each point from the gateway in metres. */
  readonly distanceM: readonly number[];
  /** Height of the ground at each point in metres above sea level. */
  readonly heightM: readonly number[];
  /** The same with the bulge of the round Earth, under the median refraction of the plan. */
  readonly raisedM: readonly number[];
  /** Lower edge of the first Fresnel zone round the straight line in metres. */
  readonly fresnelLowerM: readonly number[];
  /** Antenna of the gateway in metres above sea level. */
  readonly gatewayAltitudeM: number;
  /** Antenna of the node in metres above sea level. */
  readonly nodeAltitudeM: number;
  /** Whether nothing rises above the straight line. */
  readonly visible: boolean;
  /** Least height of the line over ground and clutter in metres; negative where it is blocked. */
  readonly clearanceM: number;
  /** Distance from the gateway of the point that stands highest into the line, in metres. */
  readonly obstacleDistanceM: number;
  /** Least share of the first Fresnel zone's radius that is free; negative where the line is blocked. */
  readonly fresnelClearanceRatio: number;
  /** Loss in free space over the same distance in dB. */
  readonly freeSpaceLossDb: number;
  /** Everything that Recommendation ITU-R P.1812 says of the path; `lossDb` is its loss. */
  readonly prediction: p1812.Prediction;
}

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
  /** The skyline all around. */
  readonly skyline: SkylinePart;
  /** What the terrain says to a person. */
  readonly findings: readonly Finding[];
}

const defaultSkylineRadiusM = 20_000;
/** Spread from place to place where the plan states none, in dB: that of broadcast planning. */
export const defaultLocationSigmaDb = 5.5;
/** Short paths are cut finer than the data: the method wants five points and more. */
const leastPathSteps = 10;

/** Reads the elevation files and looks along the path to the node and round the horizon; the elevation goes on to the coverage. */
export async function terrainPart(
  plan: Plan,
  terrain: TerrainPlan,
  bytesOf: (file: string) => Uint8Array,
  signal: AbortSignal | undefined,
): Promise<{ readonly part: TerrainPart; readonly elevation: Elevation }> {
  const files = terrain.elevation.map((name) => ({ name, bytes: bytesOf(name) }));
  const elevation = await openElevation(files, { signal });
  const path = plan.link.to && groundPath(plan, terrain, elevation, plan.link.to);
  const skyline = await skylinePart(plan, terrain, elevation, signal);
  const findings = path ? pathFindings(path) : [];
  return { part: { voidCount: elevation.voidCount, path, skyline, findings }, elevation };
}

function groundPath(plan: Plan, terrain: TerrainPlan, elevation: Elevation, to: Position): GroundPath {
  const { gateway, node } = plan;
  const frequencyHz = node.uplink.frequencyHz;
  const stepM = Math.min(finestStepM(elevation), distanceToM(gateway.position, to) / leastPathSteps);
  const ground = inPlan('link.to', () => profile(elevation, gateway.position, to, { stepM }));
  const clutterHeightM = Float64Array.from(ground.heightM, () => terrain.clutterHeightM ?? 0);
  const prediction = predicted(plan, terrain, ground, clutterHeightM, to);
  const sight = lineOfSight(ground, {
    fromHeightM: gateway.antennaHeightM,
    toHeightM: node.heightM,
    clutterHeightM,
    wavelengthM: wavelengthM(frequencyHz),
    effectiveEarthRadiusFactor: prediction.effectiveEarthRadiusM / meanEarthRadiusM,
  });
  const distances = [...ground.distanceM];
  const lengthM = distances.at(-1) ?? 0;
  const gatewayAltitudeM = prediction.transmitterAltitudeM;
  const nodeAltitudeM = prediction.receiverAltitudeM;
  const lineM = (distanceM: number) =>
    gatewayAltitudeM + ((nodeAltitudeM - gatewayAltitudeM) * distanceM) / lengthM;
  return {
    lengthM,
    azimuthDeg: ground.azimuthDeg,
    distanceM: distances,
    heightM: [...ground.heightM],
    raisedM: distances.map((distanceM, index) => lineM(distanceM) - topless(sight.clearancesM[index], index)),
    fresnelLowerM: distances.map((distanceM, index) => {
      const isEnd = index === 0 || index === distances.length - 1;
      const sides = { distanceToStartM: distanceM, distanceToEndM: lengthM - distanceM };
      return lineM(distanceM) - (isEnd ? 0 : fresnelRadiusM({ frequencyHz, ...sides }));
    }),
    gatewayAltitudeM,
    nodeAltitudeM,
    visible: sight.visible,
    clearanceM: sight.clearanceM,
    obstacleDistanceM: sight.obstacleDistanceM,
    fresnelClearanceRatio: sight.fresnelClearanceRatio ?? 0,
    freeSpaceLossDb: freeSpaceLossDb({ frequencyHz, distanceM: lengthM }),
    prediction,
  };

  /** The clearance over the bare ground: that over its clutter, and the clutter. */
  function topless(clearanceM = 0, index: number): number {
    const isEnd = index === 0 || index === distances.length - 1;
    return clearanceM + (isEnd ? 0 : (clutterHeightM[index] ?? 0));
  }
}

/** Mean radius that P.1812 scales, in metres. */
const meanEarthRadiusM = 6_371_000;

function predicted(
  { gateway, node }: Plan,
  { climate, timePercent, locationPercent, locationSigmaDb = defaultLocationSigmaDb }: TerrainPlan,
  ground: { readonly distanceM: Float64Array; readonly heightM: Float64Array },
  clutterHeightM: Float64Array,
  to: Position,
): p1812.Prediction {
  return p1812.basicTransmissionLoss(
    {
      frequencyHz: node.uplink.frequencyHz,
      distanceM: ground.distanceM,
      heightM: ground.heightM,
      clutterHeightM,
      transmitterHeightM: gateway.antennaHeightM,
      receiverHeightM: node.heightM,
    },
    {
      ...climate,
      timePercent,
      locationPercent,
      locationSigmaDb,
      centreLatitudeDeg: (gateway.position.latitudeDeg + to.latitudeDeg) / 2,
      outsideValidity: 'allow',
    },
  );
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

/** Distance between gateway and a place in metres. */
export function distanceToM(from: Position, to: Position): number {
  return geodesic({ from, to }).distanceM;
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
