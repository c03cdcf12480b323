import { InputError } from '@finial/units';

/** Text or bytes of UTF-8 as they come in: a file's stream, a response's body, a generator. */
export type TextChunks = AsyncIterable<string | Uint8Array>;

/** One line of a text, without its end. */
export interface TextLine {
  /** Counted from 1. */
  readonly line: number;
  readonly text: string;
}

/** A line beyond this is no line of a log but a file of another kind, and would be held in memory whole. */
const longestLine = 1_000_000;

/** True for what {@link textOfChunks} takes. */
export function isChunks(input: unknown): input is TextChunks {
  return typeof input === 'object' && input !== null && Symbol.asyncIterator in input;
}

/** The chunks as text; a byte order mark is dropped, and a character may lie across two chunks of bytes. */
export async function* textOfChunks(chunks: TextChunks, file: string): AsyncGenerator<string> {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  let first = true;
  for await (const chunk of chunks) {
    let text = decodedChunk(chunk, decoder, file);
    if (first && text !== '') {
      text = text.replace(/^\uFEFF/, '');
      first = false;
    }
    if (text !== '') yield text;
  }
  // Throws where the bytes end within a character.
  decodedChunk(undefined, decoder, file);
}

function decodedChunk(chunk: unknown, decoder: TextDecoder, file: string): string {
  if (typeof chunk === 'string') return chunk;
  if (chunk !== undefined && !(chunk instanceof Uint8Array)) {
    throw new InputError({
      code: 'wrong-type',
      argument: 'input',
      received: chunk,
      expected: 'chunks of text or of bytes (Uint8Array)',
      file,
    });
  }
  try {
    return chunk === undefined ? decoder.decode() : decoder.decode(chunk, { stream: true });
  } catch (cause) {
    throw new InputError(
      { code: 'malformed-file', argument: '', received: undefined, expected: 'bytes of UTF-8', file },
      { cause },
    );
  }
}

/** The lines of some chunks, in lots of one or more, whichever of the three line ends they have. */
export async function* linesOfChunks(chunks: TextChunks, file: string): AsyncGenerator<readonly TextLine[]> {
  let rest = '';
  let endsInReturn = false;
  let line = 0;
  for await (const text of textOfChunks(chunks, file)) {
    rest += text;
    // A line that comes in thousands of pieces must not be looked through anew with each of them.
    if (rest.length <= longestLine && !/[\r\n]/.test(text) && !endsInReturn) continue;
    endsInReturn = text.endsWith('\r');
    // A carriage return at the end may be the first half of a CRLF.
    const parts = rest.split(/\r\n|\n|\r(?!$)/);
    rest = parts.pop() ?? '';
    if (rest.length > longestLine) {
      throw new InputError({
        code: 'malformed-file',
        argument: '',
        received: rest.slice(0, 30),
        expected: `lines of at most ${longestLine} characters`,
        file,
        line: line + parts.length + 1,
      });
    }
    if (parts.length === 0) continue;
    const from = line + 1;
    line += parts.length;
    yield parts.map((part, index) => ({ line: from + index, text: part }));
  }
  const last = rest.replace(/\r$/, '');
  if (last !== '') yield [{ line: line + 1, text: last }];
}

/** The whole text of some chunks, up to a length. */
export async function wholeText(chunks: TextChunks, mostCharacters: number, file: string): Promise<string> {
  const parts: string[] = [];
  let length = 0;
  for await (const text of textOfChunks(chunks, file)) {
    parts.push(text);
    length += text.length;
    // One chunk beyond the limit is kept: the reader of the whole text refuses it in the usual words.
    if (length > mostCharacters) break;
  }
  return parts.join('');
}

/** The lines of a text. */
export function linesOfText(input: string): readonly TextLine[] {
  const lines = input.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  return lines.map((text, index) => ({ line: index + 1, text }));
}
