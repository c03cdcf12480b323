import { checkInteger, checkObject, checkRange, InputError } from '@finial/units';
import type { WireSolution } from '../wires/WireSolution.js';
import { type CheckedElement, checkDiameter, checkElement, type ElementQuestion } from './elementChecks.js';
import { findResonantLength } from './findResonantLength.js';
import {
  type AntennaFigures,
  type CutLengths,
  cutLengths,
  elementFindings,
  figuresOf,
} from './sizedElement.js';
import { solveVertical } from './verticalWires.js';

/** A quarter-wave vertical over drooping radials. */
export interface GroundPlaneQuestion extends ElementQuestion {
  /** Angle of the radials below the horizontal in degrees, 0 (flat) to 70. */
  readonly droopDeg: number;
  /**
   * Number of radials, a whole number, 2 to 12, evenly around.
   *
   * @defaultValue 4
   */
  readonly radials?: number | undefined;
  /**
   * Length of each radial in metres, 0.15 to 0.4 of a wavelength (times the velocity factor).
   *
   * @defaultValue a quarter wavelength (times the velocity factor), unless `radialRatio` is given
   */
  readonly radialLengthM?: number | undefined;
  /**
   * Length of each radial over that of the resonant vertical, as a ratio, 0.7 to 1.5; 1 cuts all rods alike. Give this or
   * `radialLengthM`, not both.
   *
   * @defaultValue none
   */
  readonly radialRatio?: number | undefined;
  /**
   * Diameter of the radials in metres, with the limits of `elementDiameterM`.
   *
   * @defaultValue that of the vertical
   */
  readonly radialDiameterM?: number | undefined;
}

/** A ground plane to cut, and what it will do. */
export interface GroundPlane extends AntennaFigures, CutLengths {
  /** Angle of the radials below the horizontal in degrees. */
  readonly droopDeg: number;
  /** Number of radials, a plain count. */
  readonly radialsCount: number;
  /** Length of each radial in metres, from the feed point to the tip: cut to this, and trim the vertical. */
  readonly radialLengthM: number;
}

const methodErrorRatio = 0.02;
const resistanceErrorRatio = 0.08;

/**
 * Lengths, feed impedance and gain of a quarter-wave ground plane: a vertical rod over drooping radials.
 *
 * Droop raises the feed resistance and shortens the resonant vertical; so do thicker rods. The model is the bare antenna in free
 * space, without mast, cable and connector body: those move the resonance by some percent, hence the allowance. Cut to `cutLengthM`, sweep,
 * and trim the vertical; its resonance moves by only about three quarters of what its length does, since the radials stay.
 *
 * @returns resonant length within 2 %, feed resistance within 8 % and gain within 0.15 dB of the NEC-2 cases that the README names
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option`, or `outside-validity` for a rod too
 * thick, and for radials with which no vertical is resonant
 * @source thin-wire moment method of {@link solveWires}
 * @example A rod of 2 mm with four radials at 45° for the European channels
 * ```ts
 * import { groundPlane } from '@finial/antenna';
 *
 * const antenna = groundPlane({ frequencyHz: 868.1e6, elementDiameterM: 0.002, droopDeg: 45, radials: 4 });
 * antenna.resonantLengthM; // ≈ 0.076
 * antenna.cutLengthM > antenna.resonantLengthM; // → true
 * antenna.resistanceOhm; // ≈ 55
 * antenna.vswr < 1.2; // → true
 * antenna.horizonGainDbi; // ≈ 1.9
 * ```
 */
