import { solveWires } from '../wires/solveWires.js';
import type { WireGround } from '../wires/Wire.js';
import type { WireSolution } from '../wires/WireSolution.js';

/** Radials of a vertical: how many, how long, how far down. */
export interface RadialSet {
  readonly radials: number;
  readonly lengthM: number;
  /** Usual length, from which the pieces are counted. */
  readonly nominalLengthM: number;
  readonly radiusM: number;
  readonly droopDeg: number;
}

/** A vertical rod fed at its foot, with lengths as measured on the metal. */
export interface VerticalRod {
  readonly frequencyHz: number;
  readonly wavelengthM: number;
  readonly radiusM: number;
  readonly lengthM: number;
  /** Usual length of such a rod, from which the pieces are counted: a count that followed the length would make the reactance jump. */
  readonly nominalLengthM: number;
  /** The radials, or undefined for a rod on perfect ground. */
  readonly radialSet: RadialSet | undefined;
  readonly outsideValidity: 'refuse' | 'allow';
}

/** Pieces per quarter wave: enough to come within 0.2 % of the length of many more, few enough for a search in milliseconds. */
const piecesPerQuarter = 14;

/** Currents on a vertical rod over radials or perfect ground. */
export function solveVertical(rod: VerticalRod): WireSolution {
  const foot = { xM: 0, yM: 0, zM: 0 };
  const { frequencyHz, radiusM, radialSet } = rod;
  const top = { ...foot, zM: rod.lengthM };
  const vertical = {
    start: foot,
    end: top,
    radiusM,
    segments: pieces(rod.nominalLengthM, radiusM, rod.wavelengthM),
  };
  const settings = {
    frequencyHz,
    source: { wire: 0, positionRatio: 0 },
    outsideValidity: rod.outsideValidity,
  };
  if (radialSet === undefined) {
    const ground: WireGround = 'perfect';
    return solveWires([vertical], { ...settings, ground });
  }
  const reachM = radialSet.lengthM;
  const droop = (radialSet.droopDeg * Math.PI) / 180;
  const flatM = reachM * Math.cos(droop);
  const wires = Array.from({ length: radialSet.radials }, (_, index) => {
    const azimuth = (2 * Math.PI * index) / radialSet.radials;
    const end = {
      xM: flatM * Math.cos(azimuth),
      yM: flatM * Math.sin(azimuth),
      zM: -reachM * Math.sin(droop),
    };
    return {
      start: foot,
      end,
      radiusM: radialSet.radiusM,
      segments: pieces(radialSet.nominalLengthM, radialSet.radiusM, rod.wavelengthM),
    };
  });
  return solveWires([vertical, ...wires], settings);
}

/** Equal pieces for a length: about fourteen per quarter wave, and at half that length still longer than the solver's least. */
export function pieces(nominalLengthM: number, radiusM: number, wavelengthM: number): number {
  const wanted = Math.ceil((piecesPerQuarter * 4 * nominalLengthM) / wavelengthM - 1e-9);
  return Math.max(3, Math.min(wanted, Math.floor(nominalLengthM / (3.4 * radiusM))));
}
