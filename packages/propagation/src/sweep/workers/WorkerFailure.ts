import { InputError, type InputErrorDetail, isInputError } from '@finial/units';

/** An error on its way from a worker. Copying the error itself would lose its class and its fields. */
export interface WorkerFailure {
  readonly name: string;
  readonly message: string;
  readonly stack: string | undefined;
  /** What an {@link InputError} is built from, where it was one. */
  readonly input: InputErrorDetail | undefined;
}

/** Takes an error apart, in the worker. */
export function failureOf(error: unknown): WorkerFailure {
  const { name, message, stack } = error instanceof Error ? error : new Error(String(error));
  return { name, message, stack, input: isInputError(error) ? detailOf(error) : undefined };
}

/** Puts it together again, on the thread that asked. */
export function errorOf({ name, message, stack, input }: WorkerFailure): Error {
  if (input !== undefined) return new InputError(input);
  const error = new Error(`a worker of the sweep failed: ${name}: ${message}`);
  // The place in the worker's code is what helps; that of this line helps nobody.
  if (stack !== undefined) error.stack = stack;
  return error;
}

function detailOf({ code, argument, received, expected, file, line, column }: InputError): InputErrorDetail {
  const isPlain = received === null || !['object', 'function', 'symbol'].includes(typeof received);
  return {
    code,
    argument,
    received: isPlain ? received : String(received),
    expected,
    file,
    line,
    column,
  };
}
