import { checkRange, type Finding, InputError } from '@finial/units';
import { clearSky } from '../sun/clearSky.js';
import { sunPosition } from '../sun/sunPosition.js';
import { absorbedSunW, boxFaces } from './boxFaces.js';
import { type CheckedEnclosure, checkedEnclosure, type Enclosure } from './Enclosure.js';
import { refuseHotterThanTheModel, riseUncertainty } from './enclosureBalance.js';
import { heatFindings } from './heatFindings.js';
import { type HeatRemedy, remediesFor } from './heatRemedies.js';
import { type BoxState, thermalStep } from './thermalStep.js';

/** A box through one clear day. */
export interface EnclosureOnADay extends Enclosure {
  /** Day as `YYYY-MM-DD`, 1901 to 2099; a hot day of the hottest month for the limit, a clear cold one for condensation. */
  readonly date: string;
  /** Latitude in degrees, -90 to 90. */
  readonly latitudeDeg: number;
  /** Longitude in degrees, -180 to 180. */
  readonly longitudeDeg: number;
  /** Highest temperature of the air that day in degrees C, -60 to 60, not below the lowest; reached at 15:00. */
  readonly highestAirC: number;
  /** Lowest temperature of the air that day in degrees C, -60 to 60; reached at 03:00. */
  readonly lowestAirC: number;
  /**
   * Wind at the box in metres per second all day, 0 to 50.
   *
   * @defaultValue 0, the hottest case
   */
  readonly windMPerS?: number | undefined;
  /**
   * Share of sunshine that ground or roof throws back, 0 to 1.
   *
   * @defaultValue 0.2
   */
  readonly albedoRatio?: number | undefined;
  /**
   * Highest air temperature in degrees C that the electronics' data sheet allows around them, 0 to 150.
   *
   * @defaultValue 70 (from memory, unverified; read the data sheet)
   */
  readonly electronicsLimitC?: number | undefined;
}

/** One hour of the day. */
export interface EnclosureHour {
  /** Local mean solar time in seconds after midnight. */
  readonly timeOfDaySeconds: number;
  /** Temperature of the air outside in degrees C. */
  readonly airC: number;
  /** Temperature of the walls in degrees C. */
  readonly skinC: number;
  /** Temperature of the air inside in degrees C. */
  readonly insideC: number;
  /** What is left to the electronics' limit, in kelvin; negative above it. */
  readonly marginK: number;
  /** Elevation of the sun in degrees. */
  readonly sunElevationDeg: number;
  /** Sunshine on level ground in watts per square metre. */
  readonly globalWPerM2: number;
  /** Sunshine that the box takes up, in watts. */
  readonly absorbedW: number;
}

/** A day of a box. */
export interface EnclosureDay {
  /** The 24 hours from midnight, local mean solar time. */
  readonly hours: readonly EnclosureHour[];
  /** Highest temperature inside at any step of the day, in degrees C. */
  readonly hottestInsideC: number;
  /** When, in seconds after midnight. */
  readonly hottestTimeOfDaySeconds: number;
  /** Highest temperature of the walls in degrees C. */
  readonly hottestSkinC: number;
  /** Limit of the electronics in degrees C. */
  readonly electronicsLimitC: number;
  /** Limit less hottest inside temperature, in kelvin. */
  readonly marginK: number;
  /** Uncertainty of the hottest inside temperature in kelvin: 30 % of its rise above the air. */
  readonly uncertaintyK: number;
  /** What an awning, white paint, both, a bigger box and vents would each change. */
  readonly remedies: readonly HeatRemedy[];
  /** Heat from sun and electronics over the day, in joules. */
  readonly heatInJ: number;
  /** Heat that left over the day, in joules; equal to what came in, as the day repeats. */
  readonly heatOutJ: number;
  /** What to mend and mind. */
  readonly findings: readonly Finding[];
}

/** One run through the day without what is said about it. */
interface DayRun {
  readonly hours: readonly EnclosureHour[];
  readonly hottestInsideC: number;
  readonly hottestTimeOfDaySeconds: number;
  readonly hottestSkinC: number;
  readonly airThenC: number;
  readonly heatInJ: number;
  readonly heatOutJ: number;
}

