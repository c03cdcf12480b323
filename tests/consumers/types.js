// @ts-check
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fetchProgram } from './fetched.js';
import { exercise, report, reportSkipped } from './report.js';
import { root, run } from './run.js';
import { smokeCalls, smokePlan } from './smokeCalls.js';

/**
 * The oldest TypeScript that reads the packages' declarations with `skipLibCheck: false`. 5.6 stops at
 * `Uint8Array<ArrayBuffer>`, which the GeoTIFF that a coverage raster becomes needs to be put into a `Blob`.
 */
const oldestTypeScript = '5.7.2';

const browserLibrary = { lib: ['es2022', 'dom', 'dom.iterable'], types: [] };
const nodeLibrary = { lib: ['es2022'], types: ['node'], typeRoots: [join(root, 'node_modules', '@types')] };

/** @type {readonly (readonly [string, object])[]} */
const settings = [
  ['bundler', { module: 'esnext', moduleResolution: 'bundler', ...browserLibrary }],
  ['node16', { module: 'node16', moduleResolution: 'node16', ...browserLibrary }],
  ['nodenext', { module: 'nodenext', moduleResolution: 'nodenext', ...browserLibrary }],
  ["nodenext with Node's types alone", { module: 'nodenext', moduleResolution: 'nodenext', ...nodeLibrary }],
];

/**
 * Compiles a strict consumer with the workspace's TypeScript and with the oldest that the README names.
 * @param {readonly import('./pack.js').Packed[]} packed
 * @param {string} folder
 */
export function checkTypes(packed, folder) {
  writeFileSync(join(folder, 'consumer.mts'), typedConsumerOf(packed));
  compile(join(root, 'node_modules', 'typescript'), folder);
  const fetched = fetchProgram('typescript', oldestTypeScript);
  if ('reason' in fetched) reportSkipped(`TypeScript ${oldestTypeScript}`, fetched.reason);
  else compile(fetched.folder, folder);
}

/** @param {readonly import('./pack.js').Packed[]} packed */
function typedConsumerOf(packed) {
  const calls = packed.flatMap(({ manifest, entryPoints }, place) => {
    const call = (smokeCalls[manifest.name] ?? '').replace(/\ball\b/g, `all${place}`);
    const subpaths = Object.keys(entryPoints).filter((specifier) => specifier !== manifest.name);
    return [
      `import * as all${place} from '${manifest.name}';`,
      ...subpaths.map((specifier, index) => `export * as sub${place}_${index} from '${specifier}';`),
      `export const value${place}: number = ${call};`,
    ];
  });
  return `${[`const plan: string = ${JSON.stringify(smokePlan)};`, ...calls].join('\n')}\n`;
}

/**
 * @param {string} typescript folder of the compiler
 * @param {string} folder
 */
function compile(typescript, folder) {
  const { version } = JSON.parse(readFileSync(join(typescript, 'package.json'), 'utf8'));
  exercise(`TypeScript ${version}`);
  for (const [name, options] of settings) {
    const config = {
      compilerOptions: {
        target: 'es2022',
        strict: true,
        noUncheckedIndexedAccess: true,
        exactOptionalPropertyTypes: true,
        skipLibCheck: false,
        noEmit: true,
        ...options,
      },
      files: ['consumer.mts'],
    };
    writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify(config));
    const args = [join(typescript, 'bin', 'tsc'), '-p', folder, '--pretty', 'false'];
    const { ok, said } = run(process.execPath, args, folder);
    report(`strict TypeScript ${version} at moduleResolution ${name}`, ok ? undefined : said);
  }
}
