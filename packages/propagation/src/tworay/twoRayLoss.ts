import { freeSpaceLossDb, wavelengthM } from '@finial/radio';
import { checkObject, checkOneOf, checkRange, frequencyHints, type RangeBounds } from '@finial/units';
import { landConstants } from '../p526/firstTerm.js';
import type { LinearPolarisation } from '../path/RadioPath.js';

/** Two antennas over flat ground that reflects. */
export interface TwoRayPath {
  /** Frequency in hertz, 30e6 to 100e9. */
  readonly frequencyHz: number;
  /** Distance over ground in metres, 1 to 1e5. */
  readonly distanceM: number;
  /** Height of one antenna above the ground in metres, 0.1 to 1000. */
  readonly transmitterHeightM: number;
  /** Height of the other antenna above the ground in metres, 0.1 to 1000. */
  readonly receiverHeightM: number;
  /**
   * Orientation of the electric field.
   *
   * @defaultValue `vertical`
   */
  readonly polarisation?: LinearPolarisation | undefined;
  /**
   * Relative permittivity of the ground, 1 to 100.
   *
   * @defaultValue 22, as P.526 takes land
   */
  readonly permittivityRatio?: number | undefined;
  /**
   * Conductivity of the ground in siemens per metre, 0 to 10.
   *
   * @defaultValue 0.003, as P.526 takes land
   */
  readonly conductivitySPerM?: number | undefined;
}

/** Direct and reflected ray together. */
export interface TwoRay {
  /** Loss of the direct ray alone in dB. */
  readonly freeSpaceLossDb: number;
  /** Angle between the reflected ray and the ground in degrees. */
  readonly grazingAngleDeg: number;
  /** Amplitude of the reflected wave over the incident one. */
  readonly reflectionRatio: number;
  /** Phase of the reflected wave against the incident one in degrees, -180 to 180. */
  readonly reflectionPhaseDeg: number;
  /** How much longer the reflected ray is in metres. */
  readonly pathDifferenceM: number;
  /** Distance in metres beyond which the loss grows with the fourth power of distance: 4 h1 h2 over the wavelength. */
  readonly breakpointDistanceM: number;
  /** What the fourth-power law alone says in dB: only for distances well beyond the breakpoint. */
  readonly planeEarthLossDb: number;
  /** Gain of the two rays over the direct one in dB: up to 6, and far below 0 in a null. */
  readonly reflectionGainDb: number;
  /** Loss between isotropic antennas in dB. */
  readonly lossDb: number;
}

const permittivityBounds: RangeBounds = { min: 1, max: 100, unit: 'as a relative permittivity' };
const conductivityBounds: RangeBounds = { min: 0, max: 10, unit: 'siemens per metre' };
const heightBounds: RangeBounds = { min: 0.1, max: 1000, unit: 'metres above the ground' };

interface Complex {
  readonly real: number;
  readonly imaginary: number;
}

/**
 * Loss in dB over flat, smooth ground, where a direct ray and a reflected one add up or cancel.
 *
 * Shows why height matters over open ground and where nulls lie. Real ground is rough and curved: reflections weaken where the ground is
 * uneven by more than a part of the wavelength over the sine of the grazing angle, and beyond the radio horizon the Earth is in the way.
 * The surface wave (below some metres at 868 MHz) and the antennas' patterns are left out. Not valid near an antenna (a few wavelengths).
 *
 * @returns the loss and what it is made of; exact for the stated geometry to a rounding
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range` or `unknown-option`
 * @source Fresnel's reflection coefficients and image theory (textbook matter, from memory); the ground's default constants: Recommendation
 * ITU-R P.1812-6, section 4.3.3
 * @example A node beyond the breakpoint
 * ```ts
 * import { twoRay } from '@finial/propagation';
 *
 * const path = { frequencyHz: 868.1e6, distanceM: 5000, transmitterHeightM: 15, receiverHeightM: 1.5 };
 * twoRay.twoRayLoss(path).breakpointDistanceM; // ≈ 260.6
 * twoRay.twoRayLoss(path).lossDb; // ≈ 120.90
 * ```
 */
