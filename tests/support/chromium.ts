import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

const named = process.env['CHROMIUM'];

/** Path of a Chromium on this machine: the `CHROMIUM` variable (empty: none), or the first one on the search path. */
export const chromiumPath: string | undefined =
  named === undefined ? onSearchPath(['chromium', 'chromium-browser']) : named || undefined;

if (chromiumPath === undefined) {
  console.warn('No Chromium found (set CHROMIUM or install one): the browser tests are skipped.');
}

/** Starts the browser without any network of its own. */
export function launchChromium(): Promise<Browser> {
  return chromium.launch({
    executablePath: chromiumPath ?? '',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}

function onSearchPath(names: readonly string[]): string | undefined {
  const folders = (process.env['PATH'] ?? '').split(delimiter);
  return names.flatMap((name) => folders.map((folder) => join(folder, name))).find(isExecutable);
}

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
