// @ts-check
/**
 * Packs every package as it would be published and uses the tarballs the way strangers do. Needs a build first:
 * `npx --yes pnpm@12 run check:packages`. Nothing is fetched but what `npm install` needs: the packages' own
 * dependencies, and the runtimes and the older TypeScript to try them in.
 */
import { mkdtempSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { checkBrowser } from './browser.js';
import { checkDeclaredImports, checkSizes } from './bundles.js';
import { namesOf } from './consumer.js';
import { checkDeclarationsFound, install, lintTarball, pack } from './pack.js';
import { conclude, report } from './report.js';
import { checkRuntimes } from './runtimes.js';
import { smokeCalls } from './smokeCalls.js';
import { checkTypes } from './types.js';

const folder = realpathSync(mkdtempSync(join(tmpdir(), 'finial-consumers-')));
try {
  const packed = pack(folder);
  for (const one of packed) await lintTarball(one);
  for (const one of packed) checkDeclarationsFound(one, folder);
  const unsmoked = packed.map(({ manifest }) => manifest.name).filter((name) => !(name in smokeCalls));
  report('a call for every package', unsmoked.length === 0 ? undefined : `none for ${unsmoked.join(', ')}`);
  if (unsmoked.length === 0 && install(packed, folder)) {
    const names = await namesOf(packed);
    checkRuntimes(packed, names, folder);
    checkTypes(packed, folder);
    await checkDeclaredImports(packed, folder);
    await checkSizes(folder);
    await checkBrowser(packed, names, folder);
  }
} catch (error) {
  report('the check itself', error instanceof Error ? (error.stack ?? error.message) : String(error));
} finally {
  rmSync(folder, { recursive: true, force: true });
}
conclude();
