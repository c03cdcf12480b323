import type { LossLine } from './diffractionLoss.js';
import { type Scene, smoothSightM, waveNumberPerM } from './Scene.js';
import { irregularityAtM, localRoughnessM } from './terrainIrregularity.js';

/**
 * Loss at a distance within sight: direct and reflected ray, weighted against the extended line of diffraction the more the
 * rougher the ground is.
 *
 * @source G. A. Hufford, The ITS Irregular Terrain Model, version 1.2.2: the algorithm, equations 4.43 to 4.50
 */
export function lineOfSightLossDb(scene: Scene, line: LossLine, distanceM: number): number {
  const diffractionDb = line.slopeDbPerM * distanceM + line.interceptDb;
  const { megahertz, terrainIrregularityM } = scene;
  const share = 1 / (1 + (megahertz * terrainIrregularityM) / Math.max(10e3, smoothSightM(scene)));
  return share * twoRayLossDb(scene, distanceM) + (1 - share) * diffractionDb;
}

function twoRayLossDb(scene: Scene, distanceM: number): number {
  const { transmitter, receiver, impedance, megahertz } = scene;
  const waveNumber = waveNumberPerM(megahertz);
  const heightsM = transmitter.effectiveHeightM + receiver.effectiveHeightM;
  const sine = heightsM / Math.hypot(distanceM, heightsM);
  const roughnessM = localRoughnessM(irregularityAtM(distanceM, scene.terrainIrregularityM));
  const damping = Math.exp(-Math.min(10, waveNumber * roughnessM * sine));

  // (sine - Z) / (sine + Z), with the denominator made real.
  const square = (sine + impedance.real) ** 2 + impedance.imaginary ** 2;
  const real = ((sine ** 2 - impedance.real ** 2 - impedance.imaginary ** 2) / square) * damping;
  const imaginary = ((-2 * sine * impedance.imaginary) / square) * damping;
  const power = real ** 2 + imaginary ** 2;
  // A ray off rough ground never fades wholly: what is scattered arrives too.
  const boost = power < 0.25 || power < sine ? Math.sqrt(sine / power) : 1;

  const phase = (2 * waveNumber * transmitter.effectiveHeightM * receiver.effectiveHeightM) / distanceM;
  const phaseRad = phase > Math.PI / 2 ? Math.PI - (Math.PI / 2) ** 2 / phase : phase;
  const sumReal = Math.cos(phaseRad) + real * boost;
  const sumImaginary = imaginary * boost - Math.sin(phaseRad);
  return -10 * Math.log10(sumReal ** 2 + sumImaginary ** 2);
}
