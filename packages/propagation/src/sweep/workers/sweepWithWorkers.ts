import { sweepGeometry } from '../SweepGeometry.js';
import type { SectorResult, SweepJob, SweepQuestion } from '../SweepJob.js';
import type { SweepWatch } from '../SweepWatch.js';
import type { SweptGround } from '../SweptGround.js';
import { splitRadials } from '../splitRadials.js';
import type { FromWorker } from './SweepMessages.js';
import { settingForWorkers } from './settingForWorkers.js';
import { type SweepWorker, startWorker } from './startWorker.js';
import { errorOf } from './WorkerFailure.js';

/** More sectors than workers, so that all of them finish at about the same time. */
const sectorsPerWorker = 8;

/** How many workers, and where their script is. */
export interface WorkerChoice {
  readonly workers: number;
  readonly workerUrl: URL | string | undefined;
}

/**
 * Sweeps with workers. Each takes the next sector when it has finished one, so that a slow worker holds up nobody. At the first failure,
 * and at an abort, all workers are ended at once and the promise is rejected. Unchecked.
 */
export function sweepWithWorkers(
  question: SweepQuestion,
  ground: SweptGround,
  { workers, workerUrl }: WorkerChoice,
  { signal, onDoneRatio }: SweepWatch,
): Promise<readonly SectorResult[]> {
  return new Promise((resolve, reject) => {
    const results: SectorResult[] = [];
    const crew: SweepWorker[] = [];
    /** The sectors that no worker has begun. */
    let waiting: readonly SweepJob[] = [];
    /** The sector that each worker is at, and how many of its radials are done. */
    const atWork: { job: SweepJob | undefined; doneRadials: number }[] = [];
    let finishedRadials = 0;
    let allRadials = 0;
    let isEnded = false;

    signal?.addEventListener('abort', onAbort);
    try {
      for (let place = 0; place < workers; place += 1) crew.push(start(place));
      setOff();
    } catch (error) {
      fail(error);
    }

    function start(place: number): SweepWorker {
      return startWorker(workerUrl, {
        onAnswer: (answer) => {
          if (!isEnded) hear(answer, place);
        },
        onFailure: fail,
      });
    }

    /** Lays out the sweep while the workers load their script, and gives each its first sector. */
    function setOff(): void {
      const { radiusM, cellM, radialFactor = 1 } = question;
      const geometry = sweepGeometry(radiusM, cellM, radialFactor);
      allRadials = geometry.radialCount;
      waiting = splitRadials(question, allRadials, Math.min(allRadials, workers * sectorsPerWorker));
      const settingFor = settingForWorkers({ question, ground, geometry });
      for (const [place, worker] of crew.entries()) {
        const { setting, transfer } = settingFor();
        worker.send({ kind: 'setting', ...setting }, transfer);
        giveNext(place);
      }
    }

    function giveNext(place: number): void {
      const [job, ...rest] = waiting;
      waiting = rest;
      atWork[place] = { job, doneRadials: 0 };
      if (job !== undefined) crew[place]?.send({ kind: 'sector', job }, []);
    }

    /** What the caller's own listener throws must end the sweep too, and not the process. */
    function hear(answer: FromWorker, place: number): void {
      try {
        if (answer.kind === 'failure') throw errorOf(answer.failure);
        if (answer.kind === 'result') take(answer.result, place);
        else atWork[place] = { job: atWork[place]?.job, doneRadials: answer.radialCount };
        const done = atWork.reduce((sum, { doneRadials }) => sum + doneRadials, finishedRadials);
        onDoneRatio(done / allRadials);
        if (finishedRadials === allRadials) end(() => resolve(results));
      } catch (error) {
        fail(error);
      }
    }

    function take(result: SectorResult, place: number): void {
      results.push(result);
      finishedRadials += atWork[place]?.job?.radialCount ?? 0;
      giveNext(place);
    }

    function onAbort(): void {
      fail(signal?.reason);
    }

    function fail(error: unknown): void {
      end(() => reject(error));
    }

    function end(settle: () => void): void {
      if (isEnded) return;
      isEnded = true;
      signal?.removeEventListener('abort', onAbort);
      for (const worker of crew) worker.stop();
      settle();
    }
  });
}
