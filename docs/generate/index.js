// @ts-check
// What the site is made of beside its own pages: pictures, sources and changes. Runs on built packages, before the site is built.
import { copyFile, mkdir, writeFile } from 'node:fs/promises';
import { changesPage } from './changes.js';
import { guidePictures, pictureStyles } from './pictures.js';
import { sourcesPage } from './sources.js';

// Files of the invented place that the worksheets offer to try.
const samples = new URL('../public/fennimara/', import.meta.url);
await mkdir(samples, { recursive: true });
for (const name of ['elevation.tif', 'walk.csv', 'antenna.s1p', 'beacon.csv']) {
  await copyFile(new URL(`../../examples/fennimara/${name}`, import.meta.url), new URL(name, samples));
}

const out = new URL('../generated/', import.meta.url);
await mkdir(new URL('pictures/', out), { recursive: true });
for (const [name, svg] of await guidePictures()) {
  await writeFile(new URL(`pictures/${name}.svg`, out), svg);
}
await writeFile(new URL('pictures.css', out), pictureStyles());
await writeFile(new URL('changes.md', out), await changesPage());
await writeFile(new URL('sources.md', out), sourcesPage());
