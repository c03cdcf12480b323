import { checkList, checkObject, checkOneOf, checkRange, type Finding, InputError } from '@finial/units';
import { type DragShape, dragCoefficient } from './dragCoefficient.js';
import { mastFindings } from './mastFindings.js';
import { standardGravity } from './standardGravity.js';
import { type MastTube, type TubeInWind, tubeInWind } from './tubeInWind.js';
import { type WindPressure, type WindQuestion, windPressure } from './windPressure.js';

/** A part on a mast: the tube itself, an antenna, a box, a cable. */
export interface MastPart {
  /** What a person calls it. */
  readonly name: string;
  /** Its shape. */
  readonly shape: DragShape;
  /** Width across the wind (the diameter of a round part) in metres, 0.001 to 10. */
  readonly widthM: number;
  /** Extent upwards in metres, 0.001 to 100. */
  readonly heightM: number;
  /** Middle above the foot in metres, 0.0005 to 100; the part may not reach below the foot. */
  readonly centreM: number;
  /**
   * Force coefficient from the maker's sheet or a measurement as a ratio, 0.1 to 3, in place of the table.
   *
   * @defaultValue by shape, `dragCoefficient`
   */
  readonly dragRatio?: number | undefined;
  /**
   * Mass in kilograms, 0 to 1e4, counted against tipping as if it stood over the middle of the foot.
   *
   * @defaultValue 0, on the safe side
   */
  readonly massKg?: number | undefined;
}

/** A mount that lies on a level roof and is held by weight alone. */
export interface BallastFoot {
  /** Held by weight. */
  readonly kind: 'ballast';
  /** Shortest distance in metres, 0.05 to 20, from the mast to the edge over which it would tip: half the width of a square foot. */
  readonly tippingArmM: number;
  /** Coefficient of friction between foot and roof as a ratio, 0.05 to 1.5. Wet, mossy or icy roofs have far less than dry rubber. */
  readonly frictionRatio: number;
  /** Ballast that lies on it in kilograms, 0 to 1e5, evenly spread. Without it only the need is told. */
  readonly ballastKg?: number | undefined;
  /** Area in square metres, 0.01 to 400, over which the foot rests on the roof, for the load on the roof. */
  readonly areaM2?: number | undefined;
}

/** A mount that is bolted or clamped: force and moment go into what it is fixed to. */
export interface FixedFoot {
  /** Bolted or clamped. */
  readonly kind: 'fixed';
}

/** A mast in the wind. */
export interface MastQuestion {
  /** The wind, by one of two codes. */
  readonly wind: WindQuestion;
  /** Everything that stands in it, the tube too. */
  readonly parts: readonly MastPart[];
  /** What holds it. */
  readonly foot: BallastFoot | FixedFoot;
  /** The tube, for its stress and its bending. */
  readonly tube?: MastTube | undefined;
  /**
   * Thickness of ice in metres, 0 to 0.2, all round every part. It widens the parts; its weight is not counted.
   *
   * @defaultValue 0
   */
  readonly iceM?: number | undefined;
  /**
   * What tipping, sliding and yielding must be away from, as a ratio, 1 to 5.
   *
   * @defaultValue 1.5
   */
  readonly safetyRatio?: number | undefined;
}

/** The wind on one part. */
export interface PartLoad {
  /** Its name. */
  readonly name: string;
  /** Force coefficient, as a ratio. */
  readonly dragRatio: number;
  /** Area across the wind in square metres, with ice. */
  readonly areaM2: number;
  /** Force in newtons. */
  readonly forceN: number;
  /** Moment about the foot in newton metres. */
  readonly momentNm: number;
  /** Whether the coefficient was read or given; false where it rests on memory. */
  readonly isVerified: boolean;
  /** Where the coefficient comes from. */
  readonly source: string;
}

/** What it takes to hold a mast by weight. */
export interface BallastHold {
  /** Mass in kilograms that keeps it from tipping, with the safety factor. */
  readonly massAgainstTippingKg: number;
  /** Mass in kilograms that keeps it from sliding, with the safety factor. */
  readonly massAgainstSlidingKg: number;
  /** Mass of the parts in kilograms, as far as it was given. */
  readonly ownMassKg: number;
  /** Ballast needed in kilograms: the larger of the two masses, less the own mass, not below 0. */
  readonly ballastNeededKg: number;
  /** What holds against tipping over what tips, as a ratio, with the ballast that was given. */
  readonly tippingRatio?: number | undefined;
  /** What holds against sliding over what pushes, as a ratio, with the ballast that was given. */
  readonly slidingRatio?: number | undefined;
  /** Weight on the roof over the area of the foot in pascals (without the wind), with the ballast given or else needed. */
  readonly roofPressurePa?: number | undefined;
}

