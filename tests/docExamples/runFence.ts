import { expect } from 'vitest';
import { type Fence, runnable } from './fences.js';
import { roundsTo } from './roundsTo.js';

/** Runs an example, and fails where a line of it does not say the truth. */
export async function runFence(fence: Fence): Promise<void> {
  const { javaScript, assertions } = runnable(fence);
  expect(assertions.length, 'an example must end some line in `// ≈ …` or `// → …`').toBeGreaterThan(0);
  const reached = new Set<number>();
  const body = new Function('load', 'nearly', 'same', `${javaScript}\nreturn example();`);
  await body(
    // Resolved from this file, so that the sources of the packages are taken and no build is needed.
    (specifier: string) => import(/* @vite-ignore */ specifier),
    (id: number, value: unknown) => {
      reached.add(id);
      const { line, wanted } = assertionOf(id);
      expect(
        roundsTo(value, wanted),
        `line ${line}: expected ≈ ${wanted}, got ${JSON.stringify(value)}`,
      ).toBe(true);
    },
    (id: number, value: unknown, wanted: unknown) => {
      reached.add(id);
      expect(value, `line ${assertionOf(id).line}`).toEqual(wanted);
    },
  );
  const missed = assertions.filter(({ id }) => !reached.has(id)).map(({ line }) => `line ${line}`);
  expect(missed, 'assertions that the example never came to').toEqual([]);

  function assertionOf(id: number): { readonly line: number; readonly wanted: string } {
    const found = assertions.find((assertion) => assertion.id === id);
    if (found === undefined) throw new Error(`no assertion ${id}`);
    return found;
  }
}
