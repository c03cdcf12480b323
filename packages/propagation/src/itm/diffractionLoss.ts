import type { GroundImpedance } from './groundImpedance.js';
import { actualSightM, type Scene, sightAngleRad, smoothSightM, waveNumberPerM } from './Scene.js';
import { irregularityAtM, localRoughnessM } from './terrainIrregularity.js';

/** Radius of the Earth in metres, as the curves of smooth-Earth diffraction take it. */
const actualRadiusM = 6370e3;

/** A straight line of loss over distance. */
export interface LossLine {
  readonly slopeDbPerM: number;
  readonly interceptDb: number;
}

/**
 * Diffraction loss as a straight line through two distances far beyond the horizon: nearer, the line itself is the model.
 *
 * @source G. A. Hufford, The ITS Irregular Terrain Model, version 1.2.2: the algorithm, section 4.2
 */
export function diffractionLine(scene: Scene): LossLine {
  const { effectiveEarthRadiusM, megahertz } = scene;
  const scaleM = Math.cbrt(effectiveEarthRadiusM ** 2 / megahertz);
  const nearM = Math.max(smoothSightM(scene), actualSightM(scene) + 5 * scaleM);
  const farM = nearM + 10 * scaleM;
  const nearDb = diffractionLossDb(scene, nearM);
  const slopeDbPerM = (diffractionLossDb(scene, farM) - nearDb) / (farM - nearM);
  return { slopeDbPerM, interceptDb: nearDb - slopeDbPerM * nearM };
}

/** Knife-edge and smooth-Earth diffraction, weighted by how rough the ground is, and the clutter of rough ground on top. */
function diffractionLossDb(scene: Scene, distanceM: number): number {
  const { transmitter, receiver, effectiveEarthRadiusM, megahertz } = scene;
  const heights = transmitter.heightM * receiver.heightM;
  const roughnessM = localRoughnessM(irregularityAtM(smoothSightM(scene), scene.terrainIrregularityM));
  const clutterDb = Math.min(15, 5 * Math.log10(1 + 1e-5 * heights * megahertz * roughnessM));

  const low = scene.knowsProfile ? heights + 10 : heights;
  const gain = transmitter.effectiveHeightM * receiver.effectiveHeightM - heights;
  const sight = actualSightM(scene) - sightAngleRad(scene) * effectiveEarthRadiusM;
  const irregularityM = irregularityAtM(distanceM, scene.terrainIrregularityM);
  const roughness =
    (Math.sqrt(1 + gain / low) + sight / distanceM) *
    Math.min(irregularityM * waveNumberPerM(megahertz), 6283.2);
  const smoothShare = 25.1 / (25.1 + Math.sqrt(roughness));
  return (
    smoothShare * smoothEarthLossDb(scene, distanceM) +
    (1 - smoothShare) * knifeEdgesLossDb(scene, distanceM) +
    clutterDb
  );
}

/**
 * Loss over two knife edges, one at each horizon.
 *
 * @source NBS Technical Note 101 (1967), volume II, annex I, equations I.1 and I.7
 */
function knifeEdgesLossDb(scene: Scene, distanceM: number): number {
  const bendRad = distanceM / scene.effectiveEarthRadiusM - sightAngleRad(scene);
  const beyondM = distanceM - actualSightM(scene);
  const edgeDb = (horizonM: number): number =>
    edgeLossDb(
      (0.0795775 * waveNumberPerM(scene.megahertz) * bendRad ** 2 * horizonM * beyondM) /
        (beyondM + horizonM),
    );
  return edgeDb(scene.transmitter.horizonDistanceM) + edgeDb(scene.receiver.horizonDistanceM);
}

/**
 * Loss over one edge, by the square of the Fresnel parameter.
 *
 * @source NBS Technical Note 101 (1967), volume II, equations III.24b and III.24c
 */
function edgeLossDb(squaredNu: number): number {
  return squaredNu < 5.76
    ? 6.02 + 9.11 * Math.sqrt(squaredNu) - 1.27 * squaredNu
    : 12.953 + 10 * Math.log10(squaredNu);
}

/**
 * Loss around a smooth Earth of three radii: one between the horizons and one under each end.
 *
 * @source G. A. Hufford, The ITS Irregular Terrain Model, version 1.2.2: the algorithm, equations 4.14 to 4.20, after
 * L. E. Vogler (1964)
 */
function smoothEarthLossDb(scene: Scene, distanceM: number): number {
  const { transmitter, receiver, megahertz, impedance } = scene;
  const bendRad = distanceM / scene.effectiveEarthRadiusM - sightAngleRad(scene);
  const betweenM = distanceM - actualSightM(scene);
  const middle = smoothArc(betweenM, betweenM / bendRad, megahertz, impedance);
  const [first, last] = [transmitter, receiver].map(({ horizonDistanceM, effectiveHeightM }) =>
    smoothArc(horizonDistanceM, (0.5 * horizonDistanceM ** 2) / effectiveHeightM, megahertz, impedance),
  ) as [SmoothArc, SmoothArc];
  const length = middle.length + first.length + last.length;
  return distanceDb(length) - heightGainDb(first) - heightGainDb(last) - 20;
}

/** A stretch of smooth Earth in the normalised units of the curves. */
interface SmoothArc {
  readonly length: number;
  /** How well the ground conducts at this curvature: small for good ground. */
  readonly surface: number;
}

function smoothArc(arcM: number, radiusM: number, megahertz: number, impedance: GroundImpedance): SmoothArc {
  const curvature = Math.cbrt(((4 / 3) * actualRadiusM) / radiusM);
  const rootMegahertz = Math.cbrt(megahertz);
  const surface = (0.017778 * curvature) / rootMegahertz / Math.hypot(impedance.real, impedance.imaginary);
  return { length: (1.607 - surface) * curvature ** 2 * rootMegahertz * (arcM / 1000), surface };
}

function distanceDb(length: number): number {
  return 0.05751 * length - 10 * Math.log10(length);
}

function heightGainDb({ length, surface }: SmoothArc): number {
  if (length >= 200) {
    const farDb = 0.05751 * length - 4.343 * Math.log(length);
    if (length >= 2000) return farDb;
    const share = 0.0134 * length * Math.exp(-0.005 * length);
    return (1 - share) * farDb + share * (17.372 * Math.log(length) - 117);
  }
  const depth = -Math.log(surface);
  if (surface < 1e-5 || length * depth ** 3 > 5495) {
    return length > 1 ? 17.372 * Math.log(length) - 117 : -117;
  }
  return (2.5e-5 * length ** 2) / surface - 8.686 * depth - 15;
}
