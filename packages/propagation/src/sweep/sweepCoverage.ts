import type { Elevation, LandCoverRaster } from '@finial/terrain';
import { checkFinite, checkInteger, checkObject, InputError } from '@finial/units';
import type { PathModel } from '../path/RadioPath.js';
import { checkGround, checkQuestion, checkSettings } from './checkQuestion.js';
import { coverageRaster } from './coverageRaster.js';
import type { CoverageRaster, SweepQuestion, SweptModel } from './SweepJob.js';
import type { SweepWatch } from './SweepWatch.js';
import type { SweptGround } from './SweptGround.js';
import { sweepInTurns } from './sweepInTurns.js';
import { sweepUserModel } from './sweepUserModel.js';
import { sweepWithWorkers, type WorkerChoice } from './workers/sweepWithWorkers.js';

/** What {@link sweepCoverage} is asked. */
export interface CoverageOptions extends Omit<SweepQuestion, 'model'> {
  /** Heights of the bare ground. What lies outside has no loss. */
  readonly elevation: Elevation;
  /**
   * What covers the ground, for the height of clutter before the receivers.
   *
   * @defaultValue none: `clutterHeightM` holds everywhere
   */
  readonly landCover?: LandCoverRaster | undefined;
  /**
   * A model as plain data; or a function of your own, which is called for each cell with a profile of its own, on the calling thread, and
   * takes thousands of times as long.
   */
  readonly model: SweptModel | PathModel;
  /**
   * How many workers share the work, 0 to 64; no more than the processor has cores (a page learns that from
   * `navigator.hardwareConcurrency`). Each takes some tenths of a second to start, about as long as half a million cells: workers pay
   * for larger areas, and keep a page wholly free meanwhile.
   *
   * @defaultValue 0: the calling thread does it in short turns, and a page still answers between them
   */
  readonly workers?: number | undefined;
  /**
   * Address of the script that the workers run, for where bundling has moved the package's own out of reach: a script that calls
   * `answerSweeps` of `@finial/propagation/sweepWorker`.
   *
   * @defaultValue the script beside the package's files, where bundlers that know workers put it
   */
  readonly workerUrl?: URL | string | undefined;
  /** Stops the work at once; the promise is rejected with the signal's reason. */
  readonly signal?: AbortSignal | undefined;
  /** Told how far the work is. */
  readonly onProgress?: ((progress: CoverageProgress) => void) | undefined;
}

/** How far {@link sweepCoverage} is. */
export interface CoverageProgress {
  /** Done part of the work, 0 to 1. It only ever grows, and ends at 1. */
  readonly doneRatio: number;
}

/**
 * Loss from a gateway to every cell around it: the standard's own model at each, not an approximation of it.
 *
 * Each cell is a receiver at its own distance and on its own ground. Its obstacles are the samples of the nearest radial, and on those the
 * loss is that of the point-to-point model (below 1e-6 dB apart); what the nearest radial differs from the straight line to the cell is
 * the one approximation, and `radialFactor: 2` makes it smaller. One `deltaN`, and so one effective radius of the Earth, holds for the whole
 * raster. Cells with no sample between them and the gateway have no diffraction. The gateway's own cell has no loss (NaN).
 *
 * The raster is the same bit for bit, however many workers share the work. Tiles on a `SharedArrayBuffer` are read by all workers where
 * they lie; others are copied to shared memory once, or once per worker where a page is not isolated (`crossOriginIsolated`).
 *
 * @returns losses in dB as `float32` (rounded by up to 1e-5 dB), row by row from the north-west on an azimuthal-equidistant grid around
 * the gateway; NaN is no data. Its accuracy against measurements is that of the model
 * @throws {@link InputError} (the promise is rejected) `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option`,
 * `outside-validity`, or `missing` (a void under the gateway); an `Error` if a worker cannot run
 * @source as the model; for the sweep itself, hulls of the profile in place of the maxima of ITU-R P.526: the same algebra
 * @example A plain: nothing but free space
 * ```ts
 * import { sweepCoverage } from '@finial/propagation';
 *
 * const grid = { kind: 'geographic', northDeg: 51, westDeg: 16, rowStepDeg: 1, columnStepDeg: 1 } as const;
 * const tile = { name: 'plain', columns: 2, rows: 2, heightsM: Int16Array.of(90, 90, 90, 90), voidCount: 0, grid };
 * const elevation = { tiles: [tile], voidCount: 0, filledCount: 0 };
 * const gateway = { position: { latitudeDeg: 50.5, longitudeDeg: 16.5 }, antennaHeightM: 1.5 };
 *
 * const raster = await sweepCoverage({
 *   gateway, elevation, frequencyHz: 868.1e6, model: { kind: 'p525' }, radiusM: 1000, cellM: 100, receiverHeightM: 1.5,
 * });
 * raster.lossDb[10]; // ≈ 91.22
 * ```
 */
export async function sweepCoverage(options: CoverageOptions): Promise<CoverageRaster> {
  const {
    model,
    elevation,
    landCover,
    workers = 0,
    workerUrl,
    signal,
    onProgress,
  } = checkObject(options, 'options');
  const ground: SweptGround = { elevation, landCover };
  checkInteger(workers, 'workers', { min: 0, max: 64, unit: 'workers' });
  checkWorkerUrl(workerUrl);
  const progress = growing(onProgress);
  const watch: SweepWatch = { signal, onDoneRatio: progress };
  const raster =
    typeof model === 'function'
      ? await sweepOwnModel(options, model, ground, watch)
      : await sweepStandard({ ...options, model }, ground, { workers, workerUrl }, watch);
  progress(1);
  return raster;
}

async function sweepStandard(
  asked: SweepQuestion,
  ground: SweptGround,
  choice: WorkerChoice,
  watch: SweepWatch,
): Promise<CoverageRaster> {
  const { question, warnings } = checkQuestion(asked);
  checkGround(ground, question.gateway.position);
  watch.signal?.throwIfAborted();
  const sectors =
    choice.workers === 0
      ? [await sweepInTurns(question, ground, watch)]
      : await sweepWithWorkers(question, ground, choice, watch);
  return coverageRaster(question, warnings, sectors);
}

async function sweepOwnModel(
  asked: Omit<SweepQuestion, 'model'>,
  model: PathModel,
  ground: SweptGround,
  watch: SweepWatch,
): Promise<CoverageRaster> {
  const settings = checkSettings(asked);
  checkFinite(settings.frequencyHz, 'frequencyHz', 'hertz');
  checkGround(ground, settings.gateway.position);
  watch.signal?.throwIfAborted();
  const { warnings, ...sector } = await sweepUserModel(settings, model, ground, watch);
  return coverageRaster({ ...settings, model: { kind: 'user' } }, warnings, [sector]);
}

function checkWorkerUrl(workerUrl: unknown): void {
  if (workerUrl === undefined || workerUrl instanceof URL) return;
  if (typeof workerUrl === 'string' && workerUrl !== '') return;
  throw new InputError({
    code: 'wrong-type',
    argument: 'workerUrl',
    received: workerUrl,
    expected: 'a URL, or its text',
  });
}

/** Passes on only what is more than before: reports of several workers may overtake each other, and the last is told once. */
function growing(onProgress: CoverageOptions['onProgress']): (doneRatio: number) => void {
  let told = 0;
  return (doneRatio) => {
    if (doneRatio <= told) return;
    told = doneRatio;
    onProgress?.({ doneRatio });
  };
}
