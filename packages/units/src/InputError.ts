/**
 * Why an input was refused. The codes are part of the public interface: adding one is a minor change, renaming one a major.
 *
 * - `not-a-finite-number`: a number was wanted; something else, NaN or an infinity came
 * - `out-of-range`: a number outside what the quantity can be
 * - `outside-validity`: a number outside the stated validity of a model, which the caller may allow
 * - `unknown-option`: a name or key that is not in the list
 * - `wrong-type`: not the kind of value (text, object, list) that was wanted
 * - `missing`: a required value or file is not there
 * - `malformed-file`: the text or bytes of a file do not follow its format
 */
export type InputErrorCode =
  | 'not-a-finite-number'
  | 'out-of-range'
  | 'outside-validity'
  | 'unknown-option'
  | 'wrong-type'
  | 'missing'
  | 'malformed-file';

/** What an {@link InputError} is built from. */
export interface InputErrorDetail {
  /** Why the input was refused. */
  readonly code: InputErrorCode;
  /** Path of the argument, such as `frame.payloadBytes`, or the field of a file. */
  readonly argument: string;
  /** The value that came. */
  readonly received: unknown;
  /** What was wanted, in words: `more than 0 hertz`. */
  readonly expected: string;
  /** Name of the file, where the input came from one. */
  readonly file?: string | undefined;
  /** Line in the file, counted from 1. */
  readonly line?: number | undefined;
  /** Column in the line, counted from 1. */
  readonly column?: number | undefined;
}

// In the global symbol registry, so that two installed copies of this package recognise each other's errors.
const brand: symbol = /* @__PURE__ */ Symbol.for('@finial/InputError');

/**
 * The one error that the Finial packages throw for bad input.
 *
 * Its message names the argument, what was expected and what came: `frequencyHz: expected more than 0 hertz, got -1`.
 * Recognise it with {@link isInputError}, not with `instanceof`, which fails between two installed copies.
 *
 * @example What a refusal says
 * ```ts
 * import { InputError } from '@finial/units';
 *
 * const error = new InputError({
 *   code: 'out-of-range', argument: 'frequencyHz', received: -1, expected: 'more than 0 hertz',
 * });
 * error.message; // → 'frequencyHz: expected more than 0 hertz, got -1'
 * ```
 */
export class InputError extends RangeError {
  /** Always `InputError`, also where the class has another name after bundling. */
  override readonly name: 'InputError' = 'InputError';
  /** Why the input was refused. */
  // Declared, not defined: the constructor sets them, and definitions of their own would only make every bundle larger.
  declare readonly code: InputErrorCode;
  /** Path of the argument, or the field of a file. */
  declare readonly argument: string;
  /** The value that came. */
  declare readonly received: unknown;
  /** What was wanted, in words. */
  declare readonly expected: string;
  /** Name of the file, where the input came from one. */
  declare readonly file: string | undefined;
  /** Line in the file, counted from 1. */
  declare readonly line: number | undefined;
  /** Column in the line, counted from 1. */
  declare readonly column: number | undefined;

  constructor(detail: InputErrorDetail, options?: ErrorOptions) {
    super(messageOf(detail), options);
    Object.defineProperty(this, brand, { value: true });
    this.code = detail.code;
    this.argument = detail.argument;
    this.received = detail.received;
    this.expected = detail.expected;
    this.file = detail.file;
    this.line = detail.line;
    this.column = detail.column;
  }

  /**
   * The same refusal with the file (and, if known, the place in it) that the input came from.
   *
   * @example A parser that knows no file name lets its caller add it
   * ```ts
   * import { InputError } from '@finial/units';
   *
   * const error = new InputError({
   *   code: 'malformed-file', argument: 'rssi', received: 'x', expected: 'a number', line: 3,
   * });
   * error.at({ file: 'walk.csv' }).message; // → 'walk.csv (line 3): rssi: expected a number, got "x"'
   * ```
   */
  at(place: {
    readonly file?: string | undefined;
    readonly line?: number | undefined;
    readonly column?: number | undefined;
  }): InputError {
    return new InputError(
      {
        ...this,
        file: place.file ?? this.file,
        line: place.line ?? this.line,
        column: place.column ?? this.column,
      },
      { cause: this },
    );
  }
}

/**
 * Tells whether a caught value is an {@link InputError}, even one of another installed copy of this package.
 *
 * @example
 * ```ts
 * import { isInputError, wattToDbm } from '@finial/units';
 *
 * try {
 *   wattToDbm(-1);
 * } catch (error) {
 *   isInputError(error); // → true
 * }
 * ```
 */
export function isInputError(value: unknown): value is InputError {
  return typeof value === 'object' && value !== null && brand in value;
}

function messageOf({ argument, received, expected, file, line, column }: InputErrorDetail): string {
  const position = [line && `line ${line}`, column && `column ${column}`].filter(Boolean).join(', ');
  const place = file && position ? `${file} (${position})` : file || position;
  const parts = [place, argument, `expected ${expected}, got ${shown(received)}`];
  // Names may come out of the file that is refused.
  return parts.filter(Boolean).join(': ').slice(0, 1500);
}

/** The received value in one short line: a message never carries a whole file, nor a line break. */
function shown(value: unknown): string {
  const kind = typeof value;
  if (kind === 'string') {
    const text = JSON.stringify(value);
    return text.length > 60 ? `${text.slice(0, 58)}…"` : text;
  }
  if (kind === 'function' || kind === 'symbol') return `a ${kind}`;
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (kind === 'object' && value) return 'an object';
  return value === undefined ? 'nothing' : `${value}${kind === 'bigint' ? 'n' : ''}`;
}
