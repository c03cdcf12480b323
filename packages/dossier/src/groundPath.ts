import { p1812 } from '@finial/propagation';
import { freeSpaceLossDb, fresnelRadiusM, wavelengthM } from '@finial/radio';
import { type Elevation, finestStepM, geodesic, lineOfSight, profile } from '@finial/terrain';
import { inPlan } from './inPlan.js';
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

/** Spread from place to place where the plan states none, in dB: that of broadcast planning. */
export const defaultLocationSigmaDb = 5.5;
/** Short paths are cut finer than the data: the method wants five points and more. */
const leastPathSteps = 10;

/** Cuts the ground from the gateway to a place, and says what the cut costs. */
export function groundPath(plan: Plan, terrain: TerrainPlan, elevation: Elevation, to: Position): GroundPath {
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
    return clearanceM + (isEnd ? 0 : (clutterHeightM[index] as number));
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

/** Distance between gateway and a place in metres. */
export function distanceToM(from: Position, to: Position): number {
  return geodesic({ from, to }).distanceM;
}
