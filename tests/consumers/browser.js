// @ts-check
import { createReadStream, existsSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, resolve, sep } from 'node:path';
import { smokeBundle } from './bundles.js';
import { consumerOf, disagreement } from './consumer.js';
import { exercise, report, reportSkipped } from './report.js';

/**
 * @typedef {import('./consumer.js').Names} Names
 * @typedef {import('./pack.js').Packed} Packed
 */

/** The packages that depend on nothing but each other: these a page can load without a bundler. */
const lightPackages = ['units', 'radio', 'lora', 'antenna', 'feedline', 'site'].map(
  (name) => `@finial/${name}`,
);

/**
 * Runs the packages in a page, bundled and as they are installed.
 * @param {readonly Packed[]} packed
 * @param {Names} names
 * @param {string} folder
 */
export async function checkBrowser(packed, names, folder) {
  const { chromiumPath, launchChromium } = await browserSupport();
  if (chromiumPath === undefined) {
    reportSkipped('Chromium', 'none found: install one or name it in CHROMIUM');
    return;
  }
  const browser = await launchChromium();
  const pages = new Map([
    ['/bundle.html', page('<script type="module" src="/bundle.js"></script>')],
    ['/bundle.js', await bundleOrFault(names, folder)],
    ['/import-map.html', importMapPage(packed, names)],
  ]);
  const server = await serve(pages, folder);
  try {
    const label = `Chromium ${browser.version()}`;
    exercise(label);
    const { port } = /** @type {import('node:net').AddressInfo} */ (server.address());
    for (const [path, way] of /** @type {const} */ ([
      ['/bundle.html', 'one bundle of all packages'],
      ['/import-map.html', `import map for ${lightPackages.length} packages`],
    ])) {
      const answer = await answerOf(browser, `http://127.0.0.1:${port}${path}`);
      const fault =
        'values' in answer ? disagreement(`${way} in ${label}`, answer.values) : answer.faults.join('\n');
      report(`${way} in ${label}`, fault);
    }
  } finally {
    await browser.close();
    server.close();
  }
}

/** @returns {Promise<typeof import('../support/chromium.js')>} */
function browserSupport() {
  // By its own name: nothing but this Node, which reads TypeScript, comes between.
  return import(new URL('../support/chromium.ts', import.meta.url).href);
}

/**
 * @param {Names} names
 * @param {string} folder
 */
async function bundleOrFault(names, folder) {
  // A page has no files of its own machine.
  const forPages = Object.entries(names).filter(([specifier]) => !specifier.endsWith('/node'));
  try {
    return await smokeBundle(Object.fromEntries(forPages), folder);
  } catch (error) {
    return `throw new Error(${JSON.stringify(String(error))});`;
  }
}

/**
 * @param {readonly Packed[]} packed
 * @param {Names} names
 */
function importMapPage(packed, names) {
  const entries = packed
    .filter(({ manifest }) => lightPackages.includes(manifest.name))
    .flatMap(({ manifest, entryPoints }) =>
      Object.entries(entryPoints).map(([specifier, file]) => [
        specifier,
        `/node_modules/${manifest.name}/${file.replace('./', '')}`,
      ]),
    );
  const imports = Object.fromEntries(entries);
  const light = Object.fromEntries(Object.entries(names).filter(([specifier]) => specifier in imports));
  const code = consumerOf(light, (specifier) => `await import(${JSON.stringify(specifier)})`);
  return page(`<script type="importmap">${JSON.stringify({ imports })}</script>
<script type="module">${code}globalThis.smokeValues = values;</script>`);
}

/** @param {string} scripts */
function page(scripts) {
  return `<!doctype html><html lang="en"><meta charset="utf-8"><title>Consumer</title><link rel="icon" href="data:,">${scripts}</html>`;
}

/**
 * @param {Awaited<ReturnType<(typeof import('../support/chromium.js'))['launchChromium']>>} browser
 * @param {string} address
 * @returns {Promise<{ values: Record<string, number> } | { faults: readonly string[] }>}
 */
async function answerOf(browser, address) {
  const visited = await browser.newPage();
  /** @type {string[]} */
  const faults = [];
  visited.on('pageerror', (error) => faults.push(String(error)));
  visited.on('console', (message) => message.type() === 'error' && faults.push(message.text()));
  try {
    await visited.goto(address);
    await visited.waitForFunction(() => 'smokeValues' in globalThis, undefined, { timeout: 20_000 });
    const values = await visited.evaluate(
      () =>
        /** @type {{ smokeValues: Promise<Record<string, number>> }} */ (/** @type {unknown} */ (globalThis))
          .smokeValues,
    );
    return faults.length === 0 ? { values } : { faults };
  } catch (error) {
    return { faults: [...faults, String(error)] };
  } finally {
    await visited.close();
  }
}

/**
 * Serves the pages, and the installed packages of the consumers' project as they are.
 * @param {ReadonlyMap<string, string>} pages
 * @param {string} folder
 * @returns {Promise<import('node:http').Server>}
 */
function serve(pages, folder) {
  const installed = join(resolve(folder), 'node_modules') + sep;
  const server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://localhost').pathname;
    const file = join(resolve(folder), decodeURIComponent(path));
    const type = extname(path) === '.html' ? 'text/html' : 'text/javascript';
    const text = pages.get(path);
    const isThere = text !== undefined || (file.startsWith(installed) && isFile(file));
    response.writeHead(isThere ? 200 : 404, { 'content-type': `${type}; charset=utf-8` });
    if (!isThere) response.end(`no ${path}`);
    else if (text !== undefined) response.end(text);
    else createReadStream(file).pipe(response);
  });
  return new Promise((started) => server.listen(0, '127.0.0.1', () => started(server)));
}

/** @param {string} path */
function isFile(path) {
  return existsSync(path) && statSync(path).isFile();
}
