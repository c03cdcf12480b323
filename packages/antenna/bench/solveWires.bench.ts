import { describe, expect, test } from 'vitest';
import { type SolveWiresSettings, solveWires, type Wire } from '../src/index.js';
import { solveComplexInPlace } from '../src/wires/complexLu.js';

const count = 300;

interface Complex {
  readonly re: number;
  readonly im: number;
}

/** Park-Miller generator, so that every run sees the same matrix. */
function randomNumbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647 - 0.5;
  };
}

const random = randomNumbers(20_240_229);
const matrix = Float64Array.from({ length: 2 * count * count }, random);
const right = Float64Array.from({ length: 2 * count }, random);

/** Elimination as a textbook has it, on lists of complex numbers: what the solver's own is measured against. */
function byTheBook(): Complex[] {
  const at = (values: Float64Array, index: number): Complex => ({
    re: values[2 * index] as number,
    im: values[2 * index + 1] as number,
  });
  const a = Array.from({ length: count }, (_, row) =>
    Array.from({ length: count }, (_, column) => at(matrix, row * count + column)),
  );
  const b = Array.from({ length: count }, (_, row) => at(right, row));
  for (let k = 0; k < count; k++) {
    let pivot = k;
    for (let i = k + 1; i < count; i++) if (size(a[i]?.[k]) > size(a[pivot]?.[k])) pivot = i;
    [a[k], a[pivot]] = [a[pivot] as Complex[], a[k] as Complex[]];
    [b[k], b[pivot]] = [b[pivot] as Complex, b[k] as Complex];
    const top = a[k] as Complex[];
    for (let i = k + 1; i < count; i++) {
      const row = a[i] as Complex[];
      const factor = divide(row[k] as Complex, top[k] as Complex);
      for (let j = k + 1; j < count; j++)
        row[j] = subtract(row[j] as Complex, times(factor, top[j] as Complex));
      b[i] = subtract(b[i] as Complex, times(factor, b[k] as Complex));
    }
  }
  for (let i = count - 1; i >= 0; i--) {
    const row = a[i] as Complex[];
    for (let j = i + 1; j < count; j++)
      b[i] = subtract(b[i] as Complex, times(row[j] as Complex, b[j] as Complex));
    b[i] = divide(b[i] as Complex, row[i] as Complex);
  }
  return b;
}

function size(a: Complex | undefined): number {
  return a === undefined ? 0 : a.re * a.re + a.im * a.im;
}

function times(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

function subtract(a: Complex, b: Complex): Complex {
  return { re: a.re - b.re, im: a.im - b.im };
}

function divide(a: Complex, b: Complex): Complex {
  const square = size(b);
  return { re: (a.re * b.re + a.im * b.im) / square, im: (a.im * b.re - a.re * b.im) / square };
}

function byTheSolver(): Float64Array {
  const solution = right.slice();
  if (!solveComplexInPlace(matrix.slice(), solution, count)) throw new Error('the matrix is singular');
  return solution;
}

/** Four rods of 75 unknowns each over ground: every pair of segments twice. */
const wires: readonly Wire[] = [0, 1, 2, 3].map((index) => ({
  start: { xM: 0.12 * index, yM: 0, zM: 0.1 },
  end: { xM: 0.12 * index, yM: 0.02 * index, zM: 0.5 },
  radiusM: 0.001,
  segments: 76,
}));
const settings: SolveWiresSettings = {
  frequencyHz: 868.1e6,
  ground: 'perfect',
  source: { wire: 1, positionRatio: 0.5 },
};

describe('solveWires', () => {
  test('elimination with 300 unknowns, against a textbook loop', async ({ bench }) => {
    const [own, book] = [byTheSolver(), byTheBook()];
    for (const [index, { re, im }] of book.entries()) {
      expect(own[2 * index]).toBeCloseTo(re, 8);
      expect(own[2 * index + 1]).toBeCloseTo(im, 8);
    }
    const options = { time: 800, warmupTime: 200, iterations: 3 };
    const result = await bench.compare(
      bench('by the book', () => void byTheBook()),
      bench('solveComplexInPlace', () => void byTheSolver()),
      options,
    );
    const ratio =
      result.get('solveComplexInPlace').throughput.mean / result.get('by the book').throughput.mean;
    console.log(`elimination runs at ${ratio.toFixed(2)} times the speed of the textbook loop`);
    expect(ratio).toBeGreaterThan(1.5);
  });

  test('300 unknowns over ground from wires to powers, against the elimination by the book', async ({
    bench,
  }) => {
    expect(solveWires(wires, settings).unknownsCount).toBe(count);
    const options = { time: 800, warmupTime: 200, iterations: 3 };
    const result = await bench.compare(
      bench('by the book, elimination only', () => void byTheBook()),
      bench('solveWires', () => void solveWires(wires, settings)),
      options,
    );
    const seconds = 1 / result.get('solveWires').throughput.mean;
    const ratio =
      result.get('solveWires').throughput.mean / result.get('by the book, elimination only').throughput.mean;
    console.log(
      `solveWires with 300 unknowns takes ${seconds.toFixed(3)} s, ${ratio.toFixed(2)} times as fast as the elimination by the book`,
    );
    expect(ratio).toBeGreaterThan(0.5);
  });
});
