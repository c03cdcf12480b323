import { impedanceToReflection } from '@finial/radio';
import type { Finding } from '@finial/units';
import { type ElevationPattern, elevationPattern } from '../pattern/elevationPattern.js';
import { interpolatePattern } from '../pattern/interpolatePattern.js';
import type { WireSolution } from '../wires/WireSolution.js';
import { buildCautions } from './buildCautions.js';
import type { CheckedElement } from './elementChecks.js';

/** What an antenna does: the same for every kind. */
export interface AntennaFigures {
  /** Frequency in hertz. */
  readonly frequencyHz: number;
  /** Wavelength in vacuum in metres. */
  readonly wavelengthM: number;
  /** Resistance at the feed in ohms. */
  readonly resistanceOhm: number;
  /** Reactance at the feed in ohms; positive means too long. */
  readonly reactanceOhm: number;
  /** Impedance of the cable in ohms. */
  readonly referenceOhm: number;
  /** VSWR on that cable, 1 or more. */
  readonly vswr: number;
  /** Loss by that mismatch in dB. */
  readonly mismatchLossDb: number;
  /** Gain towards the horizon in dBi, the mean all around, mismatch and losses not counted. */
  readonly horizonGainDbi: number;
  /** Greatest gain in dBi. */
  readonly maximumGainDbi: number;
  /** Elevation of the greatest gain in degrees, to 1°; of equal ones the one nearest the horizon. */
  readonly elevationOfMaximumDeg: number;
  /** Gain over elevation, the mean all around, in steps of 1°. */
  readonly pattern: ElevationPattern;
  /** The currents, for other directions, cuts and pictures. */
  readonly solution: WireSolution;
  /** How the figures were found, in words. */
  readonly method: string;
  /** Stated relative error of the lengths, as a ratio. */
  readonly lengthErrorRatio: number;
  /** Stated relative error of the feed resistance, as a ratio. */
  readonly resistanceErrorRatio: number;
  /** What limits the figures, in words. */
  readonly warnings: readonly string[];
  /** What a person should be told, cautions included. */
  readonly findings: readonly Finding[];
}

/** Lengths of an element that is cut to resonance. */
export interface CutLengths {
  /** Length in metres at which the element is resonant, measured on the metal from the feed point to the tip. */
  readonly resonantLengthM: number;
  /** The same over its half or quarter wavelength, as a plain factor. */
  readonly resonantLengthFactor: number;
  /** Length to cut in metres: longer than resonant, since a rod can be trimmed and not stretched. */
  readonly cutLengthM: number;
  /** The difference of the two in metres: what is left on for trimming. */
  readonly trimAllowanceM: number;
}

/** The workshop's own error on top of the method's: sawing, the end in the connector, the things around. Common practice, no source. */
const workshopRatio = 0.02;
/** Insulation is known to about a hundredth of its velocity factor. Common practice, no source. */
const insulationErrorRatio = 0.01;

/** Lengths to cut from a resonant length. */
export function cutLengths(
  { allowanceRatio, velocityFactor }: CheckedElement,
  resonantLengthM: number,
  nominalLengthM: number,
  methodErrorRatio: number,
): CutLengths & { readonly lengthErrorRatio: number } {
  const lengthErrorRatio = methodErrorRatio + (velocityFactor === 1 ? 0 : insulationErrorRatio);
  const trimAllowanceM = resonantLengthM * (allowanceRatio ?? lengthErrorRatio + workshopRatio);
  return {
    resonantLengthM,
    resonantLengthFactor: resonantLengthM / nominalLengthM,
    cutLengthM: resonantLengthM + trimAllowanceM,
    trimAllowanceM,
    lengthErrorRatio,
  };
}

/** Figures that follow from the currents. */
export function figuresOf(
  element: CheckedElement,
  solution: WireSolution,
): Omit<AntennaFigures, 'method' | 'lengthErrorRatio' | 'resistanceErrorRatio' | 'findings'> {
  const { resistanceOhm, reactanceOhm } = solution.feed;
  const { frequencyHz, wavelengthM, referenceOhm } = element;
  const { vswr, mismatchLossDb } = impedanceToReflection({ resistanceOhm, reactanceOhm, referenceOhm });
  const pattern = elevationPattern({ solution });
  return {
    frequencyHz,
    wavelengthM,
    resistanceOhm,
    reactanceOhm,
    referenceOhm,
    vswr,
    mismatchLossDb,
    horizonGainDbi: interpolatePattern(pattern, 0, 0),
    ...strongestOf(pattern),
    pattern,
    solution,
    warnings: [...element.warnings, ...solution.warnings],
  };
}

/** Greatest gain; where lobes are equally strong to a rounding, the one nearest the horizon. */
function strongestOf({ elevationDeg, gainDbi }: ElevationPattern): {
  maximumGainDbi: number;
  elevationOfMaximumDeg: number;
} {
  const maximumGainDbi = gainDbi.reduce((most, gain) => Math.max(most, gain), gainDbi[0] as number);
  const equal = [...elevationDeg].filter((_, index) => (gainDbi[index] as number) > maximumGainDbi - 1e-6);
  const nearest = equal.reduce((best, angle) => (Math.abs(angle) < Math.abs(best) ? angle : best), 90);
  return { maximumGainDbi, elevationOfMaximumDeg: nearest };
}

/** VSWR from which on a person should change something: a tenth of the power comes back. Common practice, no source. */
const poorVswr = 2;

/** What a person should be told of the match, and the cautions. */
export function elementFindings(
  { vswr, resistanceOhm, referenceOhm }: { vswr: number; resistanceOhm: number; referenceOhm: number },
  remedy: string,
): Finding[] {
  if (vswr < poorVswr) return buildCautions();
  const finding: Finding = {
    rule: 'antenna-match',
    severity: 'fix',
    message: `${resistanceOhm.toFixed(0)} Ω at the feed makes a VSWR of ${vswr.toFixed(2)} on ${referenceOhm} Ω, even at resonance: ${remedy}.`,
    measured: vswr.toFixed(2),
    limit: `${poorVswr}`,
    source: 'common practice, no source',
  };
  return [finding, ...buildCautions()];
}
