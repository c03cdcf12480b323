import { nextTurn } from './nextTurn.js';
import { sweepGeometry } from './SweepGeometry.js';
import type { SectorResult, SweepQuestion } from './SweepJob.js';
import type { SweepWatch } from './SweepWatch.js';
import type { SweptGround } from './SweptGround.js';
import { sweepRadials } from './sweepSector.js';

/** Some 10 to 30 ms of work for a laptop. */
const receiversPerTurn = 32_768;

/** Sweeps all radials on this thread, with a pause after every few radials. Unchecked. */
export async function sweepInTurns(
  question: SweepQuestion,
  ground: SweptGround,
  { signal, onDoneRatio }: SweepWatch,
): Promise<SectorResult> {
  const { radiusM, cellM, radialFactor = 1 } = question;
  const { order, radialCount } = sweepGeometry(radiusM, cellM, radialFactor);
  const radialsPerTurn = Math.ceil((receiversPerTurn * radialCount) / order.length);
  const steps = sweepRadials({ ...question, firstRadial: 0, radialCount }, ground);
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done) return step.value;
    if (step.value % radialsPerTurn !== 0) continue;
    onDoneRatio(step.value / radialCount);
    await nextTurn();
    signal?.throwIfAborted();
  }
}
