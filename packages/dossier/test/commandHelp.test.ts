import { cp, mkdtemp, readFile, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { finial } from './commandTerminal.js';

const commands = [
  ['dossier'],
  ['plan', 'new'],
  ['plan', 'check'],
  ['airtime'],
  ['chain'],
  ['sweep'],
  ['coverage'],
  ['walk'],
];

/** The example of a help text as the words behind `finial`. */
function exampleIn(help: string): readonly string[] {
  const [, line = ''] = /Example:\n {2}finial ((?:.*\\\n)*.*)\n/.exec(help) ?? [];
  const words = line.replaceAll('\\\n', ' ').matchAll(/"([^"]*)"|(\S+)/g);
  return [...words].map(([, quoted, bare]) => quoted ?? bare ?? '');
}

const before = process.cwd();
beforeAll(async () => {
  const folder = await mkdtemp(join(tmpdir(), 'finial-'));
  await cp(fileURLToPath(new URL('../../../examples/fennimara', import.meta.url)), folder, {
    recursive: true,
  });
  const plan = JSON.parse(await readFile(join(folder, 'plan.json'), 'utf8'));
  // The same job in seconds: a smaller area, and one site.
  plan.terrain.coverage = { radiusM: 2000, cellM: 100 };
  await writeFile(join(folder, 'plan.json'), JSON.stringify(plan));
  process.chdir(folder);
});
afterAll(() => process.chdir(before));

test('finial --help names every command, the exit codes and an example', async () => {
  const { code, out, err } = await finial(['--help']);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  for (const [name = ''] of commands) expect(out).toContain(`\n  ${name}`);
  expect(out).toMatch(/Exit codes: 0 [\s\S]*1 [\s\S]*2 [\s\S]*130 [\s\S]*Example:/);
});

describe.each(commands.map((words) => [words.join(' '), words] as const))('finial %s --help', (_, words) => {
  test('explains exit codes and options within the width of the terminal', async () => {
    const { code, out } = await finial([...words, '--help'], { columns: 90 });
    expect(code).toBe(0);
    expect(out).toMatch(/Exit codes: 0 [\s\S]*1 [\s\S]*2 [\s\S]*130 /);
    expect(out).toContain('--json');
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(110);
  });

  test('has an example that runs', async () => {
    const { out: help } = await finial([...words, '--help']);
    const example = exampleIn(help);
    expect(example.slice(0, words.length)).toEqual(words);
    const { code, out, err } = await finial(example);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).not.toBe('');
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
  });
});

test('the example of airtime prints the figures that its help promises', async () => {
  const { out: help } = await finial(['airtime', '--help']);
  const { out } = await finial(exampleIn(help));
  const [, onAir = '', pace = ''] = /prints ([\d.]+ ms) on the air and ([\d.]+ s) between/.exec(help) ?? [];
  expect(onAir).not.toBe('');
  expect(out).toContain(onAir);
  expect(out).toContain(pace);
});
