// @ts-check
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { consumerOf, disagreement } from './consumer.js';
import { fetchProgram } from './fetched.js';
import { exercise, report, reportSkipped } from './report.js';
import { run } from './run.js';

/**
 * @typedef {import('./pack.js').Packed} Packed
 *
 * @typedef {object} Runtime
 * @property {string} name
 * @property {string} version
 * @property {string} program its path
 * @property {readonly string[]} first arguments before the file
 *
 * @typedef {object} RuntimePackage a runtime as a package of this platform
 * @property {string} name
 * @property {string} version
 * @property {string} packageName
 * @property {string} file its program
 * @property {readonly string[]} first
 */

/** @returns {readonly RuntimePackage[]} */
function runtimePackages() {
  const { platform, arch } = process;
  const isWindows = platform === 'win32';
  const exe = isWindows ? '.exe' : '';
  const bunPlatform = isWindows ? 'windows' : platform;
  const bunArch = arch === 'arm64' ? 'aarch64' : arch;
  const nodes = ['20.20.2', '22.23.3', '24.21.0'].map((version) => ({
    name: 'Node',
    version,
    packageName: `node-${isWindows ? 'win' : platform}-${arch}`,
    file: `bin/node${exe}`,
    first: [],
  }));
  return [
    ...nodes,
    {
      name: 'Bun',
      version: '1.4.5',
      packageName: `@oven/bun-${bunPlatform}-${bunArch}`,
      file: `bin/bun${exe}`,
      // Or it would fetch what is missing, in silence.
      first: ['--no-install'],
    },
    {
      name: 'Deno',
      version: '2.9.6',
      packageName: `@deno/${platform}-${arch}${platform === 'linux' ? '-glibc' : ''}`,
      file: `deno${exe}`,
      // It may read files, and nothing else: the packages need neither the network nor the environment.
      first: ['run', '--no-prompt', '--no-remote', '--no-lock', '--node-modules-dir=manual', '--allow-read'],
    },
  ];
}

/**
 * Imports and requires every entry point in every runtime that can be had.
 * @param {readonly Packed[]} packed
 * @param {import('./consumer.js').Names} names
 * @param {string} folder
 */
export function checkRuntimes(packed, names, folder) {
  const esm = consumerOf(names, (specifier) => `await import(${JSON.stringify(specifier)})`);
  const cjs = consumerOf(names, (specifier) => `require(${JSON.stringify(specifier)})`);
  writeFileSync(join(folder, 'consumer.mjs'), `${esm}console.log(JSON.stringify(await values));\n`);
  writeFileSync(
    join(folder, 'consumer.cjs'),
    `${cjs}values.then(async (all) => {
  const imported = await import('@finial/units');
  if (imported.InputError !== InputError) throw new Error('import and require() give two classes of InputError');
  console.log(JSON.stringify(all));
});
`,
  );
  const own = ownNode(folder);
  if (own !== undefined) checkRuntime(own, packed, folder);
  for (const wanted of runtimePackages()) {
    if (own?.name === wanted.name && own.version === wanted.version) continue;
    const runtime = fetchRuntime(wanted);
    if (runtime !== undefined) checkRuntime(runtime, packed, folder);
  }
}

/**
 * The Node that npm ran on.
 * @param {string} folder
 * @returns {Runtime | undefined}
 */
function ownNode(folder) {
  const asked = run('node', ['-p', 'process.execPath'], folder);
  const { ok, stdout, said } = run('node', ['--version'], folder);
  if (ok) return { name: 'Node', version: stdout.replace('v', ''), program: asked.stdout, first: [] };
  reportSkipped("this machine's own Node", said);
  return undefined;
}

/**
 * @param {RuntimePackage} wanted
 * @returns {Runtime | undefined}
 */
function fetchRuntime({ name, version, packageName, file, first }) {
  const fetched = fetchProgram(packageName, version);
  if ('reason' in fetched) {
    reportSkipped(`${name} ${version}`, fetched.reason);
    return undefined;
  }
  const program = join(fetched.folder, file);
  const { ok, said } = run(program, ['--version'], fetched.folder);
  if (ok && said.includes(version)) return { name, version, program, first };
  reportSkipped(`${name} ${version}`, `does not start here: ${said}`);
  return undefined;
}

/**
 * @param {Runtime} runtime
 * @param {readonly Packed[]} packed
 * @param {string} folder
 */
function checkRuntime({ name, version, program, first }, packed, folder) {
  const label = `${name} ${version}`;
  exercise(label);
  for (const [file, way] of /** @type {const} */ ([
    ['consumer.mjs', 'import'],
    ['consumer.cjs', 'require()'],
  ])) {
    const { ok, stdout, said } = run(program, [...first, file], folder);
    report(
      `${way} of every entry point in ${label}`,
      ok ? disagreement(`${way} in ${label}`, JSON.parse(stdout)) : said || 'ended without a word',
    );
  }
  if (name !== 'Node') return;
  for (const { manifest } of packed) {
    for (const [command, file] of Object.entries(manifest.bin ?? {})) {
      const { ok, said } = run(
        program,
        [join(folder, 'node_modules', manifest.name, file), '--help'],
        folder,
      );
      report(`the command ${command} starts in ${label}`, ok ? undefined : said);
    }
  }
}
