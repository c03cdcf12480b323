import { checkObject, type Finding } from '@finial/units';
import { checkElement, type ElementQuestion } from './elementChecks.js';
import { findResonantLength } from './findResonantLength.js';
import {
  type AntennaFigures,
  type CutLengths,
  cutLengths,
  elementFindings,
  figuresOf,
} from './sizedElement.js';
import { solveVertical } from './verticalWires.js';

/** A quarter-wave rod on a ground without end, and what it will do. */
export interface Monopole extends AntennaFigures, CutLengths {}

const methodErrorRatio = 0.006;
const resistanceErrorRatio = 0.05;

/**
 * Length, feed impedance and gain of a quarter-wave rod on an endless, perfectly conducting ground.
 *
 * A metal roof many wavelengths wide comes near it. On a small plate or on radials the resistance is another, and the gain is 3 dB less
 * and more: see {@link groundPlane}.
 *
 * @returns resonant length within 0.6 %, feed resistance within 5 % and gain within 0.1 dB of the NEC-2 cases that the README names
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option` or `outside-validity`
 * @source thin-wire moment method of {@link solveWires}
 * @example Rod of 2 mm
 * ```ts
 * import { monopole } from '@finial/antenna';
 *
 * const antenna = monopole({ frequencyHz: 868.1e6, elementDiameterM: 0.002 });
 * antenna.resonantLengthM; // ≈ 0.081
 * antenna.resistanceOhm; // ≈ 36
 * ```
 */
export function monopole(question: ElementQuestion): Monopole {
  checkObject(question, 'question');
  const element = checkElement(question);
  const quarterM = element.wavelengthM / 4;
  const solve = (lengthM: number) =>
    solveVertical({ ...element, lengthM, nominalLengthM: quarterM, radialSet: undefined });
  const electricalM = findResonantLength((lengthM) => solve(lengthM).feed.reactanceOhm, {
    shortestM: 0.6 * quarterM,
    longestM: 1.2 * quarterM,
    argument: 'elementDiameterM',
    received: question.elementDiameterM,
  });
  const figures = figuresOf(element, solve(electricalM));
  return {
    ...figures,
    ...cutLengths(element, electricalM * element.velocityFactor, quarterM, methodErrorRatio),
    method: 'thin-wire moment method over a perfect ground, resonance by secant search',
    resistanceErrorRatio,
    findings: [endlessGroundNote(), ...elementFindings(figures, 'use drooping radials instead')],
  };
}

/** Gains over an endless ground are often printed for antennas that have none. */
export function endlessGroundNote(): Finding {
  return {
    rule: 'antenna-endless-ground',
    severity: 'note',
    message:
      'This gain needs a metal ground that is many wavelengths wide; on four radials a quarter-wave rod has 1.5 to 2 dBi, and a 5/8-wave rod less ' +
      'than that towards the horizon.',
    source: 'NEC-2 cases for four quarter-wave radials in free space',
  };
}
