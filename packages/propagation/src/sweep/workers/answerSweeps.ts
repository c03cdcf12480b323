import { answerMessages } from './answerMessages.js';
import { nodeThreads } from './nodeThreads.js';
import type { ToWorker } from './SweepMessages.js';

/** The part of a browser's worker scope that is used here; the types of a page have another `self`. */
interface WorkerScope {
  addEventListener(event: 'message', listener: (event: { readonly data: ToWorker }) => void): void;
  postMessage(message: unknown, transfer: readonly Transferable[]): void;
}

/**
 * Makes a worker work for `sweepCoverage`, in Node and in browsers: the one call in the script of such a worker.
 *
 * The package brings that script along, and bundlers that know workers find it. It is needed for the others: bundle a script of your own
 * that calls this, and hand its address to `sweepCoverage` as `workerUrl`.
 *
 * @returns whether this is a worker; on a main thread nothing is done
 * @example On a main thread
 * ```ts
 * import { answerSweeps } from '@finial/propagation/sweepWorker';
 *
 * answerSweeps(); // → false
 * ```
 */
export function answerSweeps(): boolean {
  const { WorkerGlobalScope: Scope } = globalThis as unknown as {
    readonly WorkerGlobalScope?: abstract new () => unknown;
  };
  if (Scope !== undefined && globalThis instanceof Scope) {
    const scope = globalThis as unknown as WorkerScope;
    const receive = answerMessages((answer, transfer) => scope.postMessage(answer, transfer));
    scope.addEventListener('message', ({ data }) => receive(data));
    return true;
  }
  const port = nodeThreads()?.parentPort;
  if (port === undefined || port === null) return false;
  const receive = answerMessages((answer, transfer) => port.postMessage(answer, transfer));
  port.on('message', (message) => receive(message as ToWorker));
  return true;
}
