// @ts-check
// The page of changes: what waits for the next release, and what the packages' own lists say.
import { readdir, readFile } from 'node:fs/promises';

const root = new URL('../../', import.meta.url);

/** @returns {Promise<string>} Markdown */
export async function changesPage() {
  const waiting = await waitingChanges();
  const released = await releasedChanges();
  return [
    '---\ntitle: Changes\n---\n\n# Changes\n',
    'Versions follow semantic versioning; what counts as breaking is written in DEVELOPERS.md of the repository.\n',
    ...(waiting.length === 0 ? [] : ['## Not released yet\n', ...waiting]),
    ...released,
  ].join('\n');
}

/** @returns {Promise<string[]>} one entry for each changeset */
async function waitingChanges() {
  const folder = new URL('.changeset/', root);
  const names = (await readdir(folder)).filter((name) => name.endsWith('.md') && name !== 'README.md');
  return Promise.all(
    names.sort().map(async (name) => {
      const [, front = '', text = ''] =
        (await readFile(new URL(name, folder), 'utf8')).match(/^---\n([\s\S]*?)\n---\n([\s\S]*)$/) ?? [];
      const packages = [...front.matchAll(/'(.+?)': (\w+)/g)].map(
        ([, name, size]) => `\`${name}\` (${size})`,
      );
      return `**${packages.join(', ')}**\n\n${safe(text.trim())}\n`;
    }),
  );
}

/** @returns {Promise<string[]>} the packages' change logs, where a release has made them */
async function releasedChanges() {
  const folder = new URL('packages/', root);
  const texts = await Promise.all(
    (await readdir(folder)).map((name) =>
      readFile(new URL(`${name}/CHANGELOG.md`, folder), 'utf8').catch(() => ''),
    ),
  );
  return texts.filter((text) => text !== '').map((text) => safe(text.replace(/^(#+) /gm, '#$1 ')));
}

/**
 * Text that the site takes as text: no tags, no interpolation.
 *
 * @param {string} text
 */
function safe(text) {
  return text.replace(/<(?=[a-z/!])/gi, '&lt;').replaceAll('{{', '&#123;&#123;');
}
