import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { docExamples, type Fence, typeFaults } from './docExamples/fences.js';
import { runFence as run } from './docExamples/runFence.js';
import { filesBelow, root, shown, workspacePackages } from './support/workspace.js';

const files = [
  join(root, 'README.md'),
  join(root, 'DEVELOPERS.md'),
  ...filesBelow(join(root, 'docs'), '.md').filter(
    (file) => !/[\\/]docs[\\/](api|node_modules)[\\/]/.test(file),
  ),
  ...workspacePackages().flatMap(({ folder }) => [
    join(folder, 'README.md'),
    ...filesBelow(join(folder, 'src'), '.ts'),
  ]),
].filter((file) => ts.sys.fileExists(file));

const fences = files.flatMap((file) => docExamples(shown(file), readFileSync(file, 'utf8')));

describe('examples run and say the truth', () => {
  test.each(fences.map((fence) => [`${fence.file}:${fence.line}`, fence] as const))(
    '%s',
    async (_, fence) => {
      await run(fence);
    },
  );
});

test('examples compile under the strict options of this workspace', () => {
  expect(typeFaults(fences)).toEqual([]);
});

// The runner itself: a test that cannot fail proves nothing.
describe('the runner', () => {
  const fenceOf = (...lines: readonly string[]): Fence => ({ file: 'x.md', line: 1, code: lines.join('\n') });

  test('finds fences in comments and in Markdown, with their lines', () => {
    const text = [
      '/**',
      ' * Text.',
      ' * ```ts',
      ' * f(1); // → 2',
      ' * ```',
      ' */',
      'const a = "```ts";',
    ].join('\n');
    expect(docExamples('a.ts', text)).toEqual([{ file: 'a.ts', line: 4, code: 'f(1); // → 2' }]);
    expect(docExamples('a.md', 'x\n\n```ts\ng();\n```\n```sh\nls\n```\n')).toEqual([
      { file: 'a.md', line: 4, code: 'g();' },
    ]);
  });

  test.each([
    ['1 / 3; // ≈ 0.3333'],
    ['1 / 3; // ≈ 0.3 (a third)'],
    ['const x = { y: 2 / 3 };\nx.y; // ≈ 0.67'],
    ['const third: number = 1 / 3; // ≈ 0.33'],
    ["({ a: [1, 'x'] }); // → { a: [1, 'x'] }"],
    ['Math.max(\n  1,\n  2,\n); // → 2'],
    ["try {\n  throw new Error('x');\n} catch (error) {\n  String(error); // → 'Error: x'\n}"],
    ["import { dbmToWatt as watts } from '@finial/units';\nwatts(30); // ≈ 1.000"],
    ["import * as units from '@finial/units';\nawait Promise.resolve(units.wattToDbm(1)); // ≈ 30"],
    ['const f = (x: number) => {\n  x; // → 3\n};\nf(3);'],
    ['[1 / 3, 2]; // ≈ [0.33, 2]'],
    ['Math.max(\n  1,\n  2,\n);\n// → 2'],
    ['({ a: 1, b: 2 });\n({ a: 1, b: 2 }); // → { a: 1,\n//      b: 2 }'],
  ])('accepts %j', async (code) => {
    await run(fenceOf(code));
  });

  test.each([
    ['a wrong digit', '1 / 3; // ≈ 0.3334', /expected ≈ 0\.3334, got 0\.3333/],
    ['a value cut instead of rounded', '2 / 3; // ≈ 0.66', /expected ≈ 0\.66/],
    ['no number', "'0.5'; // ≈ 0.5", /expected ≈ 0\.5, got "0\.5"/],
    ['NaN', '0 / 0; // ≈ 0', /expected ≈ 0/],
    ['a wrong member', '({ a: 1 }); // → { a: 2 }', /line 1: expected \{ a: 1 \}/],
    ['no assertion', 'Math.max(1, 2);', /an example must end some line/],
    ['a branch that is not taken', 'try {\n  1; // → 1\n} catch {\n  2; // → 2\n}', /never came to.*line 4/s],
    ['an assertion that belongs to nothing', '1; // → 1\n// → 2', /line 2: no expression ends before/],
    ['an assertion after a blank line', '1; // → 1\n2;\n\n// → 2', /line 4: no expression ends before/],
    ['an assertion that is no expression', '1; // → one thing', /"one thing" is no expression/],
    ['an approximation without a number', '1; // ≈ one', /expected a number after ≈/],
    ['a call that throws', 'null.x; // → 1', /reading 'x'/],
    ['a missing module', "import { no } from '@finial/none';\nno; // → 1", /@finial\/none/],
    ['a missing name', "import { no } from '@finial/units';\nno; // → undefined", /no is not exported/],
    ['broken syntax', 'Math.max(1; // → 1', /x\.md:1: '[,)]' expected/],
  ])('refuses %s', async (_, code, message) => {
    await expect(run(fenceOf(code))).rejects.toThrow(message);
  });

  test('reports type faults by file and line', () => {
    expect(typeFaults([fenceOf('const a = 1;', "const b: number = 'x';", 'a + b;')])).toEqual([
      expect.stringMatching(/^x\.md:2: /),
    ]);
  });
});
