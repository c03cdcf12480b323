import { coverageGeotiff } from '@finial/propagation/export';
import type { SweptCoverage } from '../coveragePart.js';

/** Power of the node at the gateway, cell by cell, for any map program. */
export function coverageFile({ raster, powerDbm }: SweptCoverage): Uint8Array {
  const description = 'Predicted uplink power at the gateway receiver in dBm (ITU-R P.1812, median)';
  return coverageGeotiff({ raster, figures: powerDbm, description });
}
