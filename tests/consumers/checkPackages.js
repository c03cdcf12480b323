// @ts-check
/**
 * Packs every package as it would be published and uses the tarballs the way strangers do. Needs a build first:
 * `npx --yes pnpm@12 run check:packages`. Nothing is fetched but what `npm install` needs.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { publint } from 'publint';
import { formatMessage } from 'publint/utils';
import { smokeCalls, smokePlan } from './smokeCalls.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'finial-consumers-'));
/** @type {string[]} */
const faults = [];

/**
 * @typedef {{ name: string, version: string, bin?: Record<string, string>, exports: Record<string, string | Record<string, string>> }} Manifest
 * @typedef {{ manifest: Manifest, tarball: string, entryPoints: Record<string, string> }} Packed
 */

/**
 * Says how a step went, and remembers a fault.
 * @param {string} step
 * @param {string | undefined} fault what went wrong; nothing if all is well
 */
function report(step, fault) {
  console.log(`${fault === undefined ? 'ok   ' : 'FAULT'} ${step}`);
  if (fault === undefined) return;
  faults.push(step);
  console.log(fault.replace(/^/gm, '      '));
}

/**
 * Runs a command and gives what it said, or stops the check.
 * @param {string} command
 * @param {readonly string[]} args
 * @param {string} cwd
 */
function run(command, args, cwd) {
  const { status, stdout, stderr, error } = spawnSync(command, args, {
    cwd,
    encoding: 'utf8',
    env: outsideEnvironment(),
    shell: process.platform === 'win32',
  });
  const said = `${stdout ?? ''}${stderr ?? ''}${error?.message ?? ''}`.trim();
  return { ok: status === 0, said };
}

/** The environment without this workspace: no tool of its own on the path, no setting of the package manager. */
function outsideEnvironment() {
  const path = (process.env['PATH'] ?? '')
    .split(delimiter)
    .filter((entry) => !entry.includes('node_modules'))
    .join(delimiter);
  const kept = Object.entries(process.env).filter(
    ([name]) => !/^npm_(config_|package_|lifecycle_)/i.test(name),
  );
  return { ...Object.fromEntries(kept), PATH: path };
}

/** @returns {Packed[]} */
function pack() {
  const executable = process.env['npm_execpath'] ?? '';
  const isPnpm = /pnpm/.test(executable) && existsSync(executable);
  const isScript = /\.[cm]?js$/.test(executable);
  const [command, ...first] = !isPnpm
    ? ['npx', '--yes', 'pnpm@12']
    : isScript
      ? [process.execPath, executable]
      : [executable];
  const filter = ['--filter', './packages/*', '-r', 'pack', '--pack-destination', folder];
  const { ok, said } = run(String(command), [...first, ...filter], root);
  const tarballs = readdirSync(folder).filter((name) => name.endsWith('.tgz'));
  const packed = readdirSync(join(root, 'packages')).flatMap((name) => {
    const home = join(root, 'packages', name);
    const file = join(home, 'package.json');
    if (!existsSync(file)) return [];
    if (!existsSync(join(home, 'dist', 'index.js'))) {
      report(`pack ${name}`, 'not built');
      return [];
    }
    /** @type {Manifest} */
    const manifest = JSON.parse(readFileSync(file, 'utf8'));
    const tarball = tarballs.find((entry) => entry === `finial-${name}-${manifest.version}.tgz`);
    if (tarball === undefined) {
      report(`pack ${manifest.name}`, `no tarball of ${manifest.version} among ${tarballs.join(', ')}`);
      return [];
    }
    return [{ manifest, tarball: join(folder, tarball), entryPoints: entryPointsOf(manifest, home) }];
  });
  report(`pack ${packed.length} packages`, ok ? undefined : said);
  return packed;
}

/**
 * What a user may import, with the built file behind each: the package and its subpaths of code.
 * @param {Manifest} manifest
 * @param {string} home folder of the package
 */
function entryPointsOf(manifest, home) {
  /** @type {Record<string, string>} */
  const files = {};
  for (const [subpath, target] of Object.entries(manifest.exports)) {
    const file = typeof target === 'string' ? undefined : target['default'];
    if (file === undefined) continue;
    const [before = '', after = ''] = join(home, file).split('*');
    const stars = subpath.includes('*')
      ? readdirSync(before)
          .filter((name) => name.endsWith(after))
          .map((name) => name.slice(0, name.length - after.length))
      : [''];
    for (const star of stars) {
      const specifier = subpath === '.' ? manifest.name : manifest.name + subpath.slice(1).replace('*', star);
      files[specifier] = subpath.includes('*') ? before + star + after : before;
    }
  }
  return files;
}

/** @param {Packed} packed */
async function lintTarball({ manifest, tarball }) {
  const bytes = readFileSync(tarball);
  const content = new Uint8Array(bytes).buffer;
  const { messages, pkg } = await publint({ pack: { tarball: content }, strict: true });
  const said = messages.map((message) => formatMessage(message, pkg, { color: false }) ?? message.code);
  report(`publint ${manifest.name}`, said.length === 0 ? undefined : said.join('\n'));
}

/** @param {Packed} packed */
function checkTypesOf({ manifest, tarball }) {
  const attw = join(root, 'node_modules', '@arethetypeswrong', 'cli', 'dist', 'index.js');
  const args = [attw, tarball, '--profile', 'esm-only', '--no-definitely-typed', '--no-color', '--no-emoji'];
  const { ok, said } = run(process.execPath, args, folder);
  report(`types of ${manifest.name} at every kind of resolution`, ok ? undefined : said);
}

