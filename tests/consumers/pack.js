// @ts-check
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { publint } from 'publint';
import { formatMessage } from 'publint/utils';
import { report } from './report.js';
import { root, run } from './run.js';

/**
 * @typedef {object} Manifest
 * @property {string} name
 * @property {string} version
 * @property {Record<string, string>} [bin]
 * @property {Record<string, string>} [dependencies]
 * @property {Record<string, string | Record<string, string>>} exports
 *
 * @typedef {object} Packed
 * @property {Manifest} manifest
 * @property {string} tarball
 * @property {Readonly<Record<string, string>>} entryPoints what a user may import: the package and its subpaths of code,
 *   each with the built file behind it, relative to the package
 * @property {string} home folder of the package in the workspace
 */

/**
 * Packs every package as it would be published.
 * @param {string} folder
 * @returns {Packed[]}
 */
export function pack(folder) {
  const filter = ['--filter', './packages/*', '-r', 'pack', '--pack-destination', folder];
  const [command, ...first] = packageManager();
  const { ok, said } = run(command, [...first, ...filter], root);
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
    return [{ manifest, tarball: join(folder, tarball), entryPoints: entryPointsOf(manifest, home), home }];
  });
  report(`pack ${packed.length} packages`, ok ? undefined : said);
  return packed;
}

/**
 * The command of the package manager that runs this script, or of the one that the README names.
 * @returns {[string, ...string[]]}
 */
function packageManager() {
  const executable = process.env['npm_execpath'] ?? '';
  if (!/pnpm/.test(executable) || !existsSync(executable)) return ['npx', '--yes', 'pnpm@12'];
  return /\.[cm]?js$/.test(executable) ? [process.execPath, executable] : [executable];
}

/**
 * @param {Manifest} manifest
 * @param {string} home folder of the package
 */
function entryPointsOf(manifest, home) {
  /** @type {Record<string, string>} */
  const files = {};
  for (const [subpath, target] of Object.entries(manifest.exports)) {
    const file = typeof target === 'string' ? undefined : target['default'];
    if (file === undefined) continue;
    const [before = '', after = ''] = file.split('*');
    const stars = subpath.includes('*')
      ? readdirSync(join(home, before))
          .filter((name) => name.endsWith(after))
          .map((name) => name.slice(0, name.length - after.length))
      : [''];
    for (const star of stars) {
      const specifier = subpath === '.' ? manifest.name : manifest.name + subpath.slice(1).replace('*', star);
      files[specifier] = file.replace('*', star);
    }
  }
  return files;
}

/**
 * What a linter of published packages finds in a tarball.
 * @param {Packed} packed
 */
export async function lintTarball({ manifest, tarball }) {
  const content = new Uint8Array(readFileSync(tarball)).buffer;
  const { messages, pkg } = await publint({ pack: { tarball: content }, strict: true });
  const said = messages.map((message) => formatMessage(message, pkg, { color: false }) ?? message.code);
  report(`publint ${manifest.name}`, said.length === 0 ? undefined : said.join('\n'));
}

/**
 * Whether each way of resolving an import finds declarations that fit the code.
 * @param {Packed} packed
 * @param {string} folder
 */
export function checkDeclarationsFound({ manifest, tarball }, folder) {
  const attw = join(root, 'node_modules', '@arethetypeswrong', 'cli', 'dist', 'index.js');
  const args = [attw, tarball, '--profile', 'esm-only', '--no-definitely-typed', '--no-color', '--no-emoji'];
  const { ok, said } = run(process.execPath, args, folder);
  report(`types of ${manifest.name} at every kind of resolution`, ok ? undefined : said);
}

/**
 * A fresh project with all the tarballs.
 * @param {readonly Packed[]} packed
 * @param {string} folder
 */
export function install(packed, folder) {
  // The overrides make the packages take each other from the tarballs too, and not from the registry.
  const files = Object.fromEntries(packed.map(({ manifest, tarball }) => [manifest.name, `file:${tarball}`]));
  const manifest = { name: 'consumer', private: true, type: 'module', dependencies: files, overrides: files };
  writeFileSync(join(folder, 'package.json'), JSON.stringify(manifest, undefined, 2));
  const { ok, said } = run('npm', ['install', '--no-audit', '--no-fund', '--ignore-scripts'], folder);
  report('npm install of all tarballs together', ok ? undefined : said);
  if (!ok) return false;
  const copies = run('npm', ['ls', '--all', '--parseable', '@finial/units'], folder).said.split('\n');
  report('one copy of @finial/units serves all', copies.length === 1 ? undefined : copies.join('\n'));
  return true;
}