/** The day itself, checked. */
interface CheckedDay {
  readonly midnightSeconds: number;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly highestAirC: number;
  readonly lowestAirC: number;
  readonly windMPerS: number;
  readonly albedoRatio: number;
  readonly limitC: number;
}

const stepSeconds = 300;
const stepsOfADay = 86400 / stepSeconds;

/**
 * Air, wall and inside temperature of a box hour by hour through a clear day that repeats itself, the margin to the electronics' limit, and what
 * each remedy would change.
 *
 * The air swings as a cosine, coldest at 03:00 and hottest at 15:00 local mean solar time. The box is the one of {@link enclosureBalance} with heat
 * stored in walls and contents, run until one day equals the day before. Cloud, rain, and shadows of trees or buildings are not in it, nor the
 * hotter air above a dark roof (5 to 15 K, common practice): raise `highestAirC` for that.
 *
 * @returns temperatures; the rise above the air within ±30 %, hours within about a quarter of an hour
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number`, `out-of-range` or `outside-validity`
 * @source as {@link enclosureBalance}; Meeus 1998 (sun); lumped capacities (own derivation)
 * @example A dark box on a roof in a hot summer, and what an awning buys
 * ```ts
 * import { enclosureDay } from '@finial/site';
 *
 * const day = enclosureDay({
 *   widthM: 0.2, heightM: 0.2, depthM: 0.1, mounting: 'free-standing', faceAzimuthDeg: 180, powerW: 5, colour: 'dark grey or green',
 *   date: '2026-07-15', latitudeDeg: 38, longitudeDeg: 23.7, highestAirC: 42, lowestAirC: 28,
 * });
 * day.hours.length; // → 24
 * day.remedies.find(({ change }) => change === 'awning')!.gainK > 5; // → true
 * ```
 */
export function enclosureDay(box: EnclosureOnADay): EnclosureDay {
  const checked = checkedEnclosure(box, 'box');
  const day = checkedDay(box);
  const run = dayRun(checked, day);
  const marginK = day.limitC - run.hottestInsideC;
  const uncertaintyK = riseUncertainty * Math.abs(run.hottestInsideC - run.airThenC);
  const remedies = remediesFor(checked, run.hottestInsideC, day.limitC, (other) => dayRun(other, day));
  const { hours, hottestInsideC, hottestTimeOfDaySeconds, hottestSkinC, heatInJ, heatOutJ } = run;
  const outcome = { hottestInsideC, hottestSkinC, limitC: day.limitC, marginK, uncertaintyK, remedies };
  const limitIsKnown = box.electronicsLimitC !== undefined;
  return {
    hours,
    hottestInsideC,
    hottestTimeOfDaySeconds,
    hottestSkinC,
    electronicsLimitC: day.limitC,
    marginK,
    uncertaintyK,
    remedies,
    heatInJ,
    heatOutJ,
    findings: heatFindings(outcome, { limitIsKnown, absorptivityIsKnown: checked.absorptivityIsKnown }),
  };
}

function checkedDay(box: EnclosureOnADay): CheckedDay {
  const { date, latitudeDeg, longitudeDeg, highestAirC, lowestAirC } = box;
  const { windMPerS = 0, albedoRatio = 0.2, electronicsLimitC: limitC = 70 } = box;
  const celsius = { min: -60, max: 60, unit: 'degrees Celsius' };
  checkRange(latitudeDeg, 'box.latitudeDeg', { min: -90, max: 90, unit: 'degrees' });
  checkRange(longitudeDeg, 'box.longitudeDeg', { min: -180, max: 180, unit: 'degrees' });
  checkRange(lowestAirC, 'box.lowestAirC', celsius);
  checkRange(highestAirC, 'box.highestAirC', celsius);
  checkRange(highestAirC, 'box.highestAirC', { ...celsius, min: lowestAirC });
  checkRange(windMPerS, 'box.windMPerS', { min: 0, max: 50, unit: 'metres per second' });
  checkRange(albedoRatio, 'box.albedoRatio', { min: 0, max: 1, unit: '(a ratio)' });
  checkRange(limitC, 'box.electronicsLimitC', { min: 0, max: 150, unit: 'degrees Celsius' });
  const midnightSeconds = midnightOf(date) - longitudeDeg * 240;
  return {
    midnightSeconds,
    latitudeDeg,
    longitudeDeg,
    highestAirC,
    lowestAirC,
    windMPerS,
    albedoRatio,
    limitC,
  };
}

