import type { Elevation } from './parts.js';
import { checkElevation } from './tile/checkElevation.js';
import { elevationSampler } from './tile/elevationSampler.js';
import { fillHeights } from './tile/fillHeights.js';

/** Heights position by position, for inner loops: nothing is checked. */
export interface HeightSampler {
  /** Height in metres above sea level; NaN at a void and outside all tiles. */
  heightM(latitudeDeg: number, longitudeDeg: number): number;
  /**
   * Writes the heights of the first `count` places of two series in degrees into a third, NaN for no data: the same values as
   * {@link HeightSampler.heightM | heightM}, several times as fast.
   */
  fill(latitudesDeg: Float64Array, longitudesDeg: Float64Array, count: number, heightsM: Float64Array): void;
}

/**
 * Prepares an elevation for many questions one by one, as a sweep over a map asks them. The elevation is checked here, once; the
 * positions are not, and a wrong one gives NaN or the height of some other place. {@link sampleHeightsM} checks them all.
 *
 * @returns an object whose `heightM` gives metres, NaN for no data, with the accuracy of {@link heightAtM}
 * @throws {@link InputError} `wrong-type`, `missing` or `out-of-range`: not an elevation
 * @source Bilinear interpolation in rows and columns: common practice, no source
 * @example
 * ```ts
 * import { heightSampler, openElevation } from '@finial/terrain';
 *
 * const text = 'ncols 2\nnrows 2\nxllcenter 7\nyllcenter 50\ncellsize 0.5\n120 140\n100 160\n';
 * const elevation = await openElevation([{ name: 'hill.asc', bytes: new TextEncoder().encode(text) }]);
 * heightSampler(elevation).heightM(50, 7.5); // ≈ 160
 * ```
 */
export function heightSampler(elevation: Elevation): HeightSampler {
  checkElevation(elevation);
  const { heightM } = elevationSampler(elevation);
  return {
    heightM,
    fill(latitudesDeg, longitudesDeg, count, heightsM) {
      heightsM.fill(Number.NaN, 0, count);
      for (const tile of elevation.tiles) {
        // A tile in another grid may be the more trusted one: what is left goes place by place.
        if (tile.grid.kind !== 'geographic') break;
        fillHeights(tile, tile.grid, latitudesDeg, longitudesDeg, count, heightsM);
      }
      for (let index = 0; index < count; index += 1) {
        if (!Number.isFinite(heightsM[index])) {
          heightsM[index] = heightM(latitudesDeg[index] as number, longitudesDeg[index] as number);
        }
      }
    },
  };
}