/** @param {readonly Packed[]} packed */
function install(packed) {
  const files = Object.fromEntries(packed.map(({ manifest, tarball }) => [manifest.name, `file:${tarball}`]));
  const manifest = { name: 'consumer', private: true, type: 'module', dependencies: files, overrides: files };
  writeFileSync(join(folder, 'package.json'), JSON.stringify(manifest, undefined, 2));
  const { ok, said } = run('npm', ['install', '--no-audit', '--no-fund', '--ignore-scripts'], folder);
  report('npm install of all tarballs together', ok ? undefined : said);
  const copies = ok
    ? run('npm', ['ls', '--all', '--parseable', '@finial/units'], folder).said.split('\n')
    : [];
  if (ok) {
    report('one copy of @finial/units serves all', copies.length === 1 ? undefined : copies.join('\n'));
  }
  return ok;
}

/**
 * A consumer in JavaScript: every name of the package is there, and one call gives a number.
 * @param {readonly Packed[]} packed
 * @param {Record<string, readonly string[]>} names
 * @param {(specifier: string) => string} load how this kind of module loads another
 */
function consumerOf(packed, names, load) {
  const loads = packed.flatMap(({ manifest, entryPoints }) =>
    Object.keys(entryPoints).map((specifier) => {
      const call = specifier === manifest.name ? smokeCalls[specifier] : '1';
      return `check(${JSON.stringify(specifier)}, ${load(specifier)}, async (all) => ${call});`;
    }),
  );
  return `const names = ${JSON.stringify(names)};
const plan = ${JSON.stringify(smokePlan)};
async function check(specifier, all, call) {
  const missing = names[specifier].filter((name) => !(name in all));
  if (missing.length > 0) throw new Error(specifier + ' lacks ' + missing.join(', '));
  const value = await call(all);
  if (!Number.isFinite(value)) throw new Error(specifier + ' gave ' + value);
}
${loads.join('\n')}
`;
}

/** @param {readonly Packed[]} packed */
async function runConsumers(packed) {
  /** @type {Record<string, readonly string[]>} */
  const names = {};
  for (const { entryPoints } of packed) {
    for (const [specifier, file] of Object.entries(entryPoints)) {
      names[specifier] = Object.keys(await import(pathToFileURL(file).href));
    }
  }
  const esm = consumerOf(packed, names, (specifier) => `await import(${JSON.stringify(specifier)})`);
  const cjs = consumerOf(packed, names, (specifier) => `require(${JSON.stringify(specifier)})`);
  writeFileSync(join(folder, 'consumer.mjs'), esm);
  writeFileSync(join(folder, 'consumer.cjs'), cjs);
  for (const command of packed.flatMap(({ manifest }) => Object.keys(manifest.bin ?? {}))) {
    const { ok, said } = run(join(folder, 'node_modules', '.bin', command), ['--help'], folder);
    report(`the command ${command} starts`, ok ? undefined : said);
  }
  const { said: version } = run('node', ['--version'], folder);
  for (const [file, way] of /** @type {const} */ ([
    ['consumer.mjs', 'import'],
    ['consumer.cjs', 'require()'],
  ])) {
    const { ok, said } = run('node', [file], folder);
    report(`${way} of every package on Node ${version}`, ok ? undefined : said);
  }
}

/** @param {readonly Packed[]} packed */
function compileConsumer(packed) {
  const calls = packed.flatMap(({ manifest, entryPoints }, place) => {
    const call = (smokeCalls[manifest.name] ?? '').replace(/\ball\b/g, `all${place}`);
    const subpaths = Object.keys(entryPoints).filter((specifier) => specifier !== manifest.name);
    return [
      `import * as all${place} from '${manifest.name}';`,
      ...subpaths.map((specifier, index) => `export * as sub${place}_${index} from '${specifier}';`),
      `export const value${place}: number = ${call};`,
    ];
  });
  const lines = [`const plan: string = ${JSON.stringify(smokePlan)};`, ...calls];
  writeFileSync(join(folder, 'consumer.mts'), `${lines.join('\n')}\n`);
  const tsc = join(root, 'node_modules', 'typescript', 'bin', 'tsc');
  for (const [module, resolution] of /** @type {const} */ ([
    ['esnext', 'bundler'],
    ['node16', 'node16'],
    ['nodenext', 'nodenext'],
  ])) {
    const config = {
      compilerOptions: {
        module,
        moduleResolution: resolution,
        target: 'es2022',
        lib: ['es2022', 'dom', 'dom.iterable'],
        strict: true,
        noUncheckedIndexedAccess: true,
        exactOptionalPropertyTypes: true,
        skipLibCheck: false,
        noEmit: true,
        types: [],
      },
      files: ['consumer.mts'],
    };
    writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify(config));
    const { ok, said } = run(process.execPath, [tsc, '-p', folder, '--pretty', 'false'], folder);
    report(`strict TypeScript at moduleResolution ${resolution}`, ok ? undefined : said);
  }
}

try {
  const packed = pack();
  for (const one of packed) await lintTarball(one);
  for (const one of packed) checkTypesOf(one);
  const unsmoked = packed.map(({ manifest }) => manifest.name).filter((name) => !(name in smokeCalls));
  report('a call for every package', unsmoked.length === 0 ? undefined : `none for ${unsmoked.join(', ')}`);
  if (unsmoked.length === 0 && install(packed)) {
    await runConsumers(packed);
    compileConsumer(packed);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
console.log(faults.length === 0 ? 'All packages are fit to publish.' : `${faults.length} faults.`);
process.exitCode = faults.length === 0 ? 0 : 1;
