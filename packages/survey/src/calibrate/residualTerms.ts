import { checkList, checkObject, checkRange, InputError } from '@finial/units';
import { censoredRegression } from './censoredRegression.js';
import { heardSpots, type PredictedLevels } from './predictedLevels.js';
import { studentProbability } from './studentDistribution.js';

/** How far one column of the caller explains the errors of a prediction. */
export interface ResidualTerm {
  /** Name of the column, as the caller gave it. */
  readonly name: string;
  /** Change of the error (predicted minus measured) in dB for one unit of the column. */
  readonly coefficientDb: number;
  /** Standard error of the coefficient in dB, by spots. */
  readonly standardErrorDb: number;
  /** Probability of a coefficient at least so far from zero if the column explained nothing. */
  readonly chanceProbability: number;
  /** The same after as many columns as were tried (Holm): with twenty columns, one in twenty looks good by chance. */
  readonly adjustedChanceProbability: number;
  /** Share of the errors' variance that the column takes away, 0 to 1. */
  readonly explainedRatio: number;
}

/** Refuses columns that do not hold one number per observation. */
export function checkTerms(terms: Readonly<Record<string, readonly number[]>>, frames: number): void {
  for (const [name, column] of Object.entries(checkObject(terms, 'terms'))) {
    const argument = `terms.${name}`;
    if (checkList(column, argument).length !== frames) {
      throw new InputError({
        code: 'out-of-range',
        argument: `${argument}.length`,
        received: column.length,
        expected: `one number for each of the ${frames} observations`,
      });
    }
    column.forEach((value, i) => {
      checkRange(value, `${argument}[${i}]`, { min: -1e9, max: 1e9, unit: 'the column' });
    });
  }
}

/** Each column by itself against the errors, the one that explains most first; columns that do not vary are left out. */
export function residualTerms(
  levels: PredictedLevels,
  terms: Readonly<Record<string, readonly number[]>>,
): readonly ResidualTerm[] {
  const { predictedDbm, levelDbm, missed, weights, spotOf, places } = levels;
  const degreesOfFreedom = heardSpots(levels).size - 2;
  if (degreesOfFreedom < 1) return [];
  const ones = predictedDbm.map(() => 1);
  const rows = {
    y: levelDbm.map((level, i) => level - (predictedDbm[i] as number)),
    missed,
    weights,
    spots: spotOf,
  };
  const alone = censoredRegression({ ...rows, columns: [ones] });
  const found = Object.entries(terms).flatMap(
    ([name, column]): Omit<ResidualTerm, 'adjustedChanceProbability'>[] => {
      const values = Float64Array.from(places, (place) => column[place] as number);
      const { mean, deviation } = spreadOf(values, weights);
      if (!(deviation > 0)) return [];
      const scaled = values.map((value) => (value - mean) / deviation);
      const fit = censoredRegression({ ...rows, columns: [ones, scaled] });
      if (fit === undefined || alone === undefined || !(alone.sigma > 0)) return [];
      const [, slope = 0] = fit.coefficients;
      const standardError = Math.sqrt(fit.covariance[1]?.[1] ?? 0);
      const chanceProbability =
        standardError > 0 ? studentProbability(slope / standardError, degreesOfFreedom) : slope === 0 ? 1 : 0;
      return [
        {
          name,
          coefficientDb: slope === 0 ? 0 : -slope / deviation,
          standardErrorDb: standardError / deviation,
          chanceProbability,
          explainedRatio: Math.max(0, 1 - (fit.sigma / alone.sigma) ** 2),
        },
      ];
    },
  );
  return adjusted(found).sort((one, other) => other.explainedRatio - one.explainedRatio);
}

/** Holm's adjustment: S. Holm, Scandinavian Journal of Statistics 6 (1979) 65 (from memory). */
function adjusted(terms: readonly Omit<ResidualTerm, 'adjustedChanceProbability'>[]): ResidualTerm[] {
  let least = 0;
  return [...terms]
    .sort((one, other) => one.chanceProbability - other.chanceProbability)
    .map((term, index, all) => {
      least = Math.max(least, Math.min(1, term.chanceProbability * (all.length - index)));
      return { ...term, adjustedChanceProbability: least };
    });
}

function spreadOf(values: Float64Array, weights: Float64Array): { mean: number; deviation: number } {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = values.reduce((sum, value, i) => sum + value * (weights[i] as number), 0) / total;
  const squares = values.reduce((sum, value, i) => sum + (value - mean) ** 2 * (weights[i] as number), 0);
  return { mean, deviation: Math.sqrt(squares / total) };
}
