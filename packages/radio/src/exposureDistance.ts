import { checkOneOf, checkPositive, checkRange, dbmToWatt, type Finding } from '@finial/units';
import { distanceBounds, powerBounds } from './bounds.js';
import { type ExposureLimit, type ExposureLimitQuestion, exposureLimit } from './exposureLimit.js';
import { wavelengthM } from './wavelengthM.js';

/**
 * How reflections from ground and roof are counted.
 *
 * - `none`: free space
 * - `typical`: 1.6 times the field, 2.56 times the power density
 * - `full`: twice the field, four times the power density
 */
export type GroundReflection = 'none' | 'typical' | 'full';

/** A transmitting antenna, and whose exposure limits apply. */
export interface ExposureQuestion extends ExposureLimitQuestion {
  /** Equivalent isotropically radiated power while it transmits in dBm, -300 to 300. */
  readonly eirpDbm: number;
  /**
   * Part of the averaging time in which it transmits, as a ratio above 0, up to 1. Use the most that can happen in any 6 minutes
   * (FCC, occupational) or 30 minutes (the others), not the average of a day.
   *
   * @defaultValue 1
   */
  readonly dutyCycle?: number | undefined;
  /**
   * How reflections are counted.
   *
   * @defaultValue `typical`
   */
  readonly groundReflection?: GroundReflection | undefined;
  /**
   * Distance in metres, 1e-6 to 1e12, between the antenna and the nearest place where people can be. When given, it is judged.
   *
   * @defaultValue none
   */
  readonly nearestPersonM?: number | undefined;
}

/** How far people must stay from an antenna. */
export interface ExposureDistance extends ExposureLimit {
  /** Factor on the power density for reflections, as a plain ratio. */
  readonly groundReflectionRatio: number;
  /** Distance in metres at which the averaged power density equals the limit, by the far-field formula. */
  readonly distanceM: number;
  /** Half a wavelength in metres: nearer than this the far-field formula cannot be used. */
  readonly nearFieldWithinM: number;
  /** Whether the distance lies within the near field, where it is only a figure. */
  readonly isNearField: boolean;
  /** Distance to keep in metres: not less than the one above, half a wavelength, and 0.2 m. */
  readonly recommendedDistanceM: number;
  /** What a person should be told: always a caution, and what else applies. */
  readonly findings: readonly Finding[];
}

const reflectionRatios = { none: 1, typical: 2.56, full: 4 } as const satisfies Record<
  GroundReflection,
  number
>;

const leastKeepAwayM = 0.2;
const leastKeepAwaySource =
  '47 CFR 2.1091(b) (2021): 20 cm for mobile devices, taken here as the least distance';

/**
 * Distance that people must keep from a transmitting antenna so that the averaged power density stays within a limit.
 *
 * The formula is that of the far field in the strongest direction: in front of the antenna it errs on the safe side, within about
 * half a wavelength it says nothing, and the recommended distance then holds instead. Other transmitters on the same mast add up and
 * are not known here. The result is an estimate that helps to plan; it does not replace the assessment that local rules may ask for.
 *
 * @returns distances in metres (error of the formula's evaluation below 1e-12) and findings
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number` or `out-of-range`
 * @source FCC OET Bulletin 65, edition 97-01, section 2 (power density; 2.56 for reflections); 47 CFR 1.1310, table 1; ICNIRP Guidelines 2020, table 5 (from memory)
 * @example A gateway at the highest power of 47 CFR 15.247, transmitting without pause
 * ```ts
 * import { exposureDistance } from '@finial/radio';
 *
 * const keep = exposureDistance({ eirpDbm: 36, frequencyHz: 915e6, limit: 'fcc-general' });
 * keep.limitWPerM2; // ≈ 6.1
 * keep.recommendedDistanceM; // ≈ 0.365
 * keep.findings[0]?.rule; // → 'rf-exposure-caution'
 * ```
 */
