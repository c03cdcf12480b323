import { expect } from 'vitest';
import type { ElevationFile } from '../../src/openElevation.js';

export function textFile(name: string, text: string): ElevationFile {
  return { name, bytes: new TextEncoder().encode(text) };
}

/** An HGT tile whose cell in a row and column has the height that a function says. */
export function hgtFile(
  name: string,
  side: number,
  heightAt: (row: number, column: number) => number,
): ElevationFile {
  const view = new DataView(new ArrayBuffer(side * side * 2));
  for (let row = 0; row < side; row++) {
    for (let column = 0; column < side; column++) {
      view.setInt16(2 * (row * side + column), heightAt(row, column));
    }
  }
  return { name, bytes: view.buffer };
}

/** Expects a promise to be refused with an InputError that has these members. */
export async function refused(promise: Promise<unknown>, members: Record<string, unknown>): Promise<void> {
  await expect(promise).rejects.toThrow(expect.objectContaining({ name: 'InputError', ...members }));
}
