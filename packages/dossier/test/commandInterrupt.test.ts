import { spawn } from 'node:child_process';
import { cp, mkdir, mkdtemp, readdir, readFile, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { exampleLog } from './examplePlan.js';

interface Bundler {
  build(options: object): Promise<unknown>;
}

const here = createRequire(import.meta.url);
const bundler = createRequire(here.resolve('tsup'))('esbuild') as Bundler;
const example = fileURLToPath(new URL('../../../examples/fennimara', import.meta.url));

let folder = '';
let program = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'finial-'));
  program = join(folder, 'finial.mjs');
  // The program as it stands in the sources, so that no build has to come before.
  await bundler.build({
    entryPoints: [fileURLToPath(new URL('../src/finial.ts', import.meta.url))],
    outfile: program,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'es2022',
    mainFields: ['module', 'main'],
    conditions: ['@finial/source'],
    // The command-line parser is CommonJS and asks for Node's own modules.
    banner: {
      js: "import { createRequire as r } from 'node:module'; globalThis.require = r(import.meta.url);",
    },
  });
  await cp(join(example, 'elevation.tif'), join(folder, 'elevation.tif'));
  const plan = JSON.parse(await readFile(join(example, 'plan.json'), 'utf8'));
  const { site: _site, antenna: _antenna, walk: _walk, beacon: _beacon, ...rest } = plan;
  // Millions of cells: minutes of work, of which the test waits for the first moment only.
  const terrain = { ...plan.terrain, coverage: { radiusM: 8000, cellM: 6 } };
  await writeFile(join(folder, 'plan.json'), JSON.stringify({ ...rest, terrain }));
});

/** Starts the real program; `asTerminal` makes it show its progress, from which the test knows where it is. */
function started(words: readonly string[], { asTerminal }: { readonly asTerminal: boolean }) {
  const preload = asTerminal ? ['--import', 'data:text/javascript,process.stderr.isTTY=true'] : [];
  const child = spawn(process.execPath, [...preload, program, ...words], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const said = { out: '', err: '' };
  child.stdout.setEncoding('utf8').on('data', (text) => {
    said.out += text;
  });
  const inCoverage = new Promise<void>((resume) => {
    child.stderr.setEncoding('utf8').on('data', (text) => {
      said.err += text;
      if (said.err.includes('coverage')) resume();
    });
  });
  const ended = new Promise<number | null>((resume) => {
    child.once('close', (code) => resume(code));
  });
  return { child, said, inCoverage, ended };
}

describe.skipIf(process.platform === 'win32')('Ctrl-C', () => {
  test('during a coverage run ends it with 130, old files whole and nothing left over', async () => {
    const out = join(folder, 'out');
    await mkdir(out);
    await writeFile(join(out, 'coverage.tif'), 'old');
    const words = ['coverage', join(folder, 'plan.json'), '--out', out];
    const { child, said, inCoverage, ended } = started(words, { asTerminal: true });
    await Promise.race([inCoverage, ended]);
    // Into the sweep itself; the run has minutes before it.
    await setTimeout(300);
    child.kill('SIGINT');
    expect(await ended).toBe(130);
    expect(said.out).toBe('');
    expect(said.err).toContain('Interrupted; nothing was written.');
    expect(said.err).not.toMatch(/\n\s+at /);
    expect(await readdir(out)).toEqual(['coverage.tif']);
    expect(await readFile(join(out, 'coverage.tif'), 'utf8')).toBe('old');
  });
});

describe('the program itself', () => {
  test('ends with the code of the command, and shows no progress in a pipe', async () => {
    await writeFile(join(folder, 'walk.csv'), exampleLog);
    const good = started(['walk', join(folder, 'walk.csv'), '--json'], { asTerminal: false });
    expect(await good.ended).toBe(0);
    expect(good.said.err).toBe('');
    expect(JSON.parse(good.said.out).rows).toBe(18);
    const bad = started(['walk', join(folder, 'none.csv')], { asTerminal: false });
    expect(await bad.ended).toBe(2);
    expect(bad.said.err).toMatch(
      /^log\.csv: expected a file that can be read \(ENOENT\), got ".*none\.csv"\n$/,
    );
  });

  test('asks nobody where standard input is no terminal', async () => {
    const { said, ended } = started(['plan', 'new', '--out', join(folder, 'new.json')], {
      asTerminal: false,
    });
    expect(await ended).toBe(2);
    expect(said.err).toMatch(/^--name, --region, .*: expected a value/);
  });
});
