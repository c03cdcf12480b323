import { smoothHorizonM, type Terminal } from './Scene.js';
import { type EvenProfile, terrainIrregularityM, trendLine } from './terrainIrregularity.js';

/** How carefully the place of an antenna was chosen, where the model knows no profile. */
export type Siting = 'random' | 'careful' | 'very-careful';

/** Both ends, and the irregularity of the ground between them. */
export interface TerminalPair {
  readonly transmitter: Terminal;
  readonly receiver: Terminal;
  readonly terrainIrregularityM: number;
}

/** Where an end of a profile sees its horizon. */
interface Horizon {
  readonly angleRad: number;
  readonly distanceM: number;
}

/**
 * Both ends of a path whose profile is known.
 *
 * @source NTIA Report 82-100 (April 1982), section 5.2 and appendix A (horizons, effective heights)
 */
export function terminalsOnProfile(
  profile: EvenProfile,
  heightsM: readonly [number, number],
  radiusM: number,
): TerminalPair {
  const lastPoint = profile.heightM.length - 1;
  const distanceM = lastPoint * profile.stepM;
  const horizons = [horizon(profile, heightsM, radiusM, 0), horizon(profile, heightsM, radiusM, 1)] as const;
  // The ground right under an antenna is no part of the irregular ground that it looks over.
  const startM = Math.min(15 * heightsM[0], 0.1 * horizons[0].distanceM);
  const endM = distanceM - Math.min(15 * heightsM[1], 0.1 * horizons[1].distanceM);
  const irregularityM = terrainIrregularityM(profile, startM, endM);
  const raised = (end: 0 | 1, trendM: number): number =>
    heightsM[end] + Math.max((profile.heightM[end * lastPoint] as number) - trendM, 0);

  if (horizons[0].distanceM + horizons[1].distanceM > 1.5 * distanceM) {
    const { startHeightM, endHeightM } = trendLine(profile, startM, endM);
    const effectiveM = [raised(0, startHeightM), raised(1, endHeightM)] as const;
    const stretch = stretchToMeet(effectiveM, irregularityM, radiusM, distanceM);
    const end = (which: 0 | 1): Terminal =>
      terminalOverArea(heightsM[which], effectiveM[which] * stretch, irregularityM, radiusM);
    return { transmitter: end(0), receiver: end(1), terrainIrregularityM: irregularityM };
  }
  const nearTransmitter = trendLine(profile, startM, 0.9 * horizons[0].distanceM);
  const nearReceiver = trendLine(profile, distanceM - 0.9 * horizons[1].distanceM, endM);
  return {
    transmitter: terminal(heightsM[0], raised(0, nearTransmitter.startHeightM), horizons[0]),
    receiver: terminal(heightsM[1], raised(1, nearReceiver.endHeightM), horizons[1]),
    terrainIrregularityM: irregularityM,
  };
}

/** Factor on effective heights, so that two ends that see each other also do so by the statistical horizon. */
function stretchToMeet(
  effectiveM: readonly [number, number],
  irregularityM: number,
  radiusM: number,
  distanceM: number,
): number {
  const sightM =
    statisticalHorizonM(effectiveM[0], irregularityM, radiusM) +
    statisticalHorizonM(effectiveM[1], irregularityM, radiusM);
  return sightM > distanceM ? 1 : (distanceM / sightM) ** 2;
}

function terminal(heightM: number, effectiveHeightM: number, { angleRad, distanceM }: Horizon): Terminal {
  return { heightM, effectiveHeightM, horizonDistanceM: distanceM, horizonAngleRad: angleRad };
}

/** The steepest ray that an end must clear: to the other antenna, or to a point of the ground that stands higher. */
function horizon(
  { heightM, stepM }: EvenProfile,
  antennaHeightsM: readonly [number, number],
  radiusM: number,
  end: 0 | 1,
): Horizon {
  const lastPoint = heightM.length - 1;
  const here = end * lastPoint;
  const there = lastPoint - here;
  const topM = (heightM[here] as number) + antennaHeightsM[end];
  const slope = (targetM: number, awayM: number): number => (targetM - topM) / awayM - awayM / (2 * radiusM);
  let distanceM = lastPoint * stepM;
  let angleRad = slope((heightM[there] as number) + antennaHeightsM[end === 0 ? 1 : 0], distanceM);
  // From the transmitter on, at both ends: of two equally steep points the one nearer to the transmitter counts.
  for (let point = 1; point < lastPoint; point += 1) {
    const awayM = Math.abs(point - here) * stepM;
    const pointAngleRad = slope(heightM[point] as number, awayM);
    if (pointAngleRad > angleRad) {
      angleRad = pointAngleRad;
      distanceM = awayM;
    }
  }
  return { angleRad, distanceM };
}

/**
 * Effective height of an antenna whose place was chosen with some care on ground of a known irregularity.
 *
 * @source G. A. Hufford, The ITS Irregular Terrain Model, version 1.2.2: the algorithm, equation 3.2
 */
export function sitedHeightM(heightM: number, siting: Siting, irregularityM: number): number {
  if (siting === 'random') return heightM;
  const most = siting === 'careful' ? 4 : 9;
  const bonus = heightM < 5 ? most * Math.sin(0.1 * Math.PI * heightM) : most;
  return heightM + (1 + bonus) * Math.exp(-Math.min(20, (2 * heightM) / Math.max(1e-3, irregularityM)));
}

/**
 * An end over ground of which only the irregularity is known: its likely horizon.
 *
 * @source G. A. Hufford, The ITS Irregular Terrain Model, version 1.2.2: the algorithm, equations 3.3 and 3.4
 */
export function terminalOverArea(
  heightM: number,
  effectiveHeightM: number,
  irregularityM: number,
  radiusM: number,
): Terminal {
  const smoothM = smoothHorizonM(effectiveHeightM, radiusM);
  const horizonDistanceM = statisticalHorizonM(effectiveHeightM, irregularityM, radiusM);
  const horizonAngleRad =
    (0.65 * irregularityM * (smoothM / horizonDistanceM - 1) - 2 * effectiveHeightM) / smoothM;
  return { heightM, effectiveHeightM, horizonDistanceM, horizonAngleRad };
}

function statisticalHorizonM(effectiveHeightM: number, irregularityM: number, radiusM: number): number {
  return (
    smoothHorizonM(effectiveHeightM, radiusM) *
    Math.exp(-0.07 * Math.sqrt(irregularityM / Math.max(effectiveHeightM, 5)))
  );
}
