import { sweepGeometry } from './SweepGeometry.js';
import type { CoverageRaster, SectorResult } from './SweepJob.js';

/** Puts the losses of all sectors into one raster, in whatever order they came. Unchecked. */
export function coverageRaster(
  question: CoverageRaster['question'],
  questionWarnings: readonly string[],
  sectors: readonly SectorResult[],
): CoverageRaster {
  const { gateway, radiusM, cellM, radialFactor = 1 } = question;
  const { size, order } = sweepGeometry(radiusM, cellM, radialFactor);
  const lossDb = new Float32Array(size * size).fill(Number.NaN);
  let missingCount = 0;
  for (const sector of sectors) {
    missingCount += sector.missingCount;
    for (let place = 0; place < sector.cellIndex.length; place += 1) {
      lossDb[sector.cellIndex[place] as number] = sector.lossDb[place] as number;
    }
  }
  const missing = `${missingCount} of ${order.length} cells have no loss: the ground there, or before it, is not known`;
  return {
    kind: 'coverage',
    columns: size,
    rows: size,
    cellM,
    radiusM,
    origin: gateway.position,
    lossDb,
    missingCount,
    question,
    warnings: missingCount === 0 ? questionWarnings : [...questionWarnings, missing],
  };
}
