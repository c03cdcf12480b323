// @ts-check
// Pictures of the guide: those of the demo's dossier.
import { readFile } from 'node:fs/promises';
import { assembleDossier, parsePlan, renderHtml } from '@finial/dossier';
// The style sheet is no part of the package's public face; the site is built beside it.
import { darkColours, lightColours, pictureRules } from '../../packages/dossier/dist/page/stylesheet.js';

const folder = new URL('../../examples/fennimara/', import.meta.url);

/** Which picture of the page is which in the guide, by the id of its title there. */
const names = new Map([
  ['uplink', 'level-up'],
  ['downlink', 'level-down'],
  ['sweep', 'sweep'],
  ['pattern', 'pattern'],
  ['chain', 'chain'],
  ['chain-1', 'basket'],
  ['day', 'day'],
  ['profile', 'profile'],
  ['skyline', 'skyline'],
  ['coverage-map', 'coverage-map'],
  ['sites', 'sites'],
  ['spot-map', 'spot-map'],
  ['level-distance', 'level-distance'],
  ['predicted-measured', 'predicted-measured'],
  ['residual-map', 'residual-map'],
  ['reception-map', 'reception-map'],
  ['beacon-level', 'beacon-level'],
]);

/**
 * Draws the demo's dossier and cuts its pictures out.
 *
 * @returns {Promise<ReadonlyMap<string, string>>} SVG texts by name
 */
export async function guidePictures() {
  const page = renderHtml(await demoDossier());
  const relief = page.match(/<svg class="store"[\s\S]*?<\/svg>/)?.[0] ?? '';
  /** @type {Map<string, string>} */
  const pictures = new Map();
  // A picture with the legends that stand below it.
  const drawn =
    /<svg class="picture"[^>]*aria-labelledby="(\S+)-title [\s\S]*?<\/svg>(?:\s*<ul class="legend"[\s\S]*?<\/ul>)*/g;
  for (const [svg, id = ''] of page.matchAll(drawn)) {
    const name = names.get(id);
    if (name === undefined) continue;
    // Links to places of the dossier lead nowhere here.
    const still = svg.replace(/<a [^>]*>|<\/a>/g, '').replace('role="group"', 'role="img"');
    pictures.set(name, svg.includes('#relief') ? relief + still : still);
  }
  const missing = [...names.values()].filter((name) => !pictures.has(name));
  if (missing.length > 0) throw new Error(`the dossier has no picture ${missing.join(', ')}`);
  return pictures;
}

async function demoDossier() {
  const plan = parsePlan(await readFile(new URL('plan.json', folder), 'utf8'));
  const files = [
    ...(plan.terrain?.elevation ?? []),
    ...(plan.antenna?.sweeps ?? []).map(({ file }) => file),
    plan.walk?.file,
    plan.beacon?.file,
  ];
  /** @type {Record<string, Uint8Array>} */
  const contents = {};
  for (const name of files) if (name !== undefined) contents[name] = await readFile(new URL(name, folder));
  return assembleDossier(plan, contents);
}

/** @returns {string} the style sheet of the pictures, with the colours of the site's light and dark pages */
export function pictureStyles() {
  return `:root{${lightColours}}\n.dark{${darkColours}}\n${pictureRules}\n`;
}
