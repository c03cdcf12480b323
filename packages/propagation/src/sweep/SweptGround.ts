import type { Elevation, LandCoverRaster } from '@finial/terrain';

/** The rasters under a sweep: too large to travel in a job, so they go beside it. */
export interface SweptGround {
  /** Heights of the bare ground. */
  readonly elevation: Elevation;
  /**
   * What covers the ground, for the height of clutter along the radials.
   *
   * @defaultValue none: `clutterHeightM` of the question holds everywhere
   */
  readonly landCover?: LandCoverRaster | undefined;
}
