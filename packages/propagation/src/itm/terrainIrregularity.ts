import type { RadioPath } from '../path/RadioPath.js';

type NumberSeries = RadioPath['heightM'];

/** Evenly spaced ground heights. */
export interface EvenProfile {
  readonly heightM: NumberSeries;
  readonly stepM: number;
}

/** Height of a straight line at both ends of a profile. */
export interface TrendLine {
  readonly startHeightM: number;
  readonly endHeightM: number;
}

/** Length over which the ground shows its full irregularity. */
const roughnessScaleM = 50e3;

/** Irregularity that a path of a given length sees of ground whose irregularity over long paths is known. */
export function irregularityAtM(distanceM: number, terrainIrregularityM: number): number {
  return terrainIrregularityM * (1 - 0.8 * Math.exp(-distanceM / roughnessScaleM));
}

/** Root-mean-square roughness within the first Fresnel zone of the reflecting ground. */
export function localRoughnessM(irregularityM: number): number {
  return 0.78 * irregularityM * Math.exp(-0.5 * irregularityM ** 0.25);
}

/**
 * Terrain irregularity between two distances of a profile: the interdecile range of the heights about their trend, brought up
 * to what a long path would show.
 *
 * The stretch is sampled anew at 35 to 245 points, so that the deciles fall on samples.
 *
 * @source NTIA Report 82-100 (April 1982), section 5.2 and appendix A; ESSA Technical Report ERL 79-ITS 67 (1968), equation 3
 */
export function terrainIrregularityM({ heightM, stepM }: EvenProfile, startM: number, endM: number): number {
  const start = startM / stepM;
  const length = endM / stepM - start;
  if (length < 2) return 0;
  const decile = Math.min(Math.max(4, Math.trunc(0.1 * (length + 8))), 25);
  const count = 10 * decile - 5;
  const sampled = resample(heightM, start, length / (count - 1), count);
  const trend = trendLine({ heightM: sampled, stepM: 1 }, 0, count - 1);
  const slope = (trend.endHeightM - trend.startHeightM) / (count - 1);
  const sorted = sampled.map((height, place) => height - trend.startHeightM - slope * place).sort();
  // Ascending: the upper decile stands as far from the end as the lower stands from the start.
  const range = (sorted[count - decile] as number) - (sorted[decile - 1] as number);
  return range / (1 - 0.8 * Math.exp(-(endM - startM) / roughnessScaleM));
}

function resample(heightM: NumberSeries, start: number, step: number, count: number): Float64Array {
  const lastPoint = heightM.length - 1;
  const sampled = new Float64Array(count);
  for (let sample = 0; sample < count; sample += 1) {
    const place = start + sample * step;
    const right = Math.min(Math.max(Math.ceil(place), Math.trunc(start) + 1), lastPoint);
    const rightHeight = heightM[right] as number;
    sampled[sample] = rightHeight + (rightHeight - (heightM[right - 1] as number)) * (place - right);
  }
  return sampled;
}

/**
 * Straight line of least squares through the heights between two distances, carried on to both ends of the profile. The two
 * outermost heights count half, and a stretch shorter than one step is widened to one.
 *
 * @source NTIA Report 82-100 (April 1982), appendix A (least-squares fit of a profile)
 */
export function trendLine({ heightM, stepM }: EvenProfile, startM: number, endM: number): TrendLine {
  const lastPoint = heightM.length - 1;
  let first = Math.trunc(Math.max(startM / stepM, 0));
  let last = lastPoint - Math.trunc(Math.max(lastPoint - endM / stepM, 0));
  if (last <= first) {
    first = Math.max(first - 1, 0);
    last = lastPoint - Math.max(lastPoint - last - 1, 0);
  }
  const length = last - first;
  const firstHeight = heightM[first] as number;
  const lastHeight = heightM[last] as number;
  let sum = 0.5 * (firstHeight + lastHeight);
  let moment = 0.25 * length * (lastHeight - firstHeight);
  for (let point = first + 1; point < last; point += 1) {
    sum += heightM[point] as number;
    moment += (heightM[point] as number) * (point - first - length / 2);
  }
  const mean = sum / length;
  const slope = (12 * moment) / ((length ** 2 + 2) * length);
  const middle = first + length / 2;
  return { startHeightM: mean - slope * middle, endHeightM: mean + slope * (lastPoint - middle) };
}
