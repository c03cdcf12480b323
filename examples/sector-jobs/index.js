// @ts-check
// A coverage in several processes: node examples/sector-jobs/index.js FOLDER [JOBS]
// The processes share nothing but files, so they could as well run on several machines.
import { execFile } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { deserialize, serialize } from 'node:v8';
import { mergeSectors, sectorJobs } from '@finial/propagation';
import { question } from './question.js';

const [folder = 'examples/out/sector-jobs', jobsText = '3'] = process.argv.slice(2);
mkdirSync(folder, { recursive: true });

const worker = fileURLToPath(new URL('sector.js', import.meta.url));
const sectors = await Promise.all(
  sectorJobs(question, Number(jobsText)).map(async (job, place) => {
    const jobFile = join(folder, `sector-${place + 1}.json`);
    const resultFile = join(folder, `sector-${place + 1}.bin`);
    writeFileSync(jobFile, JSON.stringify(job));
    await promisify(execFile)(process.execPath, [worker, jobFile, resultFile]);
    return deserialize(readFileSync(resultFile));
  }),
);

const raster = mergeSectors(sectors);
writeFileSync(join(folder, 'coverage.bin'), serialize(raster));

const losses = raster.lossDb.filter((lossDb) => !Number.isNaN(lossDb)).sort();
const medianLossDb = losses[Math.floor(losses.length / 2)] ?? Number.NaN;
console.log(
  `${sectors.length} processes, ${losses.length} cells of ${raster.cellM} m, half of them below ${medianLossDb.toFixed(1)} dB`,
);
