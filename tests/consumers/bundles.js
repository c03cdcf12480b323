// @ts-check
import { createRequire } from 'node:module';
import { gzipSync } from 'node:zlib';
import { consumerOf } from './consumer.js';
import { exercise, report } from './report.js';
import { sizeBudgets } from './sizeBudgets.js';

/**
 * @typedef {import('./pack.js').Packed} Packed
 *
 * @typedef {object} Output
 * @property {readonly { path: string, kind: string }[]} imports
 * @property {string} [entryPoint]
 * @property {Readonly<Record<string, { bytesInOutput: number }>>} inputs
 *
 * @typedef {object} Input
 * @property {readonly { path: string, external?: boolean }[]} imports
 *
 * @typedef {object} Built
 * @property {readonly { path: string, text: string, contents: Uint8Array }[]} outputFiles
 * @property {{ inputs: Readonly<Record<string, Input>>, outputs: Readonly<Record<string, Output>> }} metafile
 *
 * @typedef {object} Bundler
 * @property {string} version
 * @property {(options: object) => Promise<Built>} build
 */

const here = createRequire(import.meta.url);
/** The bundler that the build tool brings along. @type {Bundler} */
const bundler = createRequire(here.resolve('tsup'))('esbuild');

/**
 * @param {string} contents
 * @param {string} folder
 * @param {object} [options]
 */
function bundled(contents, folder, options = {}) {
  return bundler.build({
    stdin: { contents, resolveDir: folder, sourcefile: 'entry.js' },
    absWorkingDir: folder,
    outdir: 'bundle',
    bundle: true,
    minify: true,
    splitting: true,
    format: 'esm',
    platform: 'browser',
    target: 'es2022',
    write: false,
    metafile: true,
    logLevel: 'silent',
    ...options,
  });
}

/**
 * Bundles one function at a time and compares what a page would load at once with the budget.
 * @param {string} folder
 */
export async function checkSizes(folder) {
  exercise(`esbuild ${bundler.version}`);
  for (const { name, from, budgetBytes, brings } of sizeBudgets) {
    const step = `${name} of ${from} alone`;
    try {
      const { outputFiles, metafile } = await bundled(`export { ${name} } from '${from}';`, folder);
      const loaded = loadedAtOnce(metafile.outputs);
      const bytes = outputFiles
        .filter(({ path }) => loaded.some((output) => path.replaceAll('\\', '/').endsWith(`/${output}`)))
        .reduce((sum, { contents }) => sum + gzipSync(contents, { level: 9 }).length, 0);
      const used = packagesIn(loaded.map((output) => metafile.outputs[output]));
      const strangers = used.filter((each) => !brings.includes(each));
      const faults = [
        bytes > 0 && bytes <= budgetBytes ? [] : `${bytes} bytes, but the budget is ${budgetBytes}`,
        strangers.length === 0 ? [] : `also brings ${strangers.join(', ')}`,
      ].flat();
      report(
        `${step}: ${bytes} of ${budgetBytes} bytes`,
        faults.length === 0 ? undefined : faults.join('\n'),
      );
    } catch (error) {
      report(step, String(error));
    }
  }
}

/**
 * The entry and what it imports statically; parts that are only loaded when asked for are left out.
 * @param {Readonly<Record<string, Output>>} outputs
 */
function loadedAtOnce(outputs) {
  const loaded = Object.keys(outputs).filter((path) => outputs[path]?.entryPoint === 'entry.js');
  for (const path of loaded) {
    const parts = (outputs[path]?.imports ?? []).filter(({ kind }) => kind === 'import-statement');
    loaded.push(...parts.map((part) => part.path).filter((part) => !loaded.includes(part)));
  }
  return loaded;
}

/** @param {readonly (Output | undefined)[]} outputs */
function packagesIn(outputs) {
  const files = outputs.flatMap((output) => Object.entries(output?.inputs ?? {}));
  const used = files.filter(([, { bytesInOutput }]) => bytesInOutput > 0).map(([file]) => packageOf(file));
  return [...new Set(used)].filter((name) => name !== undefined);
}

/**
 * @param {string} file path with `/`, as the bundler gives it
 * @returns {string | undefined}
 */
function packageOf(file) {
  return /.*node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(file)?.[1];
}

/**
 * Every import in the packed files is of a package that the manifest names. npm lays packages side by side, where an
 * undeclared one would be found by luck.
 * @param {readonly Packed[]} packed
 * @param {string} folder
 */
export async function checkDeclaredImports(packed, folder) {
  const specifiers = packed.flatMap(({ entryPoints }) => Object.keys(entryPoints));
  const code = specifiers.map((specifier, place) => `export * as part${place} from '${specifier}';`);
  try {
    const { metafile } = await bundled(code.join('\n'), folder, { platform: 'node' });
    const read = Object.entries(metafile.inputs);
    for (const { manifest } of packed) {
      const imported = read
        .filter(([file]) => packageOf(file) === manifest.name)
        .flatMap(([, { imports }]) => imports.filter(({ external }) => !external))
        .map(({ path }) => packageOf(path));
      const undeclared = new Set(
        imported.filter(
          (name) => name !== undefined && name !== manifest.name && !(name in (manifest.dependencies ?? {})),
        ),
      );
      report(
        `${manifest.name} imports only what it declares`,
        undeclared.size === 0 ? undefined : `not declared: ${[...undeclared].join(', ')}`,
      );
    }
  } catch (error) {
    report('imports of all packages', String(error));
  }
}

/**
 * The smoke calls and the packages in one module for a page.
 * @param {import('./consumer.js').Names} names
 * @param {string} folder
 */
export async function smokeBundle(names, folder) {
  const code = consumerOf(names, (specifier) => `await import(${JSON.stringify(specifier)})`);
  const options = { splitting: false };
  const { outputFiles } = await bundled(`${code}globalThis.smokeValues = values;\n`, folder, options);
  return outputFiles[0]?.text ?? '';
}
