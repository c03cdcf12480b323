import type { Progress } from '../assembleDossier.js';
import type { Terminal } from './Terminal.js';

/** One line that is written over, on a terminal; nothing in a pipe. */
export function progressLine({ err, isTerminal }: Terminal): ((progress: Progress) => void) | undefined {
  if (!isTerminal) return undefined;
  return ({ step, doneRatio }) => {
    const filled = Math.round(doneRatio * 20);
    const bar = '█'.repeat(filled) + '░'.repeat(20 - filled);
    err(doneRatio < 1 ? `\r${bar} ${step.padEnd(16)}` : `\r${' '.repeat(40)}\r`);
  };
}
