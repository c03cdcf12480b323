import { diffractionLine, type LossLine } from './diffractionLoss.js';
import type { PropagationMode } from './ItmLoss.js';
import { lineOfSightLossDb } from './lineOfSightLoss.js';
import { actualSightM, type Scene, smoothSightM } from './Scene.js';
import { troposcatterLoss } from './troposcatterLoss.js';

/** Median attenuation below free space, and by which mechanism. */
export interface ReferenceAttenuation {
  readonly lossDb: number;
  readonly mode: PropagationMode;
}

/**
 * Median attenuation below free space: a curve through two-ray values within sight, the line of diffraction behind the
 * horizon, and the line of troposcatter from where it is the lesser.
 *
 * @source G. A. Hufford, The ITS Irregular Terrain Model, version 1.2.2: the algorithm, section 4; ESSA Technical Report
 * ERL 79-ITS 67 (1968), equations 3.16 to 3.21
 */
export function referenceAttenuation(scene: Scene): ReferenceAttenuation {
  const line = diffractionLine(scene);
  if (scene.distanceM < smoothSightM(scene)) {
    return { lossDb: Math.max(withinSightDb(scene, line), 0), mode: 'line-of-sight' };
  }
  const scatter = scatterLine(scene, line);
  const [{ slopeDbPerM, interceptDb }, mode] =
    scatter !== undefined && scene.distanceM > scatter.fromM
      ? ([scatter, 'troposcatter'] as const)
      : ([line, 'diffraction'] as const);
  return { lossDb: Math.max(slopeDbPerM * scene.distanceM + interceptDb, 0), mode };
}

/** The line of troposcatter and the distance from which it holds; `undefined` where the model has no value. */
function scatterLine(
  scene: Scene,
  diffraction: LossLine,
): (LossLine & { readonly fromM: number }) | undefined {
  const { megahertz, effectiveEarthRadiusM } = scene;
  const sightM = actualSightM(scene);
  const nearM = sightM + 200e3;
  const far = troposcatterLoss(scene, sightM + 400e3);
  const near = troposcatterLoss(scene, nearM, far);
  if (far === undefined || near === undefined || near.lossDb >= 1000) return undefined;
  const slopeDbPerM = (far.lossDb - near.lossDb) / 200e3;
  const steeper = diffraction.slopeDbPerM - slopeDbPerM;
  const fromM = Math.max(
    smoothSightM(scene),
    sightM + 1.088 * Math.cbrt(effectiveEarthRadiusM ** 2 / megahertz) * Math.log(megahertz),
    (near.lossDb - diffraction.interceptDb - slopeDbPerM * nearM) / steeper,
  );
  return { slopeDbPerM, interceptDb: steeper * fromM + diffraction.interceptDb, fromM };
}

/** Attenuation on a curve of a constant, a linear and a logarithmic part, which ends in the line of diffraction. */
function withinSightDb(scene: Scene, line: LossLine): number {
  const { distanceM } = scene;
  const endM = smoothSightM(scene);
  const endDb = endM * line.slopeDbPerM + line.interceptDb;
  const { linearDbPerM, logarithmicDb } = withinSightSlopes(scene, line, endM, endDb);
  return endDb - linearDbPerM * (endM - distanceM) - logarithmicDb * Math.log(endM / distanceM);
}

interface SightSlopes {
  readonly linearDbPerM: number;
  readonly logarithmicDb: number;
}

function withinSightSlopes(scene: Scene, line: LossLine, endM: number, endDb: number): SightSlopes {
  const [nearM, middleM] = sightDistancesM(scene, line);
  const middleDb = lineOfSightLossDb(scene, line, middleM);
  if (nearM < middleM) {
    const nearDb = lineOfSightLossDb(scene, line, nearM);
    const logarithm = Math.log(endM / nearM);
    const bend =
      ((endM - nearM) * (middleDb - nearDb) - (middleM - nearM) * (endDb - nearDb)) /
      ((endM - nearM) * Math.log(middleM / nearM) - (middleM - nearM) * logarithm);
    const logarithmicDb = Math.max(0, bend);
    if (line.interceptDb > 0 || logarithmicDb > 0) {
      const linearDbPerM = (endDb - nearDb - logarithmicDb * logarithm) / (endM - nearM);
      if (linearDbPerM >= 0) return { linearDbPerM, logarithmicDb };
      const steepestDb = Math.max(endDb - nearDb, 0) / logarithm;
      return { linearDbPerM: steepestDb === 0 ? line.slopeDbPerM : 0, logarithmicDb: steepestDb };
    }
  }
  const straightDbPerM = Math.max(endDb - middleDb, 0) / (endM - middleM);
  return { linearDbPerM: straightDbPerM === 0 ? line.slopeDbPerM : straightDbPerM, logarithmicDb: 0 };
}

/** Two distances well within sight, at which the two-ray values pin the curve. */
function sightDistancesM(scene: Scene, line: LossLine): readonly [number, number] {
  const { transmitter, receiver, megahertz } = scene;
  const sightM = actualSightM(scene);
  const breakM = 0.04 * megahertz * transmitter.effectiveHeightM * receiver.effectiveHeightM;
  if (line.interceptDb < 0) return [breakM, Math.max(-line.interceptDb / line.slopeDbPerM, 0.25 * sightM)];
  const nearM = Math.min(breakM, 0.5 * sightM);
  return [nearM, nearM + 0.25 * (sightM - nearM)];
}
