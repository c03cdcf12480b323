import { cholesky, choleskyInverse, zeros } from './choleskySolve.js';
import { type LawModel, lawLikelihood } from './lawLikelihood.js';

/** Inverse of the observed information: the parameters' covariance for independent frames; `undefined` where it is singular. */
export function covarianceOf(information: readonly Float64Array[]): Float64Array[] | undefined {
  const lower = cholesky(information);
  return lower === undefined ? undefined : choleskyInverse(lower);
}

/**
 * Standard errors of the parameters when frames of one spot go together; `undefined` below two spots.
 *
 * Source: sandwich of the inverse information around the sum of squared scores by spot, times g/(g-1) · (n-1)/(n-p), known as CR1
 * (from memory); tested against R's sandwich package. `countedParameters` is p.
 */
export function spotErrors(
  model: LawModel,
  parameters: Float64Array,
  spots: readonly string[],
  countedParameters: number,
): { readonly errors: Float64Array; readonly spotCount: number } | undefined {
  const size = parameters.length;
  const bySpot = new Map<string, Float64Array>();
  const { information } = lawLikelihood(model, parameters, (i, score) => {
    const name = spots[i] as string;
    const sum = bySpot.get(name) ?? new Float64Array(size);
    for (let j = 0; j < size; j += 1) sum[j] = (sum[j] as number) + (score[j] as number);
    bySpot.set(name, sum);
  });
  const bread = covarianceOf(information);
  const frames = model.frames.received.length;
  if (bySpot.size < 2 || bread === undefined || frames <= countedParameters) return undefined;
  const meat = zeros(size);
  for (const sum of bySpot.values()) {
    meat.forEach((row, j) => {
      for (let k = 0; k < size; k += 1) row[k] = (row[k] as number) + (sum[j] as number) * (sum[k] as number);
    });
  }
  const correction = ((bySpot.size / (bySpot.size - 1)) * (frames - 1)) / (frames - countedParameters);
  const errors = Float64Array.from(bread, (row) => Math.sqrt(correction * quadraticForm(meat, row)));
  return { errors, spotCount: bySpot.size };
}

/** Row · matrix · row. */
export function quadraticForm(matrix: readonly Float64Array[], row: ArrayLike<number>): number {
  let sum = 0;
  matrix.forEach((line, j) => {
    line.forEach((entry, k) => {
      sum += (row[j] as number) * entry * (row[k] as number);
    });
  });
  return sum;
}
