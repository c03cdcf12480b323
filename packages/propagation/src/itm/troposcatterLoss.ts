import { type Scene, sightAngleRad, waveNumberPerM } from './Scene.js';

/** Attenuation by scatter at one distance. */
export interface Scatter {
  readonly lossDb: number;
  /** The part that the frequency and the heights make. */
  readonly frequencyGainDb: number;
}

/**
 * Attenuation by scatter in the troposphere far beyond the horizon.
 *
 * @param beyond - the result at a longer distance, whose frequency gain replaces one above 15 dB
 * @returns `undefined` where both antennas are so low that the model has no value
 * @source G. A. Hufford, The ITS Irregular Terrain Model, version 1.2.2: the algorithm, section 4.3, equations 6.8 to 6.13;
 * NBS Technical Note 101 (1967), volume I, section 9
 */
export function troposcatterLoss(
  scene: Scene,
  distanceM: number,
  beyond?: Scatter | undefined,
): Scatter | undefined {
  const frequencyGainDb =
    beyond !== undefined && beyond.frequencyGainDb > 15
      ? beyond.frequencyGainDb
      : ownFrequencyGainDb(scene, distanceM, beyond);
  if (frequencyGainDb === undefined) return undefined;
  const { surfaceRefractivity, megahertz } = scene;
  const scatterRad = distanceM / scene.effectiveEarthRadiusM - sightAngleRad(scene);
  const scatterM = scatterRad * distanceM;
  const lossDb =
    distanceDb(scatterM) +
    10 * Math.log10(megahertz * scatterRad ** 4) -
    0.1 * (surfaceRefractivity - 301) * Math.exp(-scatterM / 40e3) +
    frequencyGainDb;
  return { lossDb, frequencyGainDb };
}

function ownFrequencyGainDb(
  scene: Scene,
  distanceM: number,
  beyond: Scatter | undefined,
): number | undefined {
  const { transmitter, receiver, megahertz, effectiveEarthRadiusM } = scene;
  const angleRad = transmitter.horizonAngleRad + receiver.horizonAngleRad + distanceM / effectiveEarthRadiusM;
  const twice = 2 * waveNumberPerM(megahertz) * angleRad;
  const first = twice * transmitter.effectiveHeightM;
  const last = twice * receiver.effectiveHeightM;
  if (first < 0.2 && last < 0.2) return undefined;

  const efficiency = scatterEfficiency(scene, distanceM, angleRad);
  const curvesDb = (frequencyGainCurveDb(first, efficiency) + frequencyGainCurveDb(last, efficiency)) / 2;
  const correctionDb = Math.min(
    curvesDb,
    6 * (0.6 - Math.log10(Math.max(efficiency, 1))) * asymmetryProduct(scene, distanceM),
  );
  let gainDb = Math.max(curvesDb + correctionDb, 0);
  if (efficiency < 1) gainDb = efficiency * gainDb + (1 - efficiency) * zeroEfficiencyGainDb(first, last);
  return gainDb > 15 && beyond !== undefined ? beyond.frequencyGainDb : gainDb;
}

/** Product of the logarithms of the asymmetry of the path and of that asymmetry against the heights. */
function asymmetryProduct({ transmitter, receiver }: Scene, distanceM: number): number {
  const difference = transmitter.horizonDistanceM - receiver.horizonDistanceM;
  const heights = receiver.effectiveHeightM / transmitter.effectiveHeightM;
  const apart = Math.abs(difference);
  const asymmetry = (distanceM - apart) / (distanceM + apart);
  const againstHeights = (difference < 0 ? 1 / heights : heights) / asymmetry;
  return Math.log10(Math.max(0.1, asymmetry)) * Math.log10(Math.min(Math.max(0.1, againstHeights), 10));
}

/** How well the air scatters at the height where the two horizon rays cross. */
function scatterEfficiency(scene: Scene, distanceM: number, angleRad: number): number {
  const { transmitter, receiver, surfaceRefractivity } = scene;
  const apart = Math.abs(transmitter.horizonDistanceM - receiver.horizonDistanceM);
  const crossingM = ((distanceM - apart) * (distanceM + apart) * angleRad) / (4 * distanceM);
  const refraction = 0.031 - 2.32e-3 * surfaceRefractivity + 5.67e-6 * surfaceRefractivity ** 2;
  return (crossingM / 1755.6) * (1 + refraction * Math.exp(-(Math.min(1.7, crossingM / 8e3) ** 6)));
}

/** Curves of the frequency gain for scatter efficiencies 1 to 5: factors of the fourth and second power. */
const gainCurves: readonly (readonly [number, number])[] = [
  [25, 24],
  [80, 45],
  [177, 68],
  [395, 80],
  [705, 105],
];

function frequencyGainCurveDb(ratio: number, efficiency: number): number {
  const place = Math.min(Math.max(efficiency, 1), 5) - 1;
  const below = Math.trunc(place);
  const curveDb = (index: number): number => {
    const [fourth, second] = gainCurves[index] as readonly [number, number];
    return 10 * Math.log10(1 + fourth / ratio ** 4 + second / ratio ** 2);
  };
  const share = place - below;
  return share === 0 ? curveDb(below) : (1 - share) * curveDb(below) + share * curveDb(below + 1);
}

function zeroEfficiencyGainDb(first: number, last: number): number {
  const product = (1 + Math.SQRT2 / first) * (1 + Math.SQRT2 / last);
  return 10 * Math.log10((product ** 2 * (first + last)) / (first + last + 2 * Math.SQRT2));
}

/** Attenuation over the product of scatter angle and distance, in three ranges. */
function distanceDb(scatterM: number): number {
  const logarithm = Math.log10(scatterM);
  if (scatterM <= 10e3) return 133.4 + 0.332e-3 * scatterM - 10 * logarithm;
  if (scatterM <= 70e3) return 104.6 + 0.212e-3 * scatterM - 2.5 * logarithm;
  return 71.8 + 0.157e-3 * scatterM + 5 * logarithm;
}
