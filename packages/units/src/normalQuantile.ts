import { checkRange } from './checks.js';

/**
 * The value that a standard normal variable stays below with the given probability: for margins and intervals.
 *
 * For the upper tail negate the value of the tail's own probability: 1 - p would round the tail away.
 *
 * @param probability - 1e-300 to 1 - 1e-16
 * @returns number of standard deviations from the mean, -37.05 to 8.3; relative error below 1e-15
 * @throws {@link InputError} `not-a-finite-number` or `out-of-range`
 * @source M. J. Wichura, Algorithm AS 241, Applied Statistics 37 (1988) 477, function PPND16
 * @example The deviate that 95 % stay below
 * ```ts
 * import { normalQuantile } from '@finial/units';
 *
 * normalQuantile(0.95); // ≈ 1.644854
 * ```
 */
export function normalQuantile(probability: number): number {
  checkRange(probability, 'probability', { min: 1e-300, max: 1 - 1e-16, unit: 'as a ratio' });
  const fromMiddle = probability - 0.5;
  if (Math.abs(fromMiddle) <= 0.425) {
    const r = 0.180625 - fromMiddle * fromMiddle;
    return (fromMiddle * polynomial(middleTop, r)) / polynomial(middleBottom, r);
  }
  const tail = Math.min(probability, 1 - probability);
  const r = Math.sqrt(-Math.log(tail));
  const size =
    r <= 5
      ? polynomial(nearTop, r - 1.6) / polynomial(nearBottom, r - 1.6)
      : polynomial(farTop, r - 5) / polynomial(farBottom, r - 5);
  return fromMiddle < 0 ? -size : size;
}

function polynomial(coefficients: readonly number[], x: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);
}

// The paper's twenty digits, rounded to doubles.
const middleTop = [
  3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987,
  67265.7709270087, 33430.57558358813, 2509.0809287301227,
];
const middleBottom = [
  1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271,
  28729.085735721943, 5226.495278852854,
];
const nearTop = [
  1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684,
  0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
];
const nearBottom = [
  1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
  0.0005475938084995345, 1.0507500716444169e-9,
];
const farTop = [
  6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
  0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
];
const farBottom = [
  1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133,
  1.8463183175100548e-5, 1.421511758316446e-7, 2.0442631033899397e-15,
];
