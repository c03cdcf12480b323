import { expect } from 'vitest';

/** Passes when `got` lies within `tolerance` of `want`; the message shows both. */
export function expectNear(got: number, want: number, tolerance: number): void {
  expect(Math.abs(got - want), `got ${got}, want ${want} ± ${tolerance}`).toBeLessThanOrEqual(tolerance);
}

/** Half a unit of the last printed decimal: as far as a rounded figure can be from the exact one. */
export function half(decimals: number): number {
  // A published figure that ends in 5 may have been rounded either way: a hair is added for the binary fraction.
  return 0.5 * 10 ** -decimals + 1e-12;
}

/** Every number found anywhere in a result, with its path. */
export function numbersIn(value: unknown, path = ''): [path: string, value: number][] {
  if (typeof value === 'number') return [[path, value]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    numbersIn(inner, path === '' ? key : `${path}.${key}`),
  );
}
