import { checkObject, checkOneOf, checkRange, frequencyHints, type RangeBounds } from '@finial/units';

/** A building material whose electrical constants the Recommendation lists. */
export type SlabMaterial = 'brick' | 'concrete' | 'plasterboard' | 'wood' | 'glass' | 'chipboard';

/** One layer of a wall. */
export interface Slab {
  /** What it is made of. */
  readonly material: SlabMaterial;
  /** How thick it is, in metres, 0.001 to 2. */
  readonly thicknessM: number;
}

/** A layer at a frequency. */
export interface SlabQuestion extends Slab {
  /** Frequency in hertz, 1e9 to 10e9: there the constants of all these materials are stated. */
  readonly frequencyHz: number;
}

interface SlabConstants {
  /** Real part of the relative permittivity; none of these materials changes it with frequency. */
  readonly permittivity: number;
  /** Conductivity in S/m at 1 GHz. */
  readonly conductivity: number;
  /** How its logarithm grows with that of the frequency. */
  readonly exponent: number;
}

/** Recommendation ITU-R P.2040-1, table 3. Later editions changed them: concrete to 5.24, 0.0462, 0.7822 (from memory). */
const constants: Readonly<Record<SlabMaterial, SlabConstants>> = {
  brick: { permittivity: 3.75, conductivity: 0.038, exponent: 0 },
  concrete: { permittivity: 5.31, conductivity: 0.0326, exponent: 0.8095 },
  plasterboard: { permittivity: 2.94, conductivity: 0.0116, exponent: 0.7076 },
  wood: { permittivity: 1.99, conductivity: 0.0047, exponent: 1.0718 },
  glass: { permittivity: 6.27, conductivity: 0.0043, exponent: 1.1925 },
  chipboard: { permittivity: 2.58, conductivity: 0.0217, exponent: 0.78 },
};
const slabMaterials: readonly SlabMaterial[] = [
  'brick',
  'concrete',
  'plasterboard',
  'wood',
  'glass',
  'chipboard',
];

const speedOfLight = 299_792_458;
/** The Recommendation's own rounding of 1 / (2 pi e0) for S/m and GHz, kept because its figures rest on it (exact: 17.975). */
const lossPartPerSiemens = 17.98;
const wifiBounds = { min: 1e9, max: 10e9, unit: 'hertz', hints: frequencyHints };
export const thicknessBounds: RangeBounds = {
  min: 0.001,
  max: 2,
  unit: 'metres',
  hints: [{ name: 'millimetres', ratio: 0.001 }],
};

/**
 * Loss of a wave that goes straight through one flat layer in air, in dB. Positive means loss.
 *
 * Reflections between the two faces are in it, so it ripples by 3 dB either way with thickness and frequency; a real wall of bricks,
 * cavities and studs smooths that out. Steel in concrete, foil on insulation and metal-coated glass are not in it: coated glass alone costs 20 to
 * 30 dB (common practice, no source). At a slant the loss grows. Layers in a row add up only roughly.
 *
 * @returns loss in dB; the model's arithmetic is exact to 1e-9 dB, real walls differ by 3 dB and more
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number` or `out-of-range`
 * @source Recommendation ITU-R P.2040-1, table 3 (constants, reproduced on a public page) and the single-slab method at normal incidence
 * @example A concrete wall, 20 cm, for Wi-Fi
 * ```ts
 * import { slabLossDb } from '@finial/site';
 *
 * slabLossDb({ material: 'concrete', thicknessM: 0.2, frequencyHz: 2.437e9 }); // ≈ 11.14
 * ```
 */
export function slabLossDb(slab: SlabQuestion): number {
  checkObject(slab, 'slab');
  const material = checkOneOf(slab.material, 'material', slabMaterials);
  const thicknessM = checkRange(slab.thicknessM, 'thicknessM', thicknessBounds);
  const frequencyHz = checkRange(slab.frequencyHz, 'frequencyHz', wifiBounds);
  const { permittivity, conductivity, exponent } = constants[material];
  const conductivitySPerM = conductivity * (frequencyHz / 1e9) ** exponent;
  const lossPart = (lossPartPerSiemens * conductivitySPerM) / (frequencyHz / 1e9);
  return (
    -20 *
    Math.log10(
      slabTransmission(permittivity, lossPart, (2 * Math.PI * thicknessM * frequencyHz) / speedOfLight),
    )
  );
}

/**
 * Magnitude of (1 - R²) e^(-jq) / (1 - R² e^(-2jq)) with R = (1 - n)/(1 + n), q = n k d and the index n = sqrt(e' - je'').
 * R and q are written out in their real and imaginary parts.
 */
function slabTransmission(permittivity: number, lossPart: number, waveDepthRad: number): number {
  const size = Math.hypot(permittivity, lossPart);
  const nReal = Math.sqrt((size + permittivity) / 2);
  const nImaginary = -lossPart / (2 * nReal);
  const below = (1 + nReal) ** 2 + nImaginary ** 2;
  const rReal = (1 - nReal ** 2 - nImaginary ** 2) / below;
  const rImaginary = (-2 * nImaginary) / below;
  const squareReal = rReal ** 2 - rImaginary ** 2;
  const squareImaginary = 2 * rReal * rImaginary;
  const once = Math.exp(nImaginary * waveDepthRad);
  const turn = 2 * nReal * waveDepthRad;
  const backReal = once ** 2 * Math.cos(turn);
  const backImaginary = -(once ** 2) * Math.sin(turn);
  const loopReal = 1 - (squareReal * backReal - squareImaginary * backImaginary);
  const loopImaginary = -(squareReal * backImaginary + squareImaginary * backReal);
  return (Math.hypot(1 - squareReal, squareImaginary) * once) / Math.hypot(loopReal, loopImaginary);
}
