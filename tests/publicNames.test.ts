import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { nameSaysItsUnit, unnamedNumbers } from './publicNames/unnamedNumbers.js';
import { compilerOptions, programOfEntryPoints, workspacePackages } from './support/workspace.js';

const packages = workspacePackages();
const program = programOfEntryPoints(packages);

describe('every public number says its unit', () => {
  test.each(packages.map(({ shortName, entryPoints }) => [shortName, entryPoints] as const))(
    '%s',
    (_, entryPoints) => {
      expect(entryPoints.flatMap(({ file }) => unnamedNumbers(program, file))).toEqual([]);
    },
  );
});

// The check itself: a test that cannot fail proves nothing.
describe('the check', () => {
  test.each([
    'frequencyHz',
    'powersDbm',
    'hz',
    'ratio',
    'axialRatio',
    'minimumDataRate',
    'dataRate',
    'vswr',
    'payloadBytes',
    'fieldDbuvPerM',
    'latitudeDeg',
    'frameCounter',
  ])('%s is a name', (name) => {
    expect(nameSaysItsUnit(name)).toBe(true);
  });

  test.each([
    'frequency',
    'frequencyMHz',
    'timeMs',
    'distanceKm',
    'RSSI',
    'gainDB',
    'lossdb',
    'value',
    'xK2',
    'separation',
    'minimum',
    'deadline',
  ])('%s is no name', (name) => {
    expect(nameSaysItsUnit(name)).toBe(false);
  });

  test('finds numbers wherever they hide', () => {
    const text = `
      interface Shape { readonly size: number; readonly widthM: number; readonly inner: { readonly depth?: number | undefined } }
      interface Loop { readonly again?: Loop; readonly weights: readonly number[]; readonly when: Date; readonly grid: Float64Array; readonly file: Uint8Array }
      export function area(shape: Shape, scale: number): Loop { throw shape; }
      export function lossDb(options: Record<string, number>): number { return 0; }
      export function loss(): number { return 0; }
      export type Kind = { kind: 'a'; level: 1 | 2 } | { kind: 'b'; levelDb: number };
      export class Book { constructor(readonly pages: number) {} count(start: number): void {} private hidden = 3; }
      export const table: readonly { readonly rowM: number; readonly height: number }[] = [];
      export const limit: number = 3;
      export const byName: ReadonlyMap<string, number> = new Map();
      export async function later(at: Promise<{ readonly delay: number }>): Promise<readonly { wait: number }[]> { return []; }
      export function each(visit: (turn: number) => { mass: number }): void {}
      export function pair(xy: readonly [number, number]): void {}
    `;
    const name = `${process.cwd()}/packages/units/src/virtual.ts`;
    const host = ts.createCompilerHost(compilerOptions());
    const { getSourceFile } = host;
    host.getSourceFile = (file, target, ...rest) =>
      file === name ? ts.createSourceFile(file, text, target) : getSourceFile(file, target, ...rest);
    const virtual = ts.createProgram([name], compilerOptions(), host);
    expect(
      unnamedNumbers(virtual, name)
        .map((line) => line.replace(/^\S+: /, ''))
        .sort(),
    ).toEqual([
      'Book.count(start)',
      'Book.pages',
      'Kind.level',
      'area().grid',
      'area().weights',
      'area(scale)',
      'area(shape).inner.depth',
      'area(shape).size',
      'byName',
      'each(visit)().mass',
      'each(visit)(turn)',
      'later().wait',
      'later(at).delay',
      'limit',
      'loss()',
      'lossDb(options)',
      'pair(xy)',
      'table.height',
    ]);
  });
});