export function twoRayLoss(path: TwoRayPath): TwoRay {
  checkObject(path, 'path');
  const frequencyHz = checkRange(path.frequencyHz, 'frequencyHz', {
    min: 30e6,
    max: 100e9,
    unit: 'hertz',
    hints: frequencyHints,
  });
  const distanceM = checkRange(path.distanceM, 'distanceM', { min: 1, max: 1e5, unit: 'metres' });
  const transmitterM = checkRange(path.transmitterHeightM, 'transmitterHeightM', heightBounds);
  const receiverM = checkRange(path.receiverHeightM, 'receiverHeightM', heightBounds);
  const waveM = wavelengthM(frequencyHz);
  const reflection = reflectionOf(path, Math.atan2(transmitterM + receiverM, distanceM), waveM);
  const directM = Math.hypot(distanceM, transmitterM - receiverM);
  const reflectedM = Math.hypot(distanceM, transmitterM + receiverM);
  // The plain difference of the two lengths would lose its digits at a distance.
  const pathDifferenceM = (4 * transmitterM * receiverM) / (directM + reflectedM);
  const turn = reflection.phase - (2 * Math.PI * pathDifferenceM) / waveM;
  const amplitude = (reflection.size * directM) / reflectedM;
  const reflectionGainDb =
    20 * Math.log10(Math.hypot(1 + amplitude * Math.cos(turn), amplitude * Math.sin(turn)));
  const alone = freeSpaceLossDb({ frequencyHz, distanceM: directM });
  return {
    freeSpaceLossDb: alone,
    grazingAngleDeg: inDegrees(Math.atan2(transmitterM + receiverM, distanceM)),
    reflectionRatio: reflection.size,
    reflectionPhaseDeg: inDegrees(reflection.phase),
    pathDifferenceM,
    breakpointDistanceM: (4 * transmitterM * receiverM) / waveM,
    planeEarthLossDb: 40 * Math.log10(distanceM) - 20 * Math.log10(transmitterM * receiverM),
    reflectionGainDb,
    lossDb: alone - reflectionGainDb,
  };
}

/** Fresnel's reflection coefficient of the ground, by size and phase. */
function reflectionOf(
  path: TwoRayPath,
  grazing: number,
  waveM: number,
): { readonly size: number; readonly phase: number } {
  const {
    polarisation = 'vertical',
    permittivityRatio = landConstants.permittivityRatio,
    conductivitySPerM = landConstants.conductivitySPerM,
  } = path;
  const real = checkRange(permittivityRatio, 'permittivityRatio', permittivityBounds);
  checkRange(conductivitySPerM, 'conductivitySPerM', conductivityBounds);
  checkOneOf(polarisation, 'polarisation', ['horizontal', 'vertical']);
  const permittivity = { real, imaginary: -60 * waveM * conductivitySPerM };
  const sine = Math.sin(grazing);
  const inside = squareRoot({ real: real - Math.cos(grazing) ** 2, imaginary: permittivity.imaginary });
  const outside =
    polarisation === 'horizontal'
      ? { real: sine, imaginary: 0 }
      : { real: permittivity.real * sine, imaginary: permittivity.imaginary * sine };
  const over = { real: outside.real - inside.real, imaginary: outside.imaginary - inside.imaginary };
  const under = { real: outside.real + inside.real, imaginary: outside.imaginary + inside.imaginary };
  // One division: a phase taken as a difference of two arcs could leave -180 to 180 degrees.
  const phase = Math.atan2(
    over.imaginary * under.real - over.real * under.imaginary,
    over.real * under.real + over.imaginary * under.imaginary,
  );
  return { size: size(over) / size(under), phase };
}

function size({ real, imaginary }: Complex): number {
  return Math.hypot(real, imaginary);
}

/** The root with the positive real part: the wave that fades into the ground. */
function squareRoot(value: Complex): Complex {
  const length = size(value);
  const real = Math.sqrt((length + value.real) / 2);
  return { real, imaginary: value.imaginary === 0 ? 0 : value.imaginary / (2 * real) };
}

function inDegrees(angle: number): number {
  return (angle * 180) / Math.PI;
}
