/** A complex number. */
export interface Complex {
  readonly real: number;
  readonly imaginary: number;
}

/** 1 + 0j. */
export const one: Complex = { real: 1, imaginary: 0 };

export function plus(a: Complex, b: Complex): Complex {
  return { real: a.real + b.real, imaginary: a.imaginary + b.imaginary };
}

export function minus(a: Complex, b: Complex): Complex {
  return { real: a.real - b.real, imaginary: a.imaginary - b.imaginary };
}

export function times(a: Complex, b: Complex): Complex {
  return {
    real: a.real * b.real - a.imaginary * b.imaginary,
    imaginary: a.real * b.imaginary + a.imaginary * b.real,
  };
}

/** The quotient; not finite where the divisor is zero, which the caller must look for. */
export function over(a: Complex, b: Complex): Complex {
  const size = b.real * b.real + b.imaginary * b.imaginary;
  return {
    real: (a.real * b.real + a.imaginary * b.imaginary) / size,
    imaginary: (a.imaginary * b.real - a.real * b.imaginary) / size,
  };
}

export function scaled(a: Complex, ratio: number): Complex {
  return { real: a.real * ratio, imaginary: a.imaginary * ratio };
}

export function polar(magnitude: number, angleRad: number): Complex {
  return { real: magnitude * Math.cos(angleRad), imaginary: magnitude * Math.sin(angleRad) };
}

export function magnitudeOf(a: Complex): number {
  return Math.hypot(a.real, a.imaginary);
}

export function isFiniteComplex(a: Complex): boolean {
  return Number.isFinite(a.real) && Number.isFinite(a.imaginary);
}
