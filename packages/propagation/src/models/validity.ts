import { checkOneOf, checkRange, InputError, type RangeBounds } from '@finial/units';

/** What to do with a number outside the range that a model was made for. */
export type OutsideValidity = 'refuse' | 'allow';

/** A number that a model takes: what it can be at all, and where the model was made to hold. */
export interface ModelRange {
  /** What the quantity can be; never left. */
  readonly possible: RangeBounds;
  /** Least value that the model was made for, in the same unit. */
  readonly min: number;
  /** Greatest value that the model was made for, in the same unit. */
  readonly max: number;
}

/** Checks the inputs of one call of a model, and keeps what was allowed although it lies outside. */
export interface ValidityCheck {
  /** Returns the number, or throws `outside-validity` unless that is allowed. */
  readonly within: (value: unknown, argument: string, range: ModelRange) => number;
  /** One line for each number that was allowed outside. */
  readonly warnings: string[];
}

export function validityCheck(outsideValidity: OutsideValidity = 'refuse'): ValidityCheck {
  const choice = checkOneOf(outsideValidity, 'outsideValidity', ['refuse', 'allow']);
  const warnings: string[] = [];
  const within: ValidityCheck['within'] = (value, argument, { possible, min, max }) => {
    const number = checkRange(value, argument, possible);
    if (number >= min && number <= max) return number;
    const expected = `${min} to ${max} ${possible.unit}, for which the model was made`;
    if (choice === 'refuse') {
      throw new InputError({
        code: 'outside-validity',
        argument,
        received: number,
        expected: `${expected}; outsideValidity: 'allow' computes it all the same`,
      });
    }
    warnings.push(`${argument} is ${number}: expected ${expected}`);
    return number;
  };
  return { within, warnings };
}
