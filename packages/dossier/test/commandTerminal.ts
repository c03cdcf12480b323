import { run, type Terminal } from '../src/commandLine.js';

/** What a run of the command left behind. */
export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs the command and returns its exit code and what it wrote; the terminal may be changed, and may listen to standard error. */
export async function finial(
  words: readonly string[],
  changes: Partial<Terminal> & { readonly onErr?: (text: string) => void } = {},
): Promise<Ran> {
  let out = '';
  let err = '';
  const { onErr, ...terminal } = changes;
  const code = await run(words, {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
      onErr?.(text);
    },
    isTerminal: false,
    ...terminal,
  });
  return { code, out, err };
}

/** One refusal: a single line on standard error, nothing on standard output, no stack. */
export function refusalLine({ code, out, err }: Ran): string {
  const lines = err.trimEnd().split('\n');
  if (code !== 2 || out !== '' || lines.length !== 1) {
    throw new Error(`no plain refusal: exit code ${code}, ${JSON.stringify({ out, err })}`);
  }
  return lines[0] ?? '';
}