/** What the wind does to a mast. */
export interface MastLoad {
  /** The pressure, with what it was made from. */
  readonly pressure: WindPressure;
  /** Each part. */
  readonly parts: readonly PartLoad[];
  /** Force of the wind in newtons. */
  readonly forceN: number;
  /** Moment about the foot in newton metres. */
  readonly momentNm: number;
  /** How far force and moment may be off, either way, as a ratio: an estimate of practice, no source. */
  readonly uncertaintyRatio: number;
  /** Safety factor used, as a ratio. */
  readonly safetyRatio: number;
  /** What holds it by weight; missing for a fixed foot. */
  readonly hold?: BallastHold | undefined;
  /** Stress and bending of the tube; missing where no tube was given. */
  readonly tube?: TubeInWind | undefined;
  /** What a person should be told: always a caution. */
  readonly findings: readonly Finding[];
}

/**
 * Wind on a whole mast: force, moment about the foot, the ballast that a foot on a level roof needs, and the stress in the tube.
 *
 * The wind is the same over the whole mast, which is right for masts of a few metres with the height of the top. Parts do not shelter one another. Suction on the
 * ballast, gusts round the edge of a roof, guys, slopes and eddies in rhythm are not in it; a sloping roof needs another mount. An estimate
 * for planning: whoever is licensed for structures where it stands decides, as does the owner of the roof.
 *
 * @returns forces in newtons, moments in newton metres, masses in kilograms; `uncertaintyRatio` says how good
 * @throws {@link InputError} `wrong-type`, `missing`, `unknown-option`, `not-a-finite-number` or `out-of-range`
 * @source ASCE 7 F = q G Cf A; EN 1991-1-4:2005 section 5.3; statics of a rigid body on an edge; safety factor 1.5 common practice, no source
 * @example Two metres of mast, a whip and a box in a gust of 40 m/s
 * ```ts
 * import { mastLoad } from '@finial/site';
 *
 * const mast = mastLoad({
 *   wind: { code: 'asce-7', gustSpeedMPerS: 40, exposureRatio: 1 },
 *   parts: [
 *     { name: 'mast', shape: 'round', widthM: 0.04, heightM: 2, centreM: 1 },
 *     { name: 'antenna', shape: 'round', widthM: 0.025, heightM: 0.6, centreM: 2.3 },
 *     { name: 'box', shape: 'flat-by-aspect', widthM: 0.2, heightM: 0.15, centreM: 1 },
 *   ],
 *   foot: { kind: 'ballast', tippingArmM: 0.45, frictionRatio: 0.4 },
 * });
 * mast.forceN; // ≈ 147.12
 * mast.momentNm; // ≈ 170.07
 * mast.hold?.ballastNeededKg; // ≈ 57.8
 * ```
 */
export function mastLoad(mast: MastQuestion): MastLoad {
  checkObject(mast, 'mast');
  const { iceM = 0, safetyRatio = 1.5, foot } = mast;
  checkRange(iceM, 'iceM', { min: 0, max: 0.2, unit: 'metres' });
  checkRange(safetyRatio, 'safetyRatio', { min: 1, max: 5, unit: 'as a ratio' });
  const given = checkList(mast.parts, 'parts').map(checkedPart);
  checkObject(foot, 'foot');
  checkOneOf(foot.kind, 'kind', ['ballast', 'fixed']);
  const pressure = windPressure(mast.wind);

  const parts = given.map((part) => partLoad(part, pressure, iceM));
  const forceN = sum(parts.map((part) => part.forceN));
  const momentNm = sum(parts.map((part) => part.momentNm));
  const ownMassKg = sum(given.map(({ massKg = 0 }) => massKg));
  const hold =
    foot.kind === 'ballast' ? ballastHold(foot, { forceN, momentNm, ownMassKg, safetyRatio }) : undefined;
  const tube = mast.tube === undefined ? undefined : tubeInWind(mast.tube, spreadForces(given, parts));
  const load = { pressure, parts, forceN, momentNm, uncertaintyRatio: 0.3, safetyRatio, hold, tube };
  return { ...load, findings: mastFindings(load, { iceM }) };
}

