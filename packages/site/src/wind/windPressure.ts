import { checkObject, checkOneOf, checkRange, InputError } from '@finial/units';

/** Ground around the site as ASCE 7 sorts it: `B` towns and woods, `C` open country, `D` beside open water. */
export type AsceExposureCategory = 'B' | 'C' | 'D';

/** Ground around the site as EN 1991-1-4 sorts it, from the open sea (`0`) to a city (`IV`). */
export type EnTerrainCategory = '0' | 'I' | 'II' | 'III' | 'IV';

/** Wind by ASCE 7: a gust of three seconds, and the factors that belong to it. */
export interface AsceWind {
  /** Which code; its speed and its factors belong together. */
  readonly code: 'asce-7';
  /** Gust of 3 seconds at 10 m over open country in metres per second, 1 to 120, from the map of the code. */
  readonly gustSpeedMPerS: number;
  /** Ground around the site; leave it out only where `exposureRatio` is given. */
  readonly exposureCategory?: AsceExposureCategory | undefined;
  /** Height of the top of the mast above the ground (not above the roof) in metres, above 0, up to 150; with `exposureCategory`. */
  readonly heightAboveGroundM?: number | undefined;
  /** Exposure coefficient K<sub>z</sub>, 0.1 to 5, in place of category and height. */
  readonly exposureRatio?: number | undefined;
  /**
   * Topographic factor K<sub>zt</sub>, 1 to 5: more than 1 on a hill or an edge.
   *
   * @defaultValue 1
   */
  readonly topographicRatio?: number | undefined;
  /**
   * Directionality factor K<sub>d</sub>, 0.5 to 1.
   *
   * @defaultValue 1, on the safe side
   */
  readonly directionalityRatio?: number | undefined;
  /**
   * Gust-effect factor G, 0.5 to 3. The code allows 0.85 for a rigid structure; a whippy mast needs more.
   *
   * @defaultValue 1
   */
  readonly gustEffectRatio?: number | undefined;
}

/** Wind by EN 1991-1-4: a mean over ten minutes, which its exposure factor turns into a peak. */
export interface EnWind {
  /** Which code; its speed and its factors belong together. */
  readonly code: 'en-1991-1-4';
  /** Basic wind velocity v<sub>b</sub>, mean of 10 minutes at 10 m over open country, in metres per second, 1 to 80. */
  readonly meanSpeedMPerS: number;
  /** Ground around the site; leave it out only where `exposureRatio` is given. */
  readonly terrainCategory?: EnTerrainCategory | undefined;
  /** Height of the top of the mast above the ground (not above the roof) in metres, above 0, up to 200; with `terrainCategory`. */
  readonly heightAboveGroundM?: number | undefined;
  /** Exposure factor c<sub>e</sub>(z), 0.5 to 10, in place of category and height. */
  readonly exposureRatio?: number | undefined;
  /**
   * Structural factor c<sub>s</sub>c<sub>d</sub>, 0.5 to 3.
   *
   * @defaultValue 1
   */
  readonly structuralRatio?: number | undefined;
}

/** Wind by one of two codes. The type keeps the speed of one from the factors of the other. */
export type WindQuestion = AsceWind | EnWind;

/** The pressure of the wind at the mast, with what it was made from. */
export interface WindPressure {
  /** Which code. */
  readonly code: WindQuestion['code'];
  /** Speed that the pressure was made from, in metres per second: a gust or a mean, as the code has it. */
  readonly speedMPerS: number;
  /** Pressure of that speed without any factor, in pascals. */
  readonly basicPressurePa: number;
  /** Factor for height and ground: K<sub>z</sub> or c<sub>e</sub>(z), as a ratio. */
  readonly exposureRatio: number;
  /** Height that the factor was taken at, in metres: not below the least height of the code. Missing where the ratio was given. */
  readonly effectiveHeightM?: number | undefined;
  /** Pressure q<sub>z</sub> or q<sub>p</sub>(z) in pascals, before gust-effect or structural factor. */
  readonly pressurePa: number;
  /** Factor of the code on the force: G or c<sub>s</sub>c<sub>d</sub>, as a ratio. */
  readonly structureRatio: number;
  /** Whether every constant used was read in a document; false where one rests on memory. */
  readonly isVerified: boolean;
  /** Document and equations. */
  readonly source: string;
}

