import { InputError, isInputError } from '@finial/units';

/** Key of the plan that a refusal is about: as given, or made from the argument that was refused. */
type PlanKey = string | ((argument: string) => string);

/** Runs a piece of work, and lets its refusal name the place in the plan. A refusal that names a file keeps it. */
export function inPlan<Result>(key: PlanKey, work: () => Result): Result {
  try {
    return work();
  } catch (error) {
    throw renamed(error, key);
  }
}

/** The same for work that takes its time. */
export async function inPlanLater<Result>(key: PlanKey, work: () => Promise<Result>): Promise<Result> {
  try {
    return await work();
  } catch (error) {
    throw renamed(error, key);
  }
}

function renamed(error: unknown, key: PlanKey): unknown {
  if (!isInputError(error) || error.file !== undefined) return error;
  const { code, received, expected } = error;
  const argument = typeof key === 'string' ? key : key(error.argument);
  return new InputError({ code, argument, received, expected }, { cause: error });
}
