import { wavelengthM as wavelengthOf } from '@finial/radio';
import { checkObject, checkRange, type Finding, InputError } from '@finial/units';
import { type CollinearPattern, collinearPattern } from '../pattern/collinearPattern.js';
import { interpolatePattern } from '../pattern/interpolatePattern.js';
import { buildCautions } from './buildCautions.js';
import { checkFrequency } from './elementChecks.js';

/** Half-wave elements one above the other. */
export interface CollinearQuestion {
  /** Frequency in hertz, 1e7 to 6e9; 868.1 MHz is `868.1e6`. */
  readonly frequencyHz: number;
  /** Elements, a whole number, 1 to 32. */
  readonly elements: number;
  /**
   * Distance between the centres of neighbours in wavelengths, 0.5 to 2. Give this or `spacingM`, not both.
   *
   * @defaultValue 0.5 (they touch), unless `spacingM` is given
   */
  readonly spacingWavelengths?: number | undefined;
  /**
   * Distance between the centres of neighbours in metres, half a wavelength to two.
   *
   * @defaultValue none
   */
  readonly spacingM?: number | undefined;
  /**
   * Angle in degrees by which phasing steers the beam below the horizon, -45 to 45.
   *
   * @defaultValue 0
   */
  readonly downtiltDeg?: number | undefined;
}

/** What a collinear array will do. */
export interface Collinear {
  /** Frequency in hertz. */
  readonly frequencyHz: number;
  /** Wavelength in vacuum in metres. */
  readonly wavelengthM: number;
  /** Elements, a plain count. */
  readonly elementsCount: number;
  /** Distance between the centres of neighbours in metres. */
  readonly spacingM: number;
  /** Length in metres from the tip of the lowest to that of the highest element. */
  readonly totalLengthM: number;
  /** Greatest gain in dBi, losses not counted. */
  readonly maximumGainDbi: number;
  /** Elevation of the greatest gain in degrees, to 0.1°. */
  readonly elevationOfMaximumDeg: number;
  /** Gain towards the horizon in dBi. */
  readonly horizonGainDbi: number;
  /** Width in degrees of the beam between the angles at which the gain is 3 dB less, to 0.1°. */
  readonly halfPowerBeamwidthDeg: number;
  /** Elevation in degrees of the first null below the beam; left out where there is none above straight down. */
  readonly firstNullElevationDeg?: number | undefined;
  /** Gain over elevation in steps of 0.1°. */
  readonly pattern: CollinearPattern;
  /** How the figures were found, in words. */
  readonly method: string;
  /** What limits the figures, in words. */
  readonly warnings: readonly string[];
  /** What a person should be told, cautions included. */
  readonly findings: readonly Finding[];
}

/** Beams narrower than this leave nodes below and above it out where there are hills. Common practice, no source. */
const narrowBeamDeg = 15;

/**
 * Gain, beam width and first null of a collinear array of half-wave elements with equal currents.
 *
 * The gain comes from making the beam flat: what it gains towards the horizon it takes from the foot of the hill. Losses in the
 * phasing lines and unequal currents are not counted; in a long coaxial array they cost a decibel or more (common practice, no source).
 *
 * @returns greatest gain within 0.1 dB of the NEC-2 cases that the README names, angles to 0.1°
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range` or `unknown-option`
 * @source Balanis, Antenna Theory, N-element linear array with uniform amplitude and spacing, pattern multiplication (from memory)
 * @example Eight elements
 * ```ts
 * import { collinear } from '@finial/antenna';
 *
 * const antenna = collinear({ frequencyHz: 868.1e6, elements: 8, spacingWavelengths: 0.8 });
 * antenna.maximumGainDbi; // ≈ 11.1
 * antenna.halfPowerBeamwidthDeg; // ≈ 8.0
 * antenna.firstNullElevationDeg; // ≈ -9
 * antenna.totalLengthM; // ≈ 2.1
 * ```
 */