interface Exposure {
  readonly exposureRatio: number;
  readonly effectiveHeightM?: number | undefined;
  readonly isVerified: boolean;
}

const speedUnit = 'metres per second';

/**
 * Pressure of the wind at a height, by one of two codes that must not be mixed: ASCE 7 starts from a gust of 3 seconds, EN 1991-1-4 from a
 * mean of 10 minutes, which is some 0.65 to 0.7 times that gust. A gust put into the European formula counts the gust twice.
 *
 * On a roof the height is that above the ground. Wind that speeds up over an edge of the building, valleys and the shelter of
 * neighbours are not in it. National annexes and local authorities change speeds and factors; the map of the place decides.
 * The exposure coefficients are those of ASCE 7-05 to 7-16; the edition of 2022 has others, which `exposureRatio` takes.
 *
 * @returns pressure in pascals and its parts (error of the evaluation below 1e-12 of it; the wind itself is known to some 20 to 30 %)
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `missing`, `not-a-finite-number` or `out-of-range`
 * @source ASCE 7-05 section 6.5.10 and table 6-3 (formula and constants as reprinted publicly; D from memory); EN 1991-1-4:2005 equations 4.3 to 4.10 and table 4.1 (table from memory)
 * @example The same day by two codes
 * ```ts
 * import { windPressure } from '@finial/site';
 *
 * const gust = windPressure({ code: 'asce-7', gustSpeedMPerS: 40, exposureCategory: 'C', heightAboveGroundM: 9.144 });
 * gust.exposureRatio; // ≈ 0.98
 * gust.pressurePa; // ≈ 963
 * const mean = windPressure({ code: 'en-1991-1-4', meanSpeedMPerS: 26, terrainCategory: 'II', heightAboveGroundM: 10 });
 * mean.exposureRatio; // ≈ 2.35
 * mean.pressurePa; // ≈ 994
 * ```
 */
export function windPressure(wind: WindQuestion): WindPressure {
  checkObject(wind, 'wind');
  checkOneOf(wind.code, 'code', ['asce-7', 'en-1991-1-4']);
  return wind.code === 'asce-7' ? ascePressure(wind) : enPressure(wind);
}

function ascePressure(wind: AsceWind): WindPressure {
  const { topographicRatio = 1, directionalityRatio = 1, gustEffectRatio = 1 } = wind;
  const speedMPerS = checkRange(wind.gustSpeedMPerS, 'gustSpeedMPerS', { min: 1, max: 120, unit: speedUnit });
  checkRange(topographicRatio, 'topographicRatio', { min: 1, max: 5, unit: 'as a ratio' });
  checkRange(directionalityRatio, 'directionalityRatio', { min: 0.5, max: 1, unit: 'as a ratio' });
  checkRange(gustEffectRatio, 'gustEffectRatio', { min: 0.5, max: 3, unit: 'as a ratio' });
  const exposure = asceExposure(wind);
  // Half the density of air at 15 °C and sea level, 1.225 kg/m³.
  const basicPressurePa = 0.613 * speedMPerS ** 2;
  return {
    code: 'asce-7',
    speedMPerS,
    basicPressurePa,
    ...exposure,
    pressurePa: basicPressurePa * exposure.exposureRatio * topographicRatio * directionalityRatio,
    structureRatio: gustEffectRatio,
    source: `ASCE 7-05 section 6.5.10 (q = 0.613 Kz Kzt Kd V²)${groundSource(exposure, ', table 6-3')}`,
  };
}

function enPressure(wind: EnWind): WindPressure {
  const { structuralRatio = 1 } = wind;
  const speedMPerS = checkRange(wind.meanSpeedMPerS, 'meanSpeedMPerS', { min: 1, max: 80, unit: speedUnit });
  checkRange(structuralRatio, 'structuralRatio', { min: 0.5, max: 3, unit: 'as a ratio' });
  const exposure = enExposure(wind);
  // Half of 1.25 kg/m³, the recommended density.
  const basicPressurePa = 0.625 * speedMPerS ** 2;
  return {
    code: 'en-1991-1-4',
    speedMPerS,
    basicPressurePa,
    ...exposure,
    pressurePa: basicPressurePa * exposure.exposureRatio,
    structureRatio: structuralRatio,
    source: `EN 1991-1-4:2005 section 4.5 (qp = ce(z) · 0.5 · 1.25 · vb²)${groundSource(exposure, ', table 4.1')}`,
  };
}

