import { wavelengthM } from '@finial/radio';
import { checkOneOf, checkRange, frequencyHints, InputError, type RangeBounds } from '@finial/units';

/** What every rod or wire that is to be cut is described by. */
export interface ElementQuestion {
  /** Frequency at which it shall be resonant in hertz, 1e7 to 6e9; 868.1 MHz is `868.1e6`. */
  readonly frequencyHz: number;
  /**
   * Diameter of the metal in metres, without insulation: from a millionth to 0.02 of a wavelength, with `outsideValidity: 'allow'` to
   * 0.05.
   */
  readonly elementDiameterM: number;
  /**
   * Velocity factor of insulation left on the wire, as a ratio, 0.8 to 1: all lengths come out shorter by it. Hook-up wire has 0.94 to
   * 0.98 (common practice, no source).
   *
   * @defaultValue 1, bare metal
   */
  readonly insulationVelocityFactor?: number | undefined;
  /**
   * What to leave on for trimming, as a ratio of the length, 0.005 to 0.3.
   *
   * @defaultValue the stated error of the length, and 0.02 for the workshop
   */
  readonly allowanceRatio?: number | undefined;
  /**
   * Impedance of the cable in ohms, 1 to 1000.
   *
   * @defaultValue 50
   */
  readonly referenceOhm?: number | undefined;
  /**
   * Whether to go on with a rod thicker than the method was checked for; the result then says so.
   *
   * @defaultValue `refuse`
   */
  readonly outsideValidity?: 'refuse' | 'allow' | undefined;
}

/** A question that was checked, with its defaults filled in. */
export interface CheckedElement {
  readonly frequencyHz: number;
  readonly wavelengthM: number;
  readonly radiusM: number;
  readonly velocityFactor: number;
  readonly allowanceRatio: number | undefined;
  readonly referenceOhm: number;
  readonly outsideValidity: 'refuse' | 'allow';
  readonly warnings: readonly string[];
}

const frequencyBounds: RangeBounds = { min: 1e7, max: 6e9, unit: 'hertz', hints: frequencyHints };
/** Thickest rod over the wavelength: within it published cases agree; the last is as far as thin wires make sense at all. */
const checkedThickness = 0.02;
const greatestThickness = 0.05;

/** Refuses a question about a rod that cannot be answered. */
export function checkElement(question: ElementQuestion): CheckedElement {
  const {
    insulationVelocityFactor = 1,
    allowanceRatio,
    referenceOhm = 50,
    outsideValidity = 'refuse',
  } = question;
  checkOneOf(outsideValidity, 'outsideValidity', ['refuse', 'allow']);
  const frequencyHz = checkFrequency(question.frequencyHz);
  const lambdaM = wavelengthM(frequencyHz);
  const factor = { min: 0.8, max: 1, unit: 'as a velocity factor' };
  checkRange(insulationVelocityFactor, 'insulationVelocityFactor', factor);
  if (allowanceRatio !== undefined) {
    checkRange(allowanceRatio, 'allowanceRatio', { min: 0.005, max: 0.3, unit: 'as a ratio' });
  }
  checkRange(referenceOhm, 'referenceOhm', { min: 1, max: 1000, unit: 'ohms' });
  const warnings = checkDiameter(question.elementDiameterM, 'elementDiameterM', lambdaM, outsideValidity);
  return {
    frequencyHz,
    wavelengthM: lambdaM,
    radiusM: question.elementDiameterM / 2,
    velocityFactor: insulationVelocityFactor,
    allowanceRatio,
    referenceOhm,
    outsideValidity,
    warnings: [...warnings, ...insulationWarning(insulationVelocityFactor)],
  };
}

/** Refuses a frequency at which nobody cuts rods. */
export function checkFrequency(frequencyHz: number): number {
  return checkRange(frequencyHz, 'frequencyHz', frequencyBounds);
}

/** Refuses a diameter that is none for a thin-wire method; gives the warning that an allowed one deserves. */
export function checkDiameter(
  diameterM: number,
  argument: string,
  lambdaM: number,
  outsideValidity: 'refuse' | 'allow',
): readonly string[] {
  const bounds = { min: 1e-6 * lambdaM, max: greatestThickness * lambdaM, unit: 'metres' };
  checkRange(diameterM, argument, { ...bounds, hints: [{ name: 'millimetres', ratio: 1e-3 }] });
  if (diameterM <= checkedThickness * lambdaM) return [];
  const limit = `${(checkedThickness * lambdaM).toPrecision(3)} metres (0.02 of a wavelength)`;
  if (outsideValidity === 'refuse') {
    const expected = `at most ${limit}, or outsideValidity: 'allow'`;
    throw new InputError({ code: 'outside-validity', argument, received: diameterM, expected });
  }
  return [`${argument} is more than ${limit}: no published case was compared, cut longer and trim.`];
}

function insulationWarning(velocityFactor: number): readonly string[] {
  if (velocityFactor === 1) return [];
  return [
    'Insulation is counted by its velocity factor on all lengths, which moves the feed impedance a little more than stated here.',
  ];
}