export function collinear(question: CollinearQuestion): Collinear {
  checkObject(question, 'question');
  const { elements, downtiltDeg = 0 } = question;
  const frequencyHz = checkFrequency(question.frequencyHz);
  const wavelengthM = wavelengthOf(frequencyHz);
  const spacingWavelengths = spacingOf(question, wavelengthM);
  const pattern = collinearPattern({ elements, spacingWavelengths, downtiltDeg, stepDeg: 0.1 });
  const beam = beamOf(pattern);
  return {
    frequencyHz,
    wavelengthM,
    elementsCount: elements,
    spacingM: spacingWavelengths * wavelengthM,
    totalLengthM: ((elements - 1) * spacingWavelengths + 0.5) * wavelengthM,
    ...beam,
    horizonGainDbi: interpolatePattern(pattern, 0, 0),
    firstNullElevationDeg: firstNullDeg(elements, spacingWavelengths, downtiltDeg),
    pattern,
    method:
      'pattern multiplication of half-wave elements with equal currents, power integrated over the sphere',
    warnings: ['Losses and unequal currents are not counted.', ...lobeWarning(spacingWavelengths)],
    findings: [...narrowBeam(beam), ...buildCautions()],
  };
}

function spacingOf(question: CollinearQuestion, wavelengthM: number): number {
  const { spacingM, spacingWavelengths = 0.5 } = question;
  if (spacingM === undefined) return spacingWavelengths;
  if (question.spacingWavelengths !== undefined) {
    const expected = 'nothing where spacingM is given';
    const argument = 'spacingWavelengths';
    throw new InputError({ code: 'unknown-option', argument, received: spacingWavelengths, expected });
  }
  // Half a wavelength as the caller computed it may be a rounding less than half a wavelength.
  const rounding = 1e-9;
  const min = 0.5 * wavelengthM * (1 - rounding);
  checkRange(spacingM, 'spacingM', { min, max: 2 * wavelengthM, unit: 'metres' });
  return Math.min(2, Math.max(0.5, spacingM / wavelengthM));
}

type Beam = Pick<Collinear, 'maximumGainDbi' | 'elevationOfMaximumDeg' | 'halfPowerBeamwidthDeg'>;

/** The strongest lobe (of equal ones the one nearest the horizon) and its half-power edges. */
function beamOf({ elevationDeg, gainDbi }: CollinearPattern): Beam {
  let best = 0;
  for (let index = 1; index < gainDbi.length; index++) {
    const more = (gainDbi[index] as number) - (gainDbi[best] as number);
    const isNearer = Math.abs(elevationDeg[index] as number) < Math.abs(elevationDeg[best] as number);
    if (more > 1e-9 || (more > -1e-9 && isNearer)) best = index;
  }
  const maximumGainDbi = gainDbi[best] as number;
  const halfPowerDbi = maximumGainDbi - 10 * Math.log10(2);
  const edge = (step: number) => {
    let index = best;
    while (index > 0 && index < gainDbi.length - 1 && (gainDbi[index] as number) > halfPowerDbi)
      index += step;
    return elevationDeg[index] as number;
  };
  return {
    maximumGainDbi,
    elevationOfMaximumDeg: elevationDeg[best] as number,
    halfPowerBeamwidthDeg: edge(1) - edge(-1),
  };
}

/** First zero of the array factor below the beam: the elements' fields close to a circle. */
function firstNullDeg(elements: number, spacingWavelengths: number, downtiltDeg: number): number | undefined {
  if (elements === 1) return undefined;
  const sine = -Math.sin((downtiltDeg * Math.PI) / 180) - 1 / (elements * spacingWavelengths);
  return sine > -1 ? (Math.asin(sine) * 180) / Math.PI : undefined;
}

function lobeWarning(spacingWavelengths: number): readonly string[] {
  if (spacingWavelengths <= 0.9) return [];
  return ['Centres more than 0.9 of a wavelength apart raise strong lobes up and down, and the gain falls.'];
}

function narrowBeam({ halfPowerBeamwidthDeg: width, maximumGainDbi }: Beam): Finding[] {
  if (width >= narrowBeamDeg) return [];
  return [
    {
      rule: 'antenna-narrow-beam',
      severity: 'note',
      message:
        `The beam is ${width.toFixed(1)}° wide (${maximumGainDbi.toFixed(1)} dBi): nodes at the foot of a hill may lie in a null of it, and a mast that leans ` +
        'by half of that loses half the power. Check the nearest and lowest nodes with their heights and distances.',
      measured: `${width.toFixed(1)}°`,
      limit: `${narrowBeamDeg}°`,
      source: 'common practice, no source',
    },
  ];
}
