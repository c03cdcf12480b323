import { sunOnFace } from '../sun/sunOnFace.js';
import type { CheckedEnclosure } from './Enclosure.js';

/** One face of a box that the weather reaches. */
export interface BoxFace {
  readonly areaM2: number;
  readonly azimuthDeg: number;
  readonly tiltDeg: number;
}

/** The faces that the weather reaches: all six, or five where the back lies on a wall. */
export function boxFaces(box: CheckedEnclosure): readonly BoxFace[] {
  const { widthM, heightM, depthM, faceAzimuthDeg, mounting } = box;
  const facing = (turnDeg: number) => (((faceAzimuthDeg + turnDeg) % 360) + 360) % 360;
  const side = (areaM2: number, turnDeg: number) => ({ areaM2, azimuthDeg: facing(turnDeg), tiltDeg: 90 });
  return [
    { areaM2: widthM * depthM, azimuthDeg: 0, tiltDeg: 0 },
    { areaM2: widthM * depthM, azimuthDeg: 0, tiltDeg: 180 },
    side(widthM * heightM, 0),
    side(heightM * depthM, 90),
    side(heightM * depthM, -90),
    ...(mounting === 'wall' ? [] : [side(widthM * heightM, 180)]),
  ];
}

/** Watts of sunshine that the box takes up. A wall behind the box also keeps the sun away while it stands behind the wall. */
export function absorbedSunW(
  box: CheckedEnclosure,
  faces: readonly BoxFace[],
  sun: { readonly elevationDeg: number; readonly azimuthDeg: number },
  albedoRatio: number,
): number {
  const turn = ((sun.azimuthDeg - box.faceAzimuthDeg) * Math.PI) / 180;
  const behindTheWall = box.mounting === 'wall' && Math.cos(turn) < 0;
  let incidentW = 0;
  for (const { areaM2, azimuthDeg, tiltDeg } of faces) {
    const light = sunOnFace({ ...sun, faceAzimuthDeg: azimuthDeg, faceTiltDeg: tiltDeg, albedoRatio });
    incidentW += areaM2 * (light.totalWPerM2 - (behindTheWall ? light.beamWPerM2 : 0));
  }
  return incidentW * box.absorptivityRatio * (1 - box.shadeRatio);
}
