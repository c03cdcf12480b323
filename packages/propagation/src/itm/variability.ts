import { climateCurves, type DistanceCurve, type FrequencyFactor } from './climateCurves.js';
import type { Climate, VariabilityMode } from './ItmSettings.js';
import { type Scene, smoothHorizonM, waveNumberPerM } from './Scene.js';
import { irregularityAtM } from './terrainIrregularity.js';

/** What is asked of the statistics; the settings with every default filled in. */
export interface VariabilityQuestion {
  readonly climate: Climate;
  readonly timePercent: number;
  readonly locationPercent: number;
  readonly situationPercent: number;
  readonly variabilityMode: VariabilityMode;
  readonly withoutLocationVariability: boolean;
  readonly withoutSituationVariability: boolean;
}

/** Attenuation at the asked percentages. */
export interface VariedAttenuation {
  readonly attenuationDb: number;
  /** Whether a percentage lies so far in the tail that the statistics hardly know it. */
  readonly isExtreme: boolean;
}

/**
 * Attenuation below free space that is not exceeded for the asked shares of time, locations and situations.
 *
 * @source G. A. Hufford, The ITS Irregular Terrain Model, version 1.2.2: the algorithm, section 5; NTIA Report 82-100
 * (April 1982), section 6
 */
export function variedAttenuation(
  scene: Scene,
  referenceDb: number,
  question: VariabilityQuestion,
): VariedAttenuation {
  const effectiveM = effectiveDistanceM(scene);
  const deviates = asked(question);
  const { time, location, situation } = deviates;
  const timeSpreadDb = timeSpread(scene, question.climate, effectiveM, time);
  const locationSpreadDb = question.withoutLocationVariability ? 0 : locationSpread(scene);
  const situationSpreadDb = question.withoutSituationVariability ? 0 : 5 + 3 * Math.exp(-effectiveM / 100e3);
  const timeDb = timeSpreadDb * time;
  const locationDb = locationSpreadDb * location;
  const residual =
    situationSpreadDb ** 2 + timeDb ** 2 / (7.8 + situation ** 2) + locationDb ** 2 / (24 + situation ** 2);

  let knownDb: number;
  let sureness = residual;
  switch (question.variabilityMode) {
    case 'single-message':
      knownDb = 0;
      sureness += timeSpreadDb ** 2 + locationSpreadDb ** 2;
      break;
    case 'accidental':
      knownDb = timeDb;
      sureness += locationSpreadDb ** 2;
      break;
    case 'mobile':
      knownDb = Math.hypot(timeSpreadDb, locationSpreadDb) * time;
      break;
    case 'broadcast':
      knownDb = timeDb + locationDb;
  }
  const medianDb = curve(climateCurves[question.climate].median, effectiveM);
  const attenuationDb = softened(referenceDb - medianDb - knownDb - Math.sqrt(sureness) * situation);
  return { attenuationDb, isExtreme: [time, location, situation].some((z) => Math.abs(z) > 3.1) };
}

/** Signals well above free space are rarer than the normal distribution has them. */
function softened(attenuationDb: number): number {
  if (attenuationDb >= 0) return attenuationDb;
  return (attenuationDb * (29 - attenuationDb)) / (29 - 10 * attenuationDb);
}

/** Standard normal deviates of the percentages; the mode makes some of them one. */
function asked(question: VariabilityQuestion): { time: number; location: number; situation: number } {
  const time = exceedanceDeviate(question.timePercent / 100);
  const location = exceedanceDeviate(question.locationPercent / 100);
  const situation = exceedanceDeviate(question.situationPercent / 100);
  switch (question.variabilityMode) {
    case 'single-message':
      return { time: situation, location: situation, situation };
    case 'accidental':
      return { time, location: situation, situation };
    case 'mobile':
      return { time, location: time, situation };
    case 'broadcast':
      return { time, location, situation };
  }
}

/** Distance on the scale of the climate curves: 130 km where scatter begins to take over. */
function effectiveDistanceM({ transmitter, receiver, distanceM, megahertz }: Scene): number {
  const scatterM =
    smoothHorizonM(transmitter.effectiveHeightM, 9000e3) +
    smoothHorizonM(receiver.effectiveHeightM, 9000e3) +
    Math.cbrt(575.7e12 / waveNumberPerM(megahertz));
  return distanceM < scatterM ? (130e3 * distanceM) / scatterM : 130e3 + distanceM - scatterM;
}

function locationSpread({ distanceM, terrainIrregularityM, megahertz }: Scene): number {
  const phase = waveNumberPerM(megahertz) * irregularityAtM(distanceM, terrainIrregularityM);
  return (10 * phase) / (phase + 13);
}

function timeSpread({ megahertz }: Scene, climate: Climate, effectiveM: number, deviate: number): number {
  const curves = climateCurves[climate];
  const logarithm = Math.log(0.133 * waveNumberPerM(megahertz));
  if (deviate < 0) return curve(curves.weak, effectiveM) * frequencyFactor(curves.weakFrequency, logarithm);
  const strongDb = curve(curves.strong, effectiveM) * frequencyFactor(curves.strongFrequency, logarithm);
  if (deviate <= curves.tailStart) return strongDb;
  const tailDb = curves.tailRatio * strongDb;
  return tailDb + ((strongDb - tailDb) * curves.tailStart) / deviate;
}

/**
 * Value of a climate curve.
 *
 * @source NBS Technical Note 101 (1967), volume II, equations III.69 and III.70
 */
function curve([plateau, hump, rise, humpAt, humpWidth]: DistanceCurve, effectiveM: number): number {
  const square = (effectiveM / rise) ** 2;
  return ((plateau + hump / (1 + ((effectiveM - humpAt) / humpWidth) ** 2)) * square) / (1 + square);
}

function frequencyFactor([plateau, hump, sharpness]: FrequencyFactor, logarithm: number): number {
  return plateau + hump / ((sharpness * logarithm) ** 2 + 1);
}

/**
 * Standard normal deviate that is exceeded with a probability, within 4.5e-4. The model is defined with this approximation,
 * so an exact inverse would differ from it.
 *
 * @source M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions (1964), equation 26.2.23
 */
function exceedanceDeviate(probability: number): number {
  const tail = Math.min(probability, 1 - probability);
  const t = Math.sqrt(-2 * Math.log(tail));
  const deviate =
    t - (2.515516 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
  return probability > 0.5 ? -deviate : deviate;
}
