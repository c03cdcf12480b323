import { checkObject, checkOneOf, checkRange } from '@finial/units';
import { type BoxShape, checkedShape } from './effectiveAreaM2.js';
import { type BoxColour, solarAbsorptivityRatios } from './solarAbsorptivity.js';

/** An outdoor box and what is in it. */
export interface Enclosure extends BoxShape {
  /** Direction that the front looks at in degrees, clockwise from north, -360 to 360; the back of a wall box is opposite. */
  readonly faceAzimuthDeg: number;
  /** Power in watts that the electronics turn to heat, averaged over an hour, 0 to 200. */
  readonly powerW: number;
  /** Finish, whose absorptivity is from memory (±0.1); leave out where `absorptivityRatio` is known. One of the two is wanted. */
  readonly colour?: BoxColour | undefined;
  /** Share of sunshine that the finish takes up, 0 to 1, from a data sheet. */
  readonly absorptivityRatio?: number | undefined;
  /**
   * Emissivity of the outside in the thermal infrared, 0.02 to 1. Bare bright metal 0.05 to 0.2, any paint or plastic about 0.9.
   *
   * @defaultValue 0.9
   */
  readonly emissivityRatio?: number | undefined;
  /**
   * Share of sun, sky and reflected light that an awning with free air behind it keeps off, 0 to 1. It hides the night sky by as much.
   *
   * @defaultValue 0
   */
  readonly shadeRatio?: number | undefined;
  /**
   * Free area in square metres of the opening at the bottom, with one as large at the top, 0 to 0.1; an insect mesh halves it.
   *
   * @defaultValue 0 (sealed)
   */
  readonly ventAreaM2?: number | undefined;
  /**
   * Heat capacity in joules per kelvin of the walls, 1 to 1e6.
   *
   * @defaultValue 5000 per square metre of wall: 3 mm of plastic or 1.5 mm of steel
   */
  readonly wallJPerK?: number | undefined;
  /**
   * Heat capacity in joules per kelvin of boards and whatever else is inside, 1 to 1e6.
   *
   * @defaultValue 500: about 0.6 kg of electronics
   */
  readonly contentsJPerK?: number | undefined;
}

/** An enclosure with everything filled in. */
export interface CheckedEnclosure extends BoxShape {
  readonly faceAzimuthDeg: number;
  readonly powerW: number;
  readonly absorptivityRatio: number;
  readonly absorptivityIsKnown: boolean;
  readonly emissivityRatio: number;
  readonly shadeRatio: number;
  readonly ventAreaM2: number;
  readonly wallJPerK: number;
  readonly contentsJPerK: number;
}

const ratio = { min: 0, max: 1, unit: '(a ratio)' };

/** The box with its defaults, each number within its range. */
export function checkedEnclosure(box: Enclosure, argument: string): CheckedEnclosure {
  checkObject(box, argument);
  checkedShape(box, argument);
  const { widthM, heightM, depthM, mounting, faceAzimuthDeg, powerW } = box;
  const wallM2 = 2 * (widthM * heightM + widthM * depthM + heightM * depthM);
  const { emissivityRatio = 0.9, shadeRatio = 0, ventAreaM2 = 0 } = box;
  const { wallJPerK = Math.max(1, 5000 * wallM2), contentsJPerK = 500 } = box;
  checkRange(faceAzimuthDeg, `${argument}.faceAzimuthDeg`, { min: -360, max: 360, unit: 'degrees' });
  checkRange(powerW, `${argument}.powerW`, { min: 0, max: 200, unit: 'watts' });
  checkRange(emissivityRatio, `${argument}.emissivityRatio`, { ...ratio, min: 0.02 });
  checkRange(shadeRatio, `${argument}.shadeRatio`, ratio);
  checkRange(ventAreaM2, `${argument}.ventAreaM2`, { min: 0, max: 0.1, unit: 'square metres' });
  const capacity = { min: 1, max: 1e6, unit: 'joules per kelvin' };
  checkRange(wallJPerK, `${argument}.wallJPerK`, capacity);
  checkRange(contentsJPerK, `${argument}.contentsJPerK`, capacity);
  return {
    widthM,
    heightM,
    depthM,
    mounting,
    faceAzimuthDeg,
    powerW,
    absorptivityRatio: absorptivityOf(box, argument),
    absorptivityIsKnown: box.absorptivityRatio !== undefined,
    emissivityRatio,
    shadeRatio,
    ventAreaM2,
    wallJPerK,
    contentsJPerK,
  };
}

function absorptivityOf({ colour, absorptivityRatio }: Enclosure, argument: string): number {
  if (absorptivityRatio !== undefined) {
    if (colour !== undefined) checkOneOf(colour, `${argument}.colour`, colours());
    return checkRange(absorptivityRatio, `${argument}.absorptivityRatio`, ratio);
  }
  return solarAbsorptivityRatios[checkOneOf(colour, `${argument}.colour`, colours())];
}

function colours(): readonly BoxColour[] {
  return Object.keys(solarAbsorptivityRatios) as BoxColour[];
}
