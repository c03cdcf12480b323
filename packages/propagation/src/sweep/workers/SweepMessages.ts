import type { SweepGeometry } from '../SweepGeometry.js';
import type { SectorResult, SweepJob, SweepQuestion } from '../SweepJob.js';
import type { SweptGround } from '../SweptGround.js';
import type { WorkerFailure } from './WorkerFailure.js';

/** All that is needed for any sector. */
export interface SweepSetting {
  readonly question: SweepQuestion;
  readonly ground: SweptGround;
  readonly geometry: SweepGeometry;
}

/** What a worker is told: the setting once, then one sector after the other. */
export type ToWorker =
  | ({ readonly kind: 'setting' } & SweepSetting)
  | { readonly kind: 'sector'; readonly job: SweepJob };

/** What a worker answers. */
export type FromWorker =
  | { readonly kind: 'progress'; readonly radialCount: number }
  | { readonly kind: 'result'; readonly result: SectorResult }
  | { readonly kind: 'failure'; readonly failure: WorkerFailure };
