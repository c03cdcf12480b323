import { getDecoder } from 'geotiff';
import { fetchSweepScript } from './sweepCrew.js';

/** No compression, LZW, and deflate: those that the terrain package reads. */
const compressions = [1, 5, 8] as const;

/** Loads what a calculation would else fetch when it is first needed: decoders of tiles, and the script of the sweep's workers. */
export async function prepareTerrain(): Promise<void> {
  await Promise.all([...compressions.map(loadDecoder), fetchSweepScript()]);
}

async function loadDecoder(compression: number): Promise<void> {
  // The library loads a decoder's code when it makes one; what it is made for does not matter here.
  await getDecoder(compression, {
    tileWidth: 1,
    tileHeight: 1,
    planarConfiguration: 1,
    bitsPerSample: [8],
    predictor: 1,
  });
}
