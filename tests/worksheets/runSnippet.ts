import { runFence } from '../docExamples/runFence.js';

/** Runs the code that a worksheet shows, with each of its statements checked. */
export async function runSnippet(code: string): Promise<void> {
  await runFence({ file: 'snippet.ts', line: 1, code });
}
