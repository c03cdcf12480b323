import { checkObject, checkRange, degreesToRadians } from '@finial/units';
import { clearSky } from './clearSky.js';

/** A flat face under the sun. */
export interface SunlitFace {
  /** Elevation of the sun in degrees, -90 to 90. */
  readonly elevationDeg: number;
  /** Azimuth of the sun in degrees, clockwise from north, -360 to 360. */
  readonly azimuthDeg: number;
  /** Direction the face looks at in degrees, clockwise from north, -360 to 360; of no account for a level face. */
  readonly faceAzimuthDeg: number;
  /** Tilt of the face in degrees: 0 looks up, 90 is a wall, 180 looks down. */
  readonly faceTiltDeg: number;
  /**
   * Share of sunshine that the ground or roof throws back, 0 to 1.
   *
   * @defaultValue 0.2 (common practice; a white roof membrane reflects up to 0.8)
   */
  readonly albedoRatio?: number | undefined;
}

/** Sunshine on a face. */
export interface FaceSunshine {
  /** From the sun's disc in watts per square metre. */
  readonly beamWPerM2: number;
  /** From the sky in watts per square metre. */
  readonly skyWPerM2: number;
  /** From the ground in watts per square metre. */
  readonly groundWPerM2: number;
  /** Their sum in watts per square metre. */
  readonly totalWPerM2: number;
}

/**
 * Sunshine on a face of any direction under a clear sky, with an even sky and an even ground.
 *
 * Nothing stands in the way and the sky near the sun is no brighter than elsewhere: a face toward the sun gets up to 10 % more.
 *
 * @returns irradiance within about 15 %
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source B. Y. H. Liu and R. C. Jordan, Solar Energy 7 (1963) 53: beam, isotropic sky and ground; sky of {@link clearSky}
 * @example A south wall at noon with the sun half way up, against the roof beside it
 * ```ts
 * import { sunOnFace } from '@finial/site';
 *
 * const sun = { elevationDeg: 30, azimuthDeg: 180, faceAzimuthDeg: 180 };
 * sunOnFace({ ...sun, faceTiltDeg: 90 }).totalWPerM2 > sunOnFace({ ...sun, faceTiltDeg: 0 }).totalWPerM2; // → true
 * ```
 */
export function sunOnFace(face: SunlitFace): FaceSunshine {
  const {
    elevationDeg,
    azimuthDeg,
    faceAzimuthDeg,
    faceTiltDeg,
    albedoRatio = 0.2,
  } = checkObject(face, 'face');
  checkRange(elevationDeg, 'face.elevationDeg', { min: -90, max: 90, unit: 'degrees' });
  checkRange(azimuthDeg, 'face.azimuthDeg', { min: -360, max: 360, unit: 'degrees' });
  checkRange(faceAzimuthDeg, 'face.faceAzimuthDeg', { min: -360, max: 360, unit: 'degrees' });
  checkRange(faceTiltDeg, 'face.faceTiltDeg', { min: 0, max: 180, unit: 'degrees' });
  checkRange(albedoRatio, 'face.albedoRatio', { min: 0, max: 1, unit: '(a ratio)' });

  const sky = clearSky(elevationDeg);
  const elevation = degreesToRadians(elevationDeg);
  const tilt = degreesToRadians(faceTiltDeg);
  const incidence =
    Math.sin(elevation) * Math.cos(tilt) +
    Math.cos(elevation) * Math.sin(tilt) * Math.cos(degreesToRadians(azimuthDeg - faceAzimuthDeg));
  const beamWPerM2 = sky.directNormalWPerM2 * Math.max(0, incidence);
  const skyWPerM2 = (sky.diffuseWPerM2 * (1 + Math.cos(tilt))) / 2;
  const groundWPerM2 = (sky.globalWPerM2 * albedoRatio * (1 - Math.cos(tilt))) / 2;
  return { beamWPerM2, skyWPerM2, groundWPerM2, totalWPerM2: beamWPerM2 + skyWPerM2 + groundWPerM2 };
}