export function groundPlane(question: GroundPlaneQuestion): GroundPlane {
  checkObject(question, 'question');
  const element = checkElement(question);
  const { droopDeg, radials = 4 } = question;
  checkRange(droopDeg, 'droopDeg', { min: 0, max: 70, unit: 'degrees below the horizontal' });
  checkInteger(radials, 'radials', { min: 2, max: 12, unit: 'radials' });
  const radial = checkRadials(question, element);

  const quarterM = element.wavelengthM / 4;
  const solve = (lengthM: number) => solveWith(element, { ...radial, droopDeg, radials }, lengthM);
  const electricalM = findResonantLength((lengthM) => solve(lengthM).feed.reactanceOhm, {
    shortestM: 0.5 * quarterM,
    longestM: 1.5 * quarterM,
    argument: radial.ratio === undefined ? 'radialLengthM' : 'radialRatio',
    received: radial.ratio ?? radial.fixedM * element.velocityFactor,
  });
  const figures = figuresOf(element, solve(electricalM));
  return {
    ...figures,
    ...cutLengths(element, electricalM * element.velocityFactor, quarterM, methodErrorRatio),
    droopDeg,
    radialsCount: radials,
    radialLengthM: radialLengthM(radial, electricalM) * element.velocityFactor,
    method: 'thin-wire moment method in free space, resonance by secant search',
    resistanceErrorRatio,
    warnings: [...figures.warnings, ...radialWarnings(radials, droopDeg), ...radial.warnings],
    findings: elementFindings(
      figures,
      figures.resistanceOhm < figures.referenceOhm
        ? 'let the radials droop more, to about 45°'
        : 'let the radials droop less, to about 45°',
    ),
  };
}

interface Radial {
  readonly radiusM: number;
  /** Electrical length in metres, where it does not follow the vertical. */
  readonly fixedM: number;
  readonly ratio: number | undefined;
  readonly warnings: readonly string[];
}

function checkRadials(question: GroundPlaneQuestion, element: CheckedElement): Radial {
  const { radialLengthM: lengthM, radialRatio: ratio, radialDiameterM } = question;
  const { wavelengthM, velocityFactor, outsideValidity } = element;
  if (lengthM !== undefined) {
    const wave = wavelengthM * velocityFactor;
    checkRange(lengthM, 'radialLengthM', { min: 0.15 * wave, max: 0.4 * wave, unit: 'metres' });
  }
  if (ratio !== undefined) {
    checkRange(ratio, 'radialRatio', { min: 0.7, max: 1.5, unit: 'as radial over vertical' });
    if (lengthM !== undefined) {
      const expected = 'nothing where radialLengthM is given';
      throw new InputError({ code: 'unknown-option', argument: 'radialRatio', received: ratio, expected });
    }
  }
  const warnings =
    radialDiameterM === undefined
      ? []
      : checkDiameter(radialDiameterM, 'radialDiameterM', wavelengthM, outsideValidity);
  return {
    radiusM: radialDiameterM === undefined ? element.radiusM : radialDiameterM / 2,
    fixedM: lengthM === undefined ? wavelengthM / 4 : lengthM / velocityFactor,
    ratio,
    warnings,
  };
}

function radialLengthM({ fixedM, ratio }: Radial, verticalM: number): number {
  return ratio === undefined ? fixedM : ratio * verticalM;
}

function solveWith(
  { frequencyHz, wavelengthM, radiusM, outsideValidity }: CheckedElement,
  radial: Radial & { readonly droopDeg: number; readonly radials: number },
  lengthM: number,
): WireSolution {
  const quarterM = wavelengthM / 4;
  const radialSet = {
    radials: radial.radials,
    droopDeg: radial.droopDeg,
    radiusM: radial.radiusM,
    lengthM: radialLengthM(radial, lengthM),
    nominalLengthM: radialLengthM(radial, quarterM),
  };
  const vertical = { frequencyHz, wavelengthM, radiusM, lengthM, nominalLengthM: quarterM, outsideValidity };
  return solveVertical({ ...vertical, radialSet });
}

function radialWarnings(radials: number, droopDeg: number): readonly string[] {
  const warnings: string[] = [];
  if (radials !== 4) warnings.push('Published cases were compared for four radials only.');
  if (radials < 3) warnings.push('Two radials do not make the pattern equal all around: gains are means.');
  if (droopDeg > 60) warnings.push('Published cases were compared for a droop of 0° to 60° only.');
  return warnings;
}
