// @ts-check
import { existsSync, mkdirSync, mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { root, run } from './run.js';

const shelf = join(root, 'node_modules', '.cache', 'consumers');

/**
 * Folder of a program that comes as a package of exactly one version, or why it cannot be had here. It lies outside
 * the consumers' project, and is kept for the next run.
 * @param {string} name
 * @param {string} version
 * @returns {{ folder: string } | { reason: string }}
 */
export function fetchProgram(name, version) {
  const place = join(shelf, `${name.replace('/', '+')}@${version}`);
  const folder = join(place, 'node_modules', ...name.split('/'));
  if (existsSync(folder)) return { folder };
  mkdirSync(shelf, { recursive: true });
  const draft = mkdtempSync(join(shelf, '.new-'));
  try {
    writeFileSync(join(draft, 'package.json'), JSON.stringify({ private: true }));
    const settings = ['--no-audit', '--no-fund', '--ignore-scripts', '--prefer-offline', '--fetch-retries=1'];
    const { ok, said } = run('npm', ['install', ...settings, `${name}@${version}`], draft);
    if (!ok) return { reason: `npm install of ${name}@${version} failed: ${firstErrors(said)}` };
    // Only a whole one may come to its place, and another run may have been faster.
    if (!existsSync(place)) renameSync(draft, place);
    return { folder };
  } finally {
    rmSync(draft, { recursive: true, force: true });
  }
}

/** @param {string} said */
function firstErrors(said) {
  const lines = said.split('\n').filter((line) => /^npm (error|ERR!)/.test(line));
  return (lines.length > 0 ? lines : said.split('\n')).slice(0, 3).join('\n');
}
