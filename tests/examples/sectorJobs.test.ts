import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { deserialize } from 'node:v8';
import { type CoverageRaster, sweepCoverage } from '@finial/propagation';
import { openElevation } from '@finial/terrain';
import { expect, test } from 'vitest';
import { elevationFile, question } from '../../examples/sector-jobs/question.js';

test.each([1, 3])(
  '%i processes together give the raster of one',
  async (jobsCount) => {
    const isBuilt = existsSync('packages/propagation/dist/index.js');
    expect(isBuilt, 'the packages are built before the tests (the test command does it)').toBe(true);
    const folder = mkdtempSync(join(tmpdir(), 'finial-sectors-'));
    const words = ['examples/sector-jobs/index.js', folder, String(jobsCount)];
    const { stdout, stderr } = await promisify(execFile)(process.execPath, words);
    expect(stderr).toBe('');
    expect(stdout).toMatch(new RegExp(`^${jobsCount} processes, \\d+ cells of 30 m`));
    const elevation = await openElevation([{ name: 'elevation.tif', bytes: readFileSync(elevationFile) }]);
    const merged = deserialize(readFileSync(join(folder, 'coverage.bin'))) as CoverageRaster;
    expect(merged).toEqual(await sweepCoverage({ ...question, elevation }));
    // A circle of 100 cells, without the gateway's own: Gauss's count of lattice points for 100.
    expect(merged.lossDb.filter((lossDb) => !Number.isNaN(lossDb)).length + merged.missingCount).toBe(31_416);
  },
  60_000,
);
