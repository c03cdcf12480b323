/** What is cut: only the vertical over fixed radials, or every element of the antenna alike. */
export type TrimmedPart = 'vertical' | 'whole-antenna';

/** How the resonance follows the length: d ln f / d ln L. */
export interface TrimSlope {
  /** Usual value. */
  readonly exponent: number;
  /** Standard deviation from one antenna to the next, in the exponent. */
  readonly standardErrorRatio: number;
  /** The steepest that has to be reckoned with: with it, a cut comes out smallest. */
  readonly steepestExponent: number;
  /** The gentlest that has to be reckoned with. */
  readonly gentlestExponent: number;
  /** Where it comes from. */
  readonly source: string;
}

/** Before a slope has been measured. */
export const trimSlopes: Readonly<Record<TrimmedPart, TrimSlope>> = {
  vertical: {
    exponent: -0.75,
    standardErrorRatio: 0.05,
    steepestExponent: -0.85,
    gentlestExponent: -0.6,
    source:
      'NEC-2 models of ground planes of 2 mm wire, droop 0 to 60 degrees: -0.79 to -0.72; solveWires, 1 to 4 mm: -0.82 to -0.62',
  },
  'whole-antenna': {
    exponent: -0.98,
    standardErrorRatio: 0.01,
    steepestExponent: -1,
    gentlestExponent: -0.95,
    source:
      'NEC-2 models of dipoles, monopoles and ground planes cut alike: -0.99 to -0.96; bounds with a margin',
  },
};