export function exposureDistance(question: ExposureQuestion): ExposureDistance {
  const limit = exposureLimit(question);
  const { dutyCycle = 1, groundReflection = 'typical', nearestPersonM } = question;
  const powerW = dbmToWatt(checkRange(question.eirpDbm, 'eirpDbm', powerBounds));
  checkPositive(dutyCycle, 'dutyCycle', 'as a ratio, up to 1');
  checkRange(dutyCycle, 'dutyCycle', { min: 0, max: 1, unit: 'as a ratio' });
  if (nearestPersonM !== undefined) checkRange(nearestPersonM, 'nearestPersonM', distanceBounds);
  const reflection = checkOneOf(groundReflection, 'groundReflection', ['none', 'typical', 'full']);

  const groundReflectionRatio = reflectionRatios[reflection];
  const averageW = powerW * dutyCycle * groundReflectionRatio;
  const distanceM = Math.sqrt(averageW / (4 * Math.PI * limit.limitWPerM2));
  const nearFieldWithinM = wavelengthM(question.frequencyHz) / 2;
  const distances = {
    distanceM,
    nearFieldWithinM,
    isNearField: distanceM < nearFieldWithinM,
    recommendedDistanceM: Math.max(distanceM, nearFieldWithinM, leastKeepAwayM),
  };
  return {
    ...limit,
    groundReflectionRatio,
    ...distances,
    findings: findingsOf({ ...limit, ...distances }, nearestPersonM),
  };
}

type Judged = Omit<ExposureDistance, 'groundReflectionRatio' | 'findings'>;

function findingsOf(result: Judged, nearestPersonM: number | undefined): Finding[] {
  const findings = [caution(result)];
  if (result.isNearField) findings.push(nearField(result));
  if (!result.isVerified) findings.push(unverified(result));
  if (nearestPersonM !== undefined) findings.push(...judgedPlace(result, nearestPersonM));
  return findings;
}

function caution({ recommendedDistanceM, source }: Judged): Finding {
  return {
    rule: 'rf-exposure-caution',
    severity: 'note',
    message:
      `RF exposure: nobody should stay within ${metres(recommendedDistanceM)} of the antenna while it transmits; switch the ` +
      'transmitter off before working at the antenna. This is an estimate for this antenna alone: other transmitters add to it, and ' +
      'the rules of the place decide, which may ask for an assessment by a qualified person.',
    measured: metres(recommendedDistanceM),
    source,
  };
}

function nearField({ distanceM, nearFieldWithinM, recommendedDistanceM }: Judged): Finding {
  return {
    rule: 'rf-exposure-near-field',
    severity: 'note',
    message:
      `The computed ${metres(distanceM)} lies in the near field (within half a wavelength, ${metres(nearFieldWithinM)}), where the ` +
      `formula does not hold; keep ${metres(recommendedDistanceM)} or more instead.`,
    measured: metres(distanceM),
    limit: metres(nearFieldWithinM),
    source: leastKeepAwaySource,
  };
}

function unverified({ source, limitWPerM2 }: Judged): Finding {
  return {
    rule: 'rf-exposure-limit-unverified',
    severity: 'note',
    message:
      `The limit of ${limitWPerM2.toPrecision(3)} W/m² is unverified: it was not checked against its document. Read the limit that ` +
      'holds where the antenna stands.',
    limit: `${limitWPerM2.toPrecision(3)} W/m²`,
    source,
  };
}

/** Where people can come too near: a stop within a limit that was read, a note within one that was not. */
function judgedPlace(result: Judged, nearestPersonM: number): Finding[] {
  const { distanceM, recommendedDistanceM, isVerified, source } = result;
  if (nearestPersonM >= recommendedDistanceM) return [];
  const measured = metres(nearestPersonM);
  if (nearestPersonM >= distanceM) {
    const message =
      `People can come within ${measured} of the antenna; that is beyond the computed distance, but nearer than the recommended ` +
      `${metres(recommendedDistanceM)}. Move the antenna or keep people away.`;
    const limit = metres(recommendedDistanceM);
    return [
      { rule: 'rf-exposure-margin', severity: 'note', message, measured, limit, source: leastKeepAwaySource },
    ];
  }
  const message =
    `People can come within ${measured} of the antenna, where the exposure limit is exceeded` +
    `${isVerified ? '' : ' (unverified limit)'}. Move the antenna, lower its power, or bar the place.`;
  const severity = isVerified ? 'stop' : 'note';
  return [{ rule: 'rf-exposure-limit', severity, message, measured, limit: metres(distanceM), source }];
}

function metres(lengthM: number): string {
  return `${Number(lengthM.toPrecision(3))} m`;
}
