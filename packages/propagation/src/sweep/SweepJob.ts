import type { GeoPosition } from '@finial/terrain';
import type { HataSettings } from '../hata/model.js';
import type { LinearPolarisation } from '../path/RadioPath.js';

/** Free space alone. */
export interface SweptFreeSpace {
  /** Recommendation ITU-R P.525. */
  readonly kind: 'p525';
}

/** Free space and delta-Bullington diffraction. */
export interface SweptDiffraction {
  /** Recommendation ITU-R P.526. */
  readonly kind: 'p526';
  /**
   * Fall of refractivity over the lowest kilometre in N-units per kilometre, -200 to 150. One value holds for the whole raster, and with it
   * one effective radius of the Earth: 0.15 N-units amiss move the bulge by about 1 cm in the middle of 20 km.
   */
  readonly deltaN: number;
}

/** The whole path-specific prediction. */
export interface SweptPrediction {
  /** Recommendation ITU-R P.1812. */
  readonly kind: 'p1812';
  /** Fall of refractivity over the lowest kilometre in N-units per kilometre, 1 to 120; one value for the whole raster. */
  readonly deltaN: number;
  /** Refractivity at sea level (N0) in N-units, 200 to 500; one value for the whole raster. */
  readonly surfaceRefractivity: number;
  /**
   * Share of the average year in percent for which the loss is not exceeded, 1 to 50.
   *
   * @defaultValue 50
   */
  readonly timePercent?: number | undefined;
  /**
   * Share of the places around the receiver in percent at which the loss is not exceeded, 1 to 99.
   *
   * @defaultValue 50
   */
  readonly locationPercent?: number | undefined;
  /** Standard deviation from place to place in dB, 0 to 40; needed where `locationPercent` is not 50. */
  readonly locationSigmaDb?: number | undefined;
}

/** Okumura-Hata, which knows no terrain. */
export interface SweptHata extends HataSettings {
  /** Okumura-Hata. */
  readonly kind: 'hata';
}

/** The models that a sweep computes by its own kernels, as plain data that can go to another process. */
export type SweptModel = SweptFreeSpace | SweptDiffraction | SweptPrediction | SweptHata;

/** The site that is asked about. */
export interface SweptGateway {
  /** Where the mast stands, WGS 84. */
  readonly position: GeoPosition;
  /** Height of the antenna above the ground in metres, 0.1 to 3000. */
  readonly antennaHeightM: number;
}

/**
 * What a sweep computes, as plain data.
 *
 * Every cell of the raster is a receiver at its own distance and on its own ground; the obstacles before it are those of the nearest
 * radial, sampled at multiples of the cell. So the loss is that of the point-to-point model on exactly that profile.
 */
export interface SweepQuestion {
  /** The gateway in the middle of the raster. */
  readonly gateway: SweptGateway;
  /** Frequency in hertz; each model states its own range. */
  readonly frequencyHz: number;
  /**
   * Orientation of the electric field.
   *
   * @defaultValue `vertical`
   */
  readonly polarisation?: LinearPolarisation | undefined;
  /** The model and its settings. */
  readonly model: SweptModel;
  /** Radius of the area in metres: at least one cell, at most 3000 cells. */
  readonly radiusM: number;
  /** Side of a cell, and distance between the samples of a radial, in metres, 1 to 10000. */
  readonly cellM: number;
  /** Height of the receiving antennas above their ground in metres, 0.1 to 3000. */
  readonly receiverHeightM: number;
  /**
   * Height of clutter over all ground that is not sea, in metres, 0 to 200. It never counts at the two ends of a path. A raster of land cover
   * goes beside the elevation instead (`landCover` of `sweepCoverage`).
   *
   * @defaultValue 0
   */
  readonly clutterHeightM?: number | undefined;
  /**
   * 2 takes twice as many radials, so that the obstacles lie nearer to each cell's own line.
   *
   * @defaultValue 1: radials one cell apart at the rim
   */
  readonly radialFactor?: 1 | 2 | undefined;
  /**
   * Ground at or below this height in metres above sea level counts as sea.
   *
   * @defaultValue none: all land is inland
   */
  readonly seaLevelM?: number | undefined;
}

/** A share of a sweep: some neighbouring radials, as plain JSON that any process with the same elevation can work off. */
export interface SweepJob extends SweepQuestion {
  /** First radial of this job, counted clockwise from north from 0. */
  readonly firstRadial: number;
  /** How many radials this job covers. */
  readonly radialCount: number;
}

/** The losses that one job found. */
export interface SectorResult {
  /** Index of each cell in the raster, row by row from the north-west corner. */
  readonly cellIndex: Int32Array;
  /** Loss of each cell between isotropic antennas in dB; NaN where the ground of the cell or before it is not known. */
  readonly lossDb: Float32Array;
  /** How many of them are NaN. */
  readonly missingCount: number;
}

/** What was asked of a model of the caller's own, which is code and no data: only that there was one is kept. */
export interface UserModelQuestion extends Omit<SweepQuestion, 'model'> {
  /** A function of the caller. */
  readonly model: {
    /** A function of the caller. */
    readonly kind: 'user';
  };
}

/** Losses over an area around a gateway. Plain data: it can be stored, sent to a worker, and drawn by anything. */
export interface CoverageRaster {
  /** What this is, for whoever finds it in a file. */
  readonly kind: 'coverage';
  /** Count of columns, odd: the gateway is in the middle. */
  readonly columns: number;
  /** Count of rows, as many as columns. */
  readonly rows: number;
  /** Side of a cell in metres. */
  readonly cellM: number;
  /** Radius of the area in metres. */
  readonly radiusM: number;
  /** Centre of the middle cell: the gateway. */
  readonly origin: GeoPosition;
  /**
   * Loss between isotropic antennas in dB, row by row from the north-west corner. NaN means no data: outside the radius, the gateway's own
   * cell, or ground that is not known.
   */
  readonly lossDb: Float32Array;
  /** Cells inside the radius without a loss because the ground there, or before it, is not known. */
  readonly missingCount: number;
  /** What was asked. */
  readonly question: SweepQuestion | UserModelQuestion;
  /** What a reader should know. */
  readonly warnings: readonly string[];
}
