import { checkObject, type Finding } from '@finial/units';
import { halfWaveDipoleGainDbi } from '../pattern/halfWaveDipoleGainDbi.js';
import { buildCautions } from './buildCautions.js';
import { checkElement, type ElementQuestion } from './elementChecks.js';

/** Lengths of a J-pole by handbook practice, all measured from the closed end of its stub. */
export interface JPole {
  /** Frequency in hertz. */
  readonly frequencyHz: number;
  /** Wavelength in vacuum in metres. */
  readonly wavelengthM: number;
  /** Length of the long rod in metres: quarter-wave stub and half-wave radiator in one. */
  readonly longRodLengthM: number;
  /** Length to cut the long rod to in metres, with the allowance for trimming. */
  readonly longRodCutLengthM: number;
  /** Length of the short rod of the stub in metres. */
  readonly stubLengthM: number;
  /** Length to cut the short rod to in metres, with the allowance for trimming. */
  readonly stubCutLengthM: number;
  /** Distance between the rods in metres, axis to axis. */
  readonly rodSpacingM: number;
  /** Height in metres above the closed end at which to begin with the feed; slide it for the least VSWR. */
  readonly feedHeightM: number;
  /** Greatest gain in dBi: that of a half-wave dipole. */
  readonly maximumGainDbi: number;
  /** How the figures were found, in words. */
  readonly method: string;
  /** Stated relative error of the lengths, as a ratio. */
  readonly lengthErrorRatio: number;
  /** What limits the figures, in words. */
  readonly warnings: readonly string[];
  /** What a person should be told, cautions included. */
  readonly findings: readonly Finding[];
}

/**
 * Over a wavelength. Rods from memory of handbooks: half and quarter wave, each shortened by 5 %. The feed, about a twelfth up the stub,
 * lies a little lower than handbooks put it (0.023): there the solver finds the better match.
 */
const handbook = { longRod: 0.7125, stub: 0.2375, spacing: 0.022, feed: 0.02 };
const lengthErrorRatio = 0.04;

/**
 * Lengths of a J-pole: a half-wave radiator on a quarter-wave stub that is closed below and fed near its closed end.
 *
 * Handbook practice, not computed: a start for cutting and sliding, with a sweep. The thickness of the rods is not in it (thicker
 * rods want them shorter); the spacing is kept at four diameters or more. With rods of 2 and 3 mm at 868 MHz the moment method finds a
 * match within a slide of the feed from these lengths.
 *
 * @returns lengths within about 4 %, common practice from memory
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option` or `outside-validity`
 * @source radio handbooks, from memory: 0.71 and 0.24 of a wavelength for long rod and stub; the feed by a moment-method model of this package
 * @example
 * ```ts
 * import { jPole } from '@finial/antenna';
 *
 * const antenna = jPole({ frequencyHz: 868.1e6, elementDiameterM: 0.002 });
 * antenna.longRodLengthM; // ≈ 0.246
 * antenna.stubLengthM; // ≈ 0.082
 * antenna.findings[0]?.rule; // → 'antenna-handbook-lengths'
 * ```
 */
export function jPole(question: ElementQuestion): JPole {
  checkObject(question, 'question');
  const { frequencyHz, wavelengthM, radiusM, velocityFactor, allowanceRatio, warnings } =
    checkElement(question);
  const unitM = wavelengthM * velocityFactor;
  const longer = 1 + (allowanceRatio ?? lengthErrorRatio + 0.02);
  return {
    frequencyHz,
    wavelengthM,
    longRodLengthM: handbook.longRod * unitM,
    longRodCutLengthM: handbook.longRod * unitM * longer,
    stubLengthM: handbook.stub * unitM,
    stubCutLengthM: handbook.stub * unitM * longer,
    rodSpacingM: Math.max(handbook.spacing * wavelengthM, 8 * radiusM),
    feedHeightM: handbook.feed * unitM,
    maximumGainDbi: halfWaveDipoleGainDbi({ elevationDeg: 0 }),
    method: 'handbook practice, from memory: not computed',
    lengthErrorRatio,
    warnings,
    findings: [handbookNote(), ...buildCautions()],
  };
}

function handbookNote(): Finding {
  return {
    rule: 'antenna-handbook-lengths',
    severity: 'note',
    message:
      'Lengths of this J-pole are handbook practice and unverified: cut long, slide the feed along the stub for the least VSWR, then trim, and put a ' +
      'choke on the cable below the feed.',
    source: 'radio handbooks, from memory',
  };
}
