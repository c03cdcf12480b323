import { celsiusToKelvin } from '@finial/units';
import type { BoxFace } from './boxFaces.js';
import type { CheckedEnclosure } from './Enclosure.js';
import { convection } from './surfaceConvection.js';

/** Temperatures of the two masses: walls and contents. */
export interface BoxState {
  readonly skinC: number;
  readonly insideC: number;
}

/** The weather around the box during one step. */
export interface BoxWeather {
  readonly airC: number;
  readonly absorbedW: number;
  readonly windMPerS: number;
}

/** A state one step later, and the heat that left during the step. */
export interface BoxStep extends BoxState {
  readonly convectionW: number;
  readonly radiationW: number;
  readonly ventW: number;
}

const stefanBoltzmann = 5.670374419e-8;
/** Boards and sheet metal see about a third of the wall area as hot surface: common practice, no source. */
const contentsView = 0.3;
const orificeDischarge = 0.6;

/**
 * One implicit step of the two-mass box; an infinite step gives the balance of the linearised box. Coefficients are taken at the old state, so that
 * what goes in equals what goes out plus what is stored to rounding, however long the step.
 */
export function thermalStep(
  box: CheckedEnclosure,
  faces: readonly BoxFace[],
  state: BoxState,
  weather: BoxWeather,
  stepSeconds: number,
): BoxStep {
  const { airC, absorbedW, windMPerS } = weather;
  const { skinC, insideC } = state;
  const outsideM2 = faces.reduce((sum, { areaM2 }) => sum + areaM2, 0);
  const skyM2 =
    (1 - box.shadeRatio) *
    faces.reduce(
      (sum, { areaM2, tiltDeg }) => sum + (areaM2 * (1 + Math.cos((tiltDeg * Math.PI) / 180))) / 2,
      0,
    );
  const skyC = clearSkyC(airC);
  const toAir = outsideM2 * convection(skinC, airC, box.heightM, windMPerS);
  const toSky = box.emissivityRatio * skyM2 * radiative(skinC, skyC);
  const toGround = box.emissivityRatio * (outsideM2 - skyM2) * radiative(skinC, airC);
  const within = insideConductance(box, state);
  const vent = ventConductance(box, insideC, airC);

  const wall = box.wallJPerK / stepSeconds;
  const contents = box.contentsJPerK / stepSeconds;
  const skinSum = wall + toAir + toSky + toGround + within;
  const skinSource = wall * skinC + (toAir + toGround) * airC + toSky * skyC + absorbedW;
  const insideSum = contents + within + vent;
  const insideSource = contents * insideC + vent * airC + box.powerW;
  const determinant = skinSum * insideSum - within * within;
  const skin = (skinSource * insideSum + within * insideSource) / determinant;
  const inside = (insideSource * skinSum + within * skinSource) / determinant;
  return {
    skinC: skin,
    insideC: inside,
    convectionW: toAir * (skin - airC),
    radiationW: toSky * (skin - skyC) + toGround * (skin - airC),
    ventW: vent * (inside - airC),
  };
}

/** Watts per kelvin between contents and walls: air rising along them, and radiation. */
function insideConductance(box: CheckedEnclosure, { skinC, insideC }: BoxState): number {
  const { widthM, heightM, depthM } = box;
  const wallM2 = 2 * (widthM * heightM + widthM * depthM + heightM * depthM);
  return wallM2 * (convection(insideC, skinC, heightM, 0) + contentsView * 0.9 * radiative(insideC, skinC));
}

/** Watts per kelvin that air rising through two equal openings carries off. */
function ventConductance(box: CheckedEnclosure, insideC: number, airC: number): number {
  if (box.ventAreaM2 === 0) return 0;
  const air = celsiusToKelvin(airC);
  const drive = (9.80665 * box.heightM * Math.abs(insideC - airC)) / celsiusToKelvin(insideC);
  const density = 101325 / (287.05 * air);
  return density * 1007 * orificeDischarge * box.ventAreaM2 * Math.sqrt(drive);
}

/** Black-body coefficient between two temperatures: exact, not the tangent. */
function radiative(oneC: number, otherC: number): number {
  const one = celsiusToKelvin(oneC);
  const other = celsiusToKelvin(otherC);
  return stefanBoltzmann * (one ** 2 + other ** 2) * (one + other);
}

/** Radiant temperature of a clear sky: Swinbank 1963. */
function clearSkyC(airC: number): number {
  return 0.0552 * celsiusToKelvin(airC) ** 1.5 - 273.15;
}
