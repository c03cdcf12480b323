import { speedOfLightMPerS } from '@finial/radio';

/** Impedance per metre of wire; both parts of one number, in ohms per metre. */
export interface ImpedancePerMetre {
  readonly resistanceOhmPerM: number;
  readonly reactanceOhmPerM: number;
}

const vacuumPermeability = 4e-7 * Math.PI;

/** Wave impedance of vacuum in ohms: μ0 · c, with μ0 = 4π · 1e-7, which the SI of 2019 leaves true to 1e-9. */
export const waveImpedanceOhm: number = vacuumPermeability * speedOfLightMPerS;

/**
 * Impedance inside a round, non-magnetic wire, per metre: q/(2πaσ) · I0(qa)/I1(qa) with q = √(jωμσ). The ratio of Bessel
 * functions comes from its continued fraction, or from its series for a large argument, where skin depth is far below radius.
 */
export function surfaceImpedance(wire: {
  readonly frequencyHz: number;
  readonly radiusM: number;
  readonly conductivitySPerM: number;
}): ImpedancePerMetre {
  const { frequencyHz, radiusM, conductivitySPerM } = wire;
  const perMetre = Math.sqrt(Math.PI * frequencyHz * vacuumPermeability * conductivitySPerM);
  const [real, imaginary] = besselRatio(perMetre * radiusM);
  const scale = perMetre / (2 * Math.PI * radiusM * conductivitySPerM);
  return { resistanceOhmPerM: scale * (real - imaginary), reactanceOhmPerM: scale * (real + imaginary) };
}

/** I0(w)/I1(w) at w = (1 + j) · size. */
function besselRatio(size: number): readonly [number, number] {
  // 1/w = (1 - j) / (2 size)
  const inverse = 1 / (2 * size);
  if (size > 30) {
    // 1 + 1/(2w) + 3/(8w²) + 3/(8w³), 1/w² = -2j inverse², 1/w³ = -2(1 + j) inverse³
    const cube = inverse ** 3;
    return [1 + inverse / 2 - 0.75 * cube, -inverse / 2 - 0.75 * inverse ** 2 - 0.75 * cube];
  }
  // 2/w + 1/(4/w + 1/(6/w + ...)), from the inside out; so deep that the next term is below rounding
  let real = 0;
  let imaginary = 0;
  for (let term = 40 + Math.ceil(3 * size); term >= 1; term--) {
    const a = real + 2 * term * inverse;
    const b = imaginary - 2 * term * inverse;
    if (term === 1) return [a, b];
    const square = a * a + b * b;
    real = a / square;
    imaginary = -b / square;
  }
  return [real, imaginary];
}
