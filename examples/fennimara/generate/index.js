// @ts-check
// Writes the data of Fennimara: node examples/fennimara/generate/index.js
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { antennaSweep } from './antennaSweep.js';
import { encodeGeotiff } from './geotiffFile.js';
import { buildHouses } from './houses.js';
import { elevationGrid, gateway, inventedNotice, seed } from './place.js';
import { createRadioPath } from './radioPath.js';
import { createTerrain, northWestCorner, rasterise } from './terrain.js';
import { toCsv, walk } from './walk.js';
import { summaryTable } from './walkSummary.js';

/**
 * Everything about the island, in memory.
 *
 * @returns {{ files: ReadonlyMap<string, Uint8Array>, frames: import('./walk.js').SentFrame[] }} files by name
 */
export function generateFennimara() {
  const terrain = createTerrain(seed);
  const pathLoss = createRadioPath({ seed, terrain, houses: buildHouses(seed), site: gateway });
  const frames = walk({ seed, terrain, site: gateway, pathLoss });
  const elevation = encodeGeotiff({
    heights: rasterise(terrain),
    ...elevationGrid,
    northWestCorner: northWestCorner(),
    noDataM: -32768,
    description: `${inventedNotice} Heights in metres above the sea, which is 0.`,
  });
  const text = new TextEncoder();
  const files = new Map([
    ['elevation.tif', elevation],
    ['walk.csv', text.encode(toCsv(frames))],
    ['antenna.s1p', text.encode(antennaSweep(seed))],
  ]);
  return { files, frames };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { files, frames } = generateFennimara();
  for (const [name, content] of files) writeFileSync(new URL(`../${name}`, import.meta.url), content);
  console.log(summaryTable(frames));
}
