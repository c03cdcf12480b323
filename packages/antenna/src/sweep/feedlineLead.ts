import { speedOfLightMPerS } from '@finial/radio';
import { checkObject, checkRange, dbToAmplitudeRatio, InputError } from '@finial/units';
import { type Complex, polar } from './complex.js';

/**
 * A cable between analyser and antenna whose impedance is the reference of the sweep. Its length is said in one of three ways:
 * `lengthM` with `velocityFactor`, `electricalLengthM`, or `delaySeconds`.
 */
export interface FeedlineLead {
  /**
   * Loss of the whole cable one way in dB, 0 to 60: at `lossReferenceHz`, from where it goes with the root of frequency, or as a
   * function of the frequency in hertz.
   */
  readonly lossDb: number | ((frequencyHz: number) => number);
  /** Frequency in hertz at which a `lossDb` that is a number holds, more than 0 and up to 1e16. */
  readonly lossReferenceHz?: number | undefined;
  /** Length along the cable in metres, 0 to 10 000. */
  readonly lengthM?: number | undefined;
  /** Speed in the cable over the speed of light, 0.1 to 1: 0.66 for solid polyethylene, 0.8 and more for foam. */
  readonly velocityFactor?: number | undefined;
  /** Length in metres that light in vacuum covers while the wave is in the cable, 0 to 100 000. */
  readonly electricalLengthM?: number | undefined;
  /** Time one way in seconds, 0 to 1e-3. */
  readonly delaySeconds?: number | undefined;
}

/** Twice this, 120 dB, is beyond what any analyser can see through. */
const lossBounds = { min: 0, max: 60, unit: 'dB (a loss is positive)' };

/** Checks a lead, and returns how it changes a wave that goes there and back, by frequency. */
export function roundTripOf(lead: FeedlineLead): (frequencyHz: number) => Complex {
  checkObject(lead, 'lead');
  const delaySeconds = delayOf(lead);
  const lossAt = lossOf(lead);
  return (frequencyHz) =>
    polar(1 / dbToAmplitudeRatio(2 * lossAt(frequencyHz)), -4 * Math.PI * frequencyHz * delaySeconds);
}

function lossOf({ lossDb, lossReferenceHz }: FeedlineLead): (frequencyHz: number) => number {
  if (typeof lossDb === 'function') {
    return (frequencyHz) => checkRange(lossDb(frequencyHz), `lossDb(${frequencyHz})`, lossBounds);
  }
  checkRange(lossDb, 'lossDb', lossBounds);
  const referenceHz = checkRange(lossReferenceHz, 'lossReferenceHz', { min: 1, max: 1e16, unit: 'hertz' });
  return (frequencyHz) => {
    const here = lossDb * Math.sqrt(frequencyHz / referenceHz);
    return checkRange(here, 'lossDb', {
      ...lossBounds,
      unit: `${lossBounds.unit}, at ${frequencyHz} Hz too`,
    });
  };
}

function delayOf(lead: FeedlineLead): number {
  const { lengthM, velocityFactor, electricalLengthM, delaySeconds } = lead;
  const ways = [lengthM ?? velocityFactor, electricalLengthM, delaySeconds].filter(
    (way) => way !== undefined,
  );
  if (ways.length !== 1) {
    const expected = 'one of lengthM with velocityFactor, electricalLengthM, delaySeconds';
    const code = ways.length === 0 ? 'missing' : 'unknown-option';
    throw new InputError({
      code,
      argument: 'lead.lengthM',
      received: ways.length === 0 ? undefined : lead,
      expected,
    });
  }
  if (delaySeconds !== undefined) {
    return checkRange(delaySeconds, 'delaySeconds', { min: 0, max: 1e-3, unit: 'seconds' });
  }
  if (electricalLengthM !== undefined) {
    const bounds = { min: 0, max: 100_000, unit: 'metres' };
    return checkRange(electricalLengthM, 'electricalLengthM', bounds) / speedOfLightMPerS;
  }
  const metres = checkRange(lengthM, 'lengthM', { min: 0, max: 10_000, unit: 'metres' });
  const ratio = checkRange(velocityFactor, 'velocityFactor', {
    min: 0.1,
    max: 1,
    unit: 'as a part of the speed of light',
  });
  return metres / (ratio * speedOfLightMPerS);
}