/** The table of the ground, where one was used. */
function groundSource({ effectiveHeightM, isVerified }: Exposure, table: string): string {
  if (effectiveHeightM === undefined) return '';
  return isVerified ? table : `${table} (from memory)`;
}

/** Exponent and gradient height in feet; `isVerified` where the coefficient was read. */
const asceGround = {
  B: { alpha: 7, gradientFt: 1200, isVerified: true },
  C: { alpha: 9.5, gradientFt: 900, isVerified: true },
  D: { alpha: 11.5, gradientFt: 700, isVerified: false },
} as const;

function asceExposure(wind: AsceWind): Exposure {
  if (wind.exposureRatio !== undefined) {
    if (wind.exposureCategory !== undefined) throw eitherOr('exposureCategory', wind.exposureCategory);
    const exposureRatio = checkRange(wind.exposureRatio, 'exposureRatio', {
      min: 0.1,
      max: 5,
      unit: 'as a ratio',
    });
    return { exposureRatio, isVerified: true };
  }
  if (wind.exposureCategory === undefined) throw missing('exposureCategory');
  const ground = asceGround[checkOneOf(wind.exposureCategory, 'exposureCategory', ['B', 'C', 'D'])];
  const heightM = checkRange(wind.heightAboveGroundM, 'heightAboveGroundM', {
    min: 0.01,
    max: 150,
    unit: 'metres',
  });
  const effectiveHeightM = Math.max(heightM, 15 * 0.3048);
  const exposureRatio = 2.01 * (effectiveHeightM / (ground.gradientFt * 0.3048)) ** (2 / ground.alpha);
  return { exposureRatio, effectiveHeightM, isVerified: ground.isVerified };
}

const enGround = {
  '0': { roughnessM: 0.003, leastM: 1 },
  I: { roughnessM: 0.01, leastM: 1 },
  II: { roughnessM: 0.05, leastM: 2 },
  III: { roughnessM: 0.3, leastM: 5 },
  IV: { roughnessM: 1, leastM: 10 },
} as const;

function enExposure(wind: EnWind): Exposure {
  if (wind.exposureRatio !== undefined) {
    if (wind.terrainCategory !== undefined) throw eitherOr('terrainCategory', wind.terrainCategory);
    const exposureRatio = checkRange(wind.exposureRatio, 'exposureRatio', {
      min: 0.5,
      max: 10,
      unit: 'as a ratio',
    });
    return { exposureRatio, isVerified: true };
  }
  if (wind.terrainCategory === undefined) throw missing('terrainCategory');
  const ground = enGround[checkOneOf(wind.terrainCategory, 'terrainCategory', ['0', 'I', 'II', 'III', 'IV'])];
  const heightM = checkRange(wind.heightAboveGroundM, 'heightAboveGroundM', {
    min: 0.01,
    max: 200,
    unit: 'metres',
  });
  const effectiveHeightM = Math.max(heightM, ground.leastM);
  const logarithm = Math.log(effectiveHeightM / ground.roughnessM);
  const terrainFactor = 0.19 * (ground.roughnessM / 0.05) ** 0.07;
  const turbulence = 1 / logarithm;
  const exposureRatio = (1 + 7 * turbulence) * (terrainFactor * logarithm) ** 2;
  return { exposureRatio, effectiveHeightM, isVerified: false };
}

function missing(argument: string): InputError {
  return new InputError({
    code: 'missing',
    argument,
    received: undefined,
    expected: 'the ground around the site, or exposureRatio',
  });
}

function eitherOr(argument: string, received: unknown): InputError {
  return new InputError({
    code: 'unknown-option',
    argument,
    received,
    expected: 'nothing, because exposureRatio is given',
  });
}
