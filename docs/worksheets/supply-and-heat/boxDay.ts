import type { EnclosureOnADay } from '@finial/site';
import type { BoxValues } from './SiteValues.js';

/** The sun stands alike in every year to a fraction of a degree, so that any will do. */
const year = 2026;

/** The box and its day as the package takes them. */
export function boxDay(values: BoxValues): EnclosureOnADay {
  const { widthM, heightM, depthM, mounting, faceAzimuthDeg, powerW, colour, absorptivityRatio } = values;
  const { latitudeDeg, longitudeDeg, highestAirC, lowestAirC, windMPerS, albedoRatio, electronicsLimitC } =
    values;
  return {
    widthM,
    heightM,
    depthM,
    mounting,
    faceAzimuthDeg,
    powerW,
    ...(colour === 'stated' ? { absorptivityRatio } : { colour }),
    shadeRatio: values.shadeRatio,
    ventAreaM2: values.ventAreaM2,
    date: `${year}-${values.month}-${String(values.day).padStart(2, '0')}`,
    latitudeDeg,
    longitudeDeg,
    highestAirC,
    lowestAirC,
    windMPerS,
    albedoRatio,
    electronicsLimitC,
  };
}
