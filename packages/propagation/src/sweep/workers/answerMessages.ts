import { keepGeometry } from '../SweepGeometry.js';
import type { SweptGround } from '../SweptGround.js';
import { sweepRadials } from '../sweepSector.js';
import type { FromWorker, ToWorker } from './SweepMessages.js';
import { failureOf } from './WorkerFailure.js';

/** Sends an answer, with the buffers that go along instead of being copied. */
export type Answer = (answer: FromWorker, transfer: readonly Transferable[]) => void;

const radialsPerReport = 16;

/** What a worker does with its messages, the same in Node and in browsers. */
export function answerMessages(answer: Answer): (message: ToWorker) => void {
  let ground: SweptGround | undefined;
  return (message) => {
    try {
      if (message.kind === 'setting') {
        ({ ground } = message);
        keepGeometry(message.question, message.geometry);
      } else if (message.kind === 'sector') sweep(message.job);
    } catch (error) {
      answer({ kind: 'failure', failure: failureOf(error) }, []);
    }
  };

  function sweep(job: Extract<ToWorker, { kind: 'sector' }>['job']): void {
    if (ground === undefined) throw new Error('a sector came before the ground');
    const steps = sweepRadials(job, ground);
    let reported = 0;
    let step = steps.next();
    for (; !step.done; step = steps.next()) {
      if (step.value - reported < radialsPerReport) continue;
      answer({ kind: 'progress', radialCount: step.value }, []);
      reported = step.value;
    }
    const { cellIndex, lossDb, missingCount } = step.value;
    const result = { cellIndex: owned(cellIndex), lossDb: owned(lossDb), missingCount };
    answer({ kind: 'result', result }, [result.cellIndex.buffer, result.lossDb.buffer]);
  }
}

/** The same numbers alone in their buffer: what is sent away must not take neighbours along. */
function owned<Series extends Int32Array | Float32Array>(series: Series): Series & { buffer: ArrayBuffer } {
  const { buffer, byteLength } = series;
  const isAlone = buffer instanceof ArrayBuffer && buffer.byteLength === byteLength;
  return (isAlone ? series : series.slice()) as Series & { buffer: ArrayBuffer };
}
