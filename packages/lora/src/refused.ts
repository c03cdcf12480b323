import { InputError, type InputErrorCode } from '@finial/units';

/** The refusal of an argument: of a number outside its range, or of something that is no number, unless another code is given. */
export function refused(
  argument: string,
  received: unknown,
  expected: string,
  code: InputErrorCode = Number.isFinite(received) ? 'out-of-range' : 'not-a-finite-number',
): InputError {
  return new InputError({ code, argument, received, expected });
}
