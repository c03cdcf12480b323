import { checkObject, type Finding, InputError } from '@finial/units';
import { solveWires } from '../wires/solveWires.js';
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
import { pieces } from './verticalWires.js';

/** A sleeve dipole to be made: a rod above, and below it a tube that the cable runs through. */
export interface SleeveDipoleQuestion extends ElementQuestion {
  /** Outer diameter of the sleeve in metres, not less than that of the rod; bounds as for `elementDiameterM`. */
  readonly sleeveDiameterM: number;
}

/** A sleeve dipole to cut, and what it will do. Its lengths are those of the rod, from the feed gap to the tip; the sleeve is as long. */
export interface SleeveDipole extends AntennaFigures, CutLengths {
  /** Length to cut for the sleeve in metres, from the feed gap to its open end. */
  readonly sleeveCutLengthM: number;
}

const methodErrorRatio = 0.01;
const resistanceErrorRatio = 0.05;

/**
 * Lengths, feed impedance and gain of a vertical sleeve dipole in free space: a quarter-wave rod over a quarter-wave tube, with the
 * cable led in through the tube and its shield joined to the upper end of the tube.
 *
 * Rod and sleeve are taken as equally long, and the current on the outside of the sleeve as ending at its open end. On a mast some of it
 * goes on along the cable: a choke below the sleeve keeps it off. Inside, sleeve and cable make a shorted quarter wave only if the
 * space between them is mostly air; with a filling the sleeve chokes at another frequency than it radiates.
 *
 * @returns resonant lengths within 1 %; with a sleeve as thin as the rod they are those of the dipole, within 0.5 % of NEC-2
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range` (also a sleeve thinner than the rod), `unknown-option` or
 * `outside-validity`
 * @source thin-wire moment method of {@link solveWires}; the build is common practice, no source
 * @example A 2 mm rod over a 6 mm tube
 * ```ts
 * import { sleeveDipole } from '@finial/antenna';
 *
 * const antenna = sleeveDipole({ frequencyHz: 868.1e6, elementDiameterM: 0.002, sleeveDiameterM: 0.006 });
 * antenna.resonantLengthM < 0.0803; // → true
 * antenna.maximumGainDbi; // ≈ 2.1
 * ```
 */
export function sleeveDipole(question: SleeveDipoleQuestion): SleeveDipole {
  checkObject(question, 'question');
  const element = checkElement(question);
  const { sleeveDiameterM } = question;
  const sleeveWarnings = checkDiameter(
    sleeveDiameterM,
    'sleeveDiameterM',
    element.wavelengthM,
    element.outsideValidity,
  );
  if (sleeveDiameterM < question.elementDiameterM) {
    const expected = `at least the diameter of the rod, ${question.elementDiameterM} metres`;
    throw new InputError({
      code: 'out-of-range',
      argument: 'sleeveDiameterM',
      received: sleeveDiameterM,
      expected,
    });
  }
  const quarterM = element.wavelengthM / 4;
  const solve = (armM: number) => solveSleeve(element, sleeveDiameterM / 2, armM);
  const armM = findResonantLength((lengthM) => solve(lengthM).feed.reactanceOhm, {
    shortestM: 0.6 * quarterM,
    longestM: 1.2 * quarterM,
    argument: 'sleeveDiameterM',
    received: sleeveDiameterM,
  });
  const figures = figuresOf(element, solve(armM));
  const lengths = cutLengths(element, armM * element.velocityFactor, quarterM, methodErrorRatio);
  return {
    ...figures,
    ...lengths,
    sleeveCutLengthM: armM + lengths.trimAllowanceM,
    method: 'thin-wire moment method in free space, resonance by secant search',
    resistanceErrorRatio,
    warnings: [...figures.warnings, ...sleeveWarnings],
    findings: [chokeNote(), ...elementFindings(figures, 'match it')],
  };
}

/** Currents on a rod and a sleeve that meet at the feed. */
function solveSleeve(
  { frequencyHz, wavelengthM, radiusM, outsideValidity }: CheckedElement,
  sleeveRadiusM: number,
  armM: number,
): WireSolution {
  const at = (zM: number) => ({ xM: 0, yM: 0, zM });
  const quarterM = wavelengthM / 4;
  const rod = { start: at(0), end: at(armM), radiusM, segments: pieces(quarterM, radiusM, wavelengthM) };
  const sleeve = {
    start: at(0),
    end: at(-armM),
    radiusM: sleeveRadiusM,
    segments: pieces(quarterM, sleeveRadiusM, wavelengthM),
  };
  return solveWires([rod, sleeve], { frequencyHz, source: { wire: 0, positionRatio: 0 }, outsideValidity });
}

function chokeNote(): Finding {
  return {
    rule: 'antenna-cable-current',
    severity: 'note',
    message:
      'Current that runs on along the cable below the sleeve moves resonance and pattern: add a choke a quarter wave below it, and sweep ' +
      'the antenna on its mast before the last cut.',
    source: 'common practice, no source',
  };
}