/** Midnight of Greenwich, in seconds since 1970. */
function midnightOf(date: string): number {
  const fits = typeof date === 'string' && /^(19|20)\d\d-\d\d-\d\d$/.test(date);
  const milliseconds = fits ? Date.parse(`${date}T00:00:00Z`) : Number.NaN;
  const year = fits ? Number(date.slice(0, 4)) : 0;
  // Date.parse rolls 31 February over to March in some engines: the way back shows it.
  if (
    Number.isNaN(milliseconds) ||
    new Date(milliseconds).toISOString().slice(0, 10) !== date ||
    year < 1901 ||
    year > 2099
  ) {
    const code = typeof date === 'string' ? 'out-of-range' : 'wrong-type';
    throw new InputError({
      code,
      argument: 'box.date',
      received: date,
      expected: 'a day as YYYY-MM-DD, 1901 to 2099',
    });
  }
  return milliseconds / 1000;
}

function dayRun(box: CheckedEnclosure, day: CheckedDay): DayRun {
  const faces = boxFaces(box);
  const skies = Array.from({ length: stepsOfADay }, (_, step) => weatherAt(step * stepSeconds));
  let state: BoxState = { skinC: day.lowestAirC, insideC: day.lowestAirC };
  let states: BoxState[] = [];
  let heatInJ = 0;
  let heatOutJ = 0;
  for (let repeat = 0; repeat < 200; repeat += 1) {
    const before = state;
    states = [];
    heatInJ = 0;
    heatOutJ = 0;
    for (const weather of skies) {
      const next = thermalStep(box, faces, state, weather, stepSeconds);
      heatInJ += (weather.absorbedW + box.powerW) * stepSeconds;
      heatOutJ += (next.convectionW + next.radiationW + next.ventW) * stepSeconds;
      state = { skinC: next.skinC, insideC: next.insideC };
      states.push(state);
    }
    if (Math.abs(state.skinC - before.skinC) + Math.abs(state.insideC - before.insideC) < 1e-4) break;
  }
  const hottest = states.reduce(
    (best, { insideC }, at) => (insideC > (states[best]?.insideC ?? insideC) ? at : best),
    0,
  );
  const hottestInsideC = states[hottest]?.insideC ?? day.highestAirC;
  refuseHotterThanTheModel(hottestInsideC, 'box.powerW', box.powerW);
  const hours = skies.flatMap((weather, at) => {
    const reached = states[at];
    if (reached === undefined || weather.timeOfDaySeconds % 3600 !== 0) return [];
    const { timeOfDaySeconds, airC, sunElevationDeg, globalWPerM2, absorbedW } = weather;
    const { skinC, insideC } = reached;
    const marginK = day.limitC - insideC;
    return [{ timeOfDaySeconds, airC, skinC, insideC, marginK, sunElevationDeg, globalWPerM2, absorbedW }];
  });
  return {
    hours,
    hottestInsideC,
    hottestTimeOfDaySeconds: hottest * stepSeconds,
    hottestSkinC: Math.max(...states.map(({ skinC }) => skinC)),
    airThenC: skies[hottest]?.airC ?? day.highestAirC,
    heatInJ,
    heatOutJ,
  };

  function weatherAt(timeOfDaySeconds: number) {
    const { latitudeDeg, longitudeDeg, highestAirC, lowestAirC, windMPerS, albedoRatio } = day;
    const timeSeconds = day.midnightSeconds + timeOfDaySeconds;
    const sun = sunPosition({ timeSeconds, latitudeDeg, longitudeDeg });
    const swing = Math.cos((2 * Math.PI * (timeOfDaySeconds - 15 * 3600)) / 86400);
    return {
      timeOfDaySeconds,
      airC: (highestAirC + lowestAirC) / 2 + (swing * (highestAirC - lowestAirC)) / 2,
      windMPerS,
      sunElevationDeg: sun.elevationDeg,
      globalWPerM2: clearSky(sun.elevationDeg).globalWPerM2,
      absorbedW: absorbedSunW(box, faces, sun, albedoRatio),
    };
  }
}
