import { impedanceToReflection } from '@finial/radio';
import { checkInteger, checkObject, checkOneOf, checkRange, type Finding } from '@finial/units';
import { buildCautions } from './buildCautions.js';
import { checkElement, type ElementQuestion } from './elementChecks.js';
import { endlessGroundNote } from './monopole.js';
import { type AntennaFigures, type CutLengths, cutLengths, figuresOf } from './sizedElement.js';
import { solveVertical } from './verticalWires.js';

/** A 5/8-wave vertical, and what it stands on. */
export interface FiveEighthsQuestion extends ElementQuestion {
  /**
   * What it stands on: quarter-wave radials in free space, or an endless perfect ground.
   *
   * @defaultValue `radials`
   */
  readonly ground?: 'radials' | 'perfect' | undefined;
  /**
   * Angle of the radials below the horizontal in degrees, 0 to 70. On perfect ground it plays no part.
   *
   * @defaultValue 0
   */
  readonly droopDeg?: number | undefined;
  /**
   * Number of radials, a whole number, 3 to 12. On perfect ground it plays no part.
   *
   * @defaultValue 4
   */
  readonly radials?: number | undefined;
}

/** A 5/8-wave vertical: `resonantLengthM` is its 5/8 wavelength, which the coil brings to resonance. */
export interface FiveEighths extends AntennaFigures, CutLengths {
  /** Length of each radial in metres; 0 on a perfect ground. */
  readonly radialLengthM: number;
  /** Inductance in henries of the coil in series at the foot that takes the reactance away; 0 where there is none to take. */
  readonly seriesInductanceH: number;
  /** VSWR with that coil, if it had no loss. */
  readonly matchedVswr: number;
}

const methodErrorRatio = 0.02;
/** The reactance of a rod this long and thick depends on the feed gap more than a resonant one's. */
const resistanceErrorRatio = 0.15;

/**
 * Length, feed impedance, matching coil and gain of a 5/8-wave vertical.
 *
 * The 8 dBi that belong to it need an endless metal ground. On radials its beam points upward and towards the horizon it has
 * less than a plain quarter wave: a poor antenna for nodes on the ground. The reactance depends on the feed gap and on the
 * connector, so that the coil is a start for trimming; its own loss (0.1 dB for a good one; common practice, no source) is not counted.
 *
 * @returns gain within 0.2 dB of the NEC-2 cases that the README names; over perfect ground resistance within 15 % and reactance
 * within 10 % of half a 1.25-wave dipole; over radials the impedance is compared with none
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option` or `outside-validity`
 * @source thin-wire moment method of {@link solveWires}; coil of −X/(2πf)
 * @example What is left of 8 dBi on four flat radials
 * ```ts
 * import { fiveEighths } from '@finial/antenna';
 *
 * const antenna = fiveEighths({ frequencyHz: 868.1e6, elementDiameterM: 0.003 });
 * antenna.horizonGainDbi < 1.6; // → true
 * antenna.elevationOfMaximumDeg > 20; // → true
 * antenna.seriesInductanceH > 20e-9; // → true
 * ```
 */
export function fiveEighths(question: FiveEighthsQuestion): FiveEighths {
  checkObject(question, 'question');
  const element = checkElement(question);
  const { droopDeg = 0, radials = 4, ground = 'radials' } = question;
  checkOneOf(ground, 'ground', ['radials', 'perfect']);
  checkRange(droopDeg, 'droopDeg', { min: 0, max: 70, unit: 'degrees below the horizontal' });
  checkInteger(radials, 'radials', { min: 3, max: 12, unit: 'radials' });

  const lengthM = (5 / 8) * element.wavelengthM;
  const radialM = element.wavelengthM / 4;
  const radialSet = {
    radials,
    droopDeg,
    lengthM: radialM,
    nominalLengthM: radialM,
    radiusM: element.radiusM,
  };
  const figures = figuresOf(
    element,
    solveVertical({
      ...element,
      lengthM,
      nominalLengthM: lengthM,
      radialSet: ground === 'radials' ? radialSet : undefined,
    }),
  );
  const { resistanceOhm, reactanceOhm, referenceOhm, frequencyHz } = figures;
  const matched = impedanceToReflection({
    resistanceOhm,
    reactanceOhm: Math.max(0, reactanceOhm),
    referenceOhm,
  });
  return {
    ...figures,
    ...cutLengths(element, lengthM * element.velocityFactor, lengthM, methodErrorRatio),
    radialLengthM: ground === 'radials' ? radialM * element.velocityFactor : 0,
    seriesInductanceH: Math.max(0, -reactanceOhm / (2 * Math.PI * frequencyHz)),
    matchedVswr: matched.vswr,
    method: 'thin-wire moment method at 5/8 of a wavelength; coil from the reactance',
    resistanceErrorRatio,
    findings: [ground === 'perfect' ? endlessGroundNote() : beamUpward(figures), ...buildCautions()],
  };
}

function beamUpward({
  horizonGainDbi,
  elevationOfMaximumDeg,
  maximumGainDbi,
}: AntennaFiguresOfBeam): Finding {
  return {
    rule: 'antenna-beam-upward',
    severity: 'fix',
    message:
      `On radials the beam points ${elevationOfMaximumDeg.toFixed(0)}° up (${maximumGainDbi.toFixed(1)} dBi); towards the horizon, where the nodes are, ` +
      `${horizonGainDbi.toFixed(1)} dBi are left. A quarter-wave ground plane or a dipole does better there.`,
    measured: `${horizonGainDbi.toFixed(1)} dBi`,
    source: 'NEC-2 cases for a 5/8-wave vertical on four quarter-wave radials in free space',
  };
}

type AntennaFiguresOfBeam = Pick<
  AntennaFigures,
  'horizonGainDbi' | 'elevationOfMaximumDeg' | 'maximumGainDbi'
>;