function checkedPart(part: MastPart, index: number): MastPart {
  const place = `parts[${index}]`;
  checkObject(part, place);
  const { dragRatio, massKg } = part;
  if (typeof part.name !== 'string') {
    throw new InputError({
      code: 'wrong-type',
      argument: `${place}.name`,
      received: part.name,
      expected: 'a text',
    });
  }
  checkRange(part.widthM, `${place}.widthM`, { min: 0.001, max: 10, unit: 'metres' });
  checkRange(part.heightM, `${place}.heightM`, { min: 0.001, max: 100, unit: 'metres' });
  // Half the height is where a part that stands on the foot has its middle; rounding may put it a hair lower.
  checkRange(part.centreM, `${place}.centreM`, {
    min: part.heightM / 2 - 1e-9,
    max: 100,
    unit: 'metres (a part stands on the foot or above it)',
  });
  if (dragRatio !== undefined)
    checkRange(dragRatio, `${place}.dragRatio`, { min: 0.1, max: 3, unit: 'as a ratio' });
  if (massKg !== undefined) checkRange(massKg, `${place}.massKg`, { min: 0, max: 1e4, unit: 'kilograms' });
  return part;
}

function partLoad(part: MastPart, pressure: WindPressure, iceM: number): PartLoad {
  const widthM = part.widthM + 2 * iceM;
  const byTable = dragCoefficient({
    shape: part.shape,
    widthM: part.widthM,
    heightM: part.heightM,
    pressurePa: pressure.pressurePa,
  });
  const drag =
    part.dragRatio === undefined
      ? byTable
      : { dragRatio: part.dragRatio, isVerified: true, source: 'given by the caller' };
  const areaM2 = widthM * part.heightM;
  const forceN = pressure.pressurePa * pressure.structureRatio * drag.dragRatio * areaM2;
  return { name: part.name, ...drag, areaM2, forceN, momentNm: forceN * part.centreM };
}

interface Pushed {
  readonly forceN: number;
  readonly momentNm: number;
  readonly ownMassKg: number;
  readonly safetyRatio: number;
}

function ballastHold(foot: BallastFoot, { forceN, momentNm, ownMassKg, safetyRatio }: Pushed): BallastHold {
  const { ballastKg, areaM2 } = foot;
  const armM = checkRange(foot.tippingArmM, 'tippingArmM', { min: 0.05, max: 20, unit: 'metres' });
  const friction = checkRange(foot.frictionRatio, 'frictionRatio', {
    min: 0.05,
    max: 1.5,
    unit: 'as a ratio',
  });
  if (ballastKg !== undefined) checkRange(ballastKg, 'ballastKg', { min: 0, max: 1e5, unit: 'kilograms' });
  if (areaM2 !== undefined) checkRange(areaM2, 'areaM2', { min: 0.01, max: 400, unit: 'square metres' });

  const massAgainstTippingKg = (momentNm * safetyRatio) / (standardGravity * armM);
  const massAgainstSlidingKg = (forceN * safetyRatio) / (standardGravity * friction);
  const neededKg = Math.max(massAgainstTippingKg, massAgainstSlidingKg);
  const ballastNeededKg = Math.max(neededKg - ownMassKg, 0);
  const weightN = standardGravity * (ownMassKg + (ballastKg ?? ballastNeededKg));
  return {
    massAgainstTippingKg,
    massAgainstSlidingKg,
    ownMassKg,
    ballastNeededKg,
    tippingRatio: ballastKg === undefined ? undefined : (weightN * armM) / momentNm,
    slidingRatio: ballastKg === undefined ? undefined : (weightN * friction) / forceN,
    roofPressurePa: areaM2 === undefined ? undefined : weightN / areaM2,
  };
}

function spreadForces(given: readonly MastPart[], loads: readonly PartLoad[]) {
  return given.map(({ centreM, heightM }, index) => ({
    forceN: loads[index]?.forceN ?? 0,
    fromM: Math.max(centreM - heightM / 2, 0),
    toM: centreM + heightM / 2,
  }));
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
