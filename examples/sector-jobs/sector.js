// @ts-check
// Works off one job in a process of its own: node sector.js JOB.json RESULT.bin
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { serialize } from 'node:v8';
import { runSectorJob } from '@finial/propagation';
import { openElevationFiles } from '@finial/terrain/node';
import { elevationFile } from './question.js';

const [jobFile = '', resultFile = ''] = process.argv.slice(2);
const job = JSON.parse(readFileSync(jobFile, 'utf8'));
const elevation = await openElevationFiles([fileURLToPath(elevationFile)]);
// Keeps the typed arrays as they are; a job itself is plain JSON, a result of a million cells is better not.
writeFileSync(resultFile, serialize(runSectorJob(job, elevation)));
