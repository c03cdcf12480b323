import { checkObject, checkOneOf, checkPositive, InputError } from '@finial/units';

/** How to read a table, whatever its rows are. */
export interface ReadTableOptions {
  /** Name of the file, for messages. @defaultValue what is read: `'survey'`, `'uplinks'`, `'track'` */
  readonly file?: string | undefined;
  /** `'throw'` at the first bad row, or `'skip'` it and list it. @defaultValue `'throw'` */
  readonly onBadRow?: 'throw' | 'skip' | undefined;
  /** One character between the fields of CSV. @defaultValue comma, semicolon, tab or bar, as the header line shows */
  readonly separator?: string | undefined;
  /** Lines of CSV that begin with this are passed over. @defaultValue none */
  readonly commentPrefix?: string | undefined;
  /** Decimal mark of the numbers in CSV. @defaultValue `'.'` */
  readonly decimal?: '.' | ',' | undefined;
  /** Longest text that is read whole, in characters. @defaultValue 32 million, some 300 000 frames */
  readonly maximumCharacters?: number | undefined;
}

/** The options with their defaults, checked. */
export interface TableSettings {
  readonly file: string;
  readonly onBadRow: 'throw' | 'skip';
  readonly separator: string | undefined;
  readonly commentPrefix: string | undefined;
  readonly decimal: '.' | ',';
  readonly maximumCharacters: number;
}

/** Refuses options that no table can be read with. */
export function tableSettings(options: ReadTableOptions, defaultFile: string): TableSettings {
  const { file = defaultFile, maximumCharacters = 32_000_000 } = checkObject(options, 'options');
  const { onBadRow = 'throw', decimal = '.', separator, commentPrefix } = options;
  if (typeof file !== 'string') {
    throw new InputError({ code: 'wrong-type', argument: 'file', received: file, expected: 'a name' });
  }
  checkPositive(maximumCharacters, 'maximumCharacters', 'characters');
  checkOneOf(onBadRow, 'onBadRow', ['throw', 'skip']);
  checkOneOf(decimal, 'decimal', ['.', ',']);
  checkSeparator(separator);
  checkCommentPrefix(commentPrefix);
  return { file, onBadRow, separator, commentPrefix, decimal, maximumCharacters };
}

function checkSeparator(separator: unknown): void {
  if (separator === undefined) return;
  if (typeof separator === 'string' && /^[^"\r\n\p{L}\p{N}]$/u.test(separator)) return;
  throw new InputError({
    code: 'unknown-option',
    argument: 'separator',
    received: separator,
    expected: 'one character that is no letter, digit, quote or line end',
  });
}

function checkCommentPrefix(commentPrefix: unknown): void {
  if (commentPrefix === undefined) return;
  if (typeof commentPrefix === 'string' && /^[^"\s]+$/.test(commentPrefix)) return;
  throw new InputError({
    code: 'unknown-option',
    argument: 'commentPrefix',
    received: commentPrefix,
    expected: 'a sign such as #',
  });
}

/** Refuses what is no text, too long a text, and an empty one. */
export function checkText(
  input: unknown,
  { maximumCharacters, file }: TableSettings,
  expected: string,
): string {
  if (typeof input !== 'string') {
    throw new InputError({ code: 'wrong-type', argument: 'input', received: input, expected: 'a text' });
  }
  if (input.length > maximumCharacters) {
    throw new InputError({
      code: 'out-of-range',
      argument: 'input.length',
      received: input.length,
      expected: `at most ${maximumCharacters} characters (maximumCharacters)`,
      file,
    });
  }
  if (input.trim() === '') {
    throw new InputError({ code: 'malformed-file', argument: '', received: undefined, expected, file });
  }
  return input;
}
