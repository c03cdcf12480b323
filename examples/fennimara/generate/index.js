// @ts-check
// Writes the data of Fennimara: node examples/fennimara/generate/index.js
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { antennaSweep, sweeps } from './antennaSweep.js';
import { beacon, beaconCsv, beaconTable } from './beacon.js';
import { encodeGeotiff } from './geotiffFile.js';
import { buildHouses } from './houses.js';
import { elevationGrid, gateway, inventedNotice, seed } from './place.js';
import { createRadioPath } from './radioPath.js';
import { createTerrain, northWestCorner, rasterise } from './terrain.js';
import { toCsv, walk } from './walk.js';
import { summaryTable } from './walkSummary.js';

/** @import { BeaconFrame } from './beacon.js' */
/** @import { SentFrame } from './walk.js' */

/**
 * Everything about the island, in memory.
 *
 * @returns {{ files: ReadonlyMap<string, Uint8Array>, frames: SentFrame[], beaconFrames: BeaconFrame[] }} files by name
 */
export function generateFennimara() {
  const terrain = createTerrain(seed);
  const pathLoss = createRadioPath({ seed, terrain, houses: buildHouses(seed), site: gateway });
  const frames = walk({ seed, terrain, site: gateway, pathLoss });
  const beaconFrames = beacon({ seed, site: gateway, pathLoss });
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
    ['beacon.csv', text.encode(beaconCsv(beaconFrames))],
    ...sweeps.map((taken) => /** @type {const} */ ([taken.file, text.encode(antennaSweep(seed, taken))])),
  ]);
  return { files, frames, beaconFrames };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { files, frames, beaconFrames } = generateFennimara();
  for (const [name, content] of files) writeFileSync(new URL(`../${name}`, import.meta.url), content);
  console.log(summaryTable(frames));
  console.log(beaconTable(beaconFrames));
}
