import { checkRange, InputError } from '@finial/units';
import { absorbedSunW, boxFaces } from './boxFaces.js';
import { checkedEnclosure, type Enclosure } from './Enclosure.js';
import { type BoxStep, thermalStep } from './thermalStep.js';

/** A box in weather that stays as it is. */
export interface EnclosureInWeather extends Enclosure {
  /** Temperature of the air outside in degrees C, -60 to 60. */
  readonly airC: number;
  /** Elevation of the sun in degrees, -90 to 90. */
  readonly sunElevationDeg: number;
  /** Azimuth of the sun in degrees, clockwise from north, -360 to 360. */
  readonly sunAzimuthDeg: number;
  /**
   * Wind in metres per second, 0 to 50.
   *
   * @defaultValue 0
   */
  readonly windMPerS?: number | undefined;
  /**
   * Share of sunshine that ground or roof throws back, 0 to 1.
   *
   * @defaultValue 0.2
   */
  readonly albedoRatio?: number | undefined;
}

/** Where the temperatures of a box come to rest. */
export interface EnclosureBalance {
  /** Temperature of the air inside in degrees C. */
  readonly insideC: number;
  /** Temperature of the walls in degrees C. */
  readonly skinC: number;
  /** Inside above outside, in kelvin. */
  readonly riseK: number;
  /** Uncertainty of the rise, in kelvin. */
  readonly riseUncertaintyK: number;
  /** Sunshine taken up, in watts. */
  readonly absorbedW: number;
  /** Heat carried off from the walls by air, in watts; negative where air warms them. */
  readonly convectionW: number;
  /** Heat radiated to sky and surroundings, in watts. */
  readonly radiationW: number;
  /** Heat carried off through the vents, in watts. */
  readonly ventW: number;
}

/** Share of a rise by which any such estimate may be wrong. */
export const riseUncertainty = 0.3;
const hottestC = 200;

/**
 * Temperatures of a box in the sun from the physics of its surfaces: sunshine on each face, air rising along or blown past the walls, radiation to
 * sky and surroundings, air and radiation inside, and vents.
 *
 * Walls count as one temperature, contents as another; a wall behind the box takes no heat and gives none; sky and air are clear. Hot spots on a
 * board (a processor is 15 to 40 K above the air in the box) are not in it. Results above 200 degrees C are refused as outside the model.
 *
 * @returns temperatures; the rise above the air within ±30 %; the heat flows add up to 1e-6
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number`, `out-of-range` or `outside-validity`
 * @source W. C. Swinbank, Q. J. R. Meteorol. Soc. 89 (1963) 339 (sky); Churchill and Chu 1975 (air); SAND2012-2389 (sun); Stefan-Boltzmann constant CODATA 2018; orifice coefficient 0.6 from memory
 * @example A white box of 4 W in the afternoon sun, and the same box in black
 * ```ts
 * import { enclosureBalance } from '@finial/site';
 *
 * const box = { widthM: 0.2, heightM: 0.2, depthM: 0.1, mounting: 'free-standing', faceAzimuthDeg: 180, powerW: 4, airC: 35 } as const;
 * const sun = { sunElevationDeg: 45, sunAzimuthDeg: 240 };
 * const white = enclosureBalance({ ...box, ...sun, colour: 'white' });
 * const black = enclosureBalance({ ...box, ...sun, colour: 'black' });
 * black.insideC - white.insideC > 10; // → true
 * ```
 */
export function enclosureBalance(box: EnclosureInWeather): EnclosureBalance {
  const checked = checkedEnclosure(box, 'box');
  const { airC, sunElevationDeg, sunAzimuthDeg, windMPerS = 0, albedoRatio = 0.2 } = box;
  checkRange(airC, 'box.airC', { min: -60, max: 60, unit: 'degrees Celsius' });
  checkRange(sunElevationDeg, 'box.sunElevationDeg', { min: -90, max: 90, unit: 'degrees' });
  checkRange(sunAzimuthDeg, 'box.sunAzimuthDeg', { min: -360, max: 360, unit: 'degrees' });
  checkRange(windMPerS, 'box.windMPerS', { min: 0, max: 50, unit: 'metres per second' });
  checkRange(albedoRatio, 'box.albedoRatio', { min: 0, max: 1, unit: '(a ratio)' });

  const faces = boxFaces(checked);
  const sun = { elevationDeg: sunElevationDeg, azimuthDeg: sunAzimuthDeg };
  const weather = { airC, absorbedW: absorbedSunW(checked, faces, sun, albedoRatio), windMPerS };
  let step: BoxStep = { skinC: airC, insideC: airC, convectionW: 0, radiationW: 0, ventW: 0 };
  for (let round = 0; round < 500; round += 1) {
    const next = thermalStep(checked, faces, step, weather, Number.POSITIVE_INFINITY);
    const moved = Math.abs(next.skinC - step.skinC) + Math.abs(next.insideC - step.insideC);
    // Half-way steps: rising air depends on the very difference it removes, and full steps swing.
    step = {
      ...next,
      skinC: (next.skinC + step.skinC) / 2,
      insideC: (next.insideC + step.insideC) / 2,
    };
    if (moved < 1e-9) break;
  }
  refuseHotterThanTheModel(step.insideC, 'box.powerW', checked.powerW);
  const riseK = step.insideC - airC;
  return {
    insideC: step.insideC,
    skinC: step.skinC,
    riseK,
    riseUncertaintyK: riseUncertainty * Math.abs(riseK),
    absorbedW: weather.absorbedW,
    convectionW: step.convectionW,
    radiationW: step.radiationW,
    ventW: step.ventW,
  };
}

/** Refuses a box that no longer is a box of electronics. */
export function refuseHotterThanTheModel(insideC: number, argument: string, powerW: number): void {
  if (insideC <= hottestC) return;
  const expected = `a power that keeps this box below ${hottestC} degrees Celsius inside (it would reach ${insideC.toFixed(0)})`;
  throw new InputError({ code: 'outside-validity', argument, received: powerW, expected });
}
