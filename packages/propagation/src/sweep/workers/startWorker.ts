import { InputError } from '@finial/units';
import { nodeThreads, workerOptions } from './nodeThreads.js';
import type { FromWorker, ToWorker } from './SweepMessages.js';

/** A worker that runs, be it Node's or a browser's. */
export interface SweepWorker {
  /** Sends a message; buffers in `transfer` go along instead of being copied. */
  send(message: ToWorker, transfer: readonly Transferable[]): void;
  /** Ends the worker at once, whatever it is doing. It says nothing after that. */
  stop(): void;
}

/** Who hears of a worker. */
export interface WorkerListener {
  onAnswer(answer: FromWorker): void;
  /** Called when the worker cannot go on: its script was not found or threw, or the worker ended by itself. */
  onFailure(error: Error): void;
}

/**
 * Starts a worker.
 *
 * @param workerUrl - address of its script; by default the one beside this file
 */
export function startWorker(workerUrl: URL | string | undefined, listener: WorkerListener): SweepWorker {
  if (typeof Worker === 'function') return startWebWorker(workerUrl, listener);
  const threads = nodeThreads();
  if (threads !== undefined) return startNodeWorker(threads, workerUrl, listener);
  throw new InputError({
    code: 'out-of-range',
    argument: 'workers',
    received: 'more than 0',
    expected: '0, since nothing here can start workers',
  });
}

function startWebWorker(
  workerUrl: URL | string | undefined,
  { onAnswer, onFailure }: WorkerListener,
): SweepWorker {
  // Bundlers look for exactly this expression, and put the script where it is then found.
  const worker =
    workerUrl === undefined
      ? new Worker(new URL('./sweepWorker.js', import.meta.url), { type: 'module' })
      : new Worker(workerUrl, { type: 'module' });
  worker.addEventListener('message', ({ data }: MessageEvent<FromWorker>) => onAnswer(data));
  worker.addEventListener('messageerror', () => onFailure(new Error('an answer of a worker was unreadable')));
  worker.addEventListener('error', (event) => {
    event.preventDefault();
    // A script that is not there gives an event without a message.
    onFailure(workerError(event.message || 'its script could not be loaded (workerUrl says where it is)'));
  });
  return {
    send: (message, transfer) => worker.postMessage(message, [...transfer]),
    stop: () => worker.terminate(),
  };
}

function startNodeWorker(
  threads: NonNullable<ReturnType<typeof nodeThreads>>,
  workerUrl: URL | string | undefined,
  { onAnswer, onFailure }: WorkerListener,
): SweepWorker {
  const worker = new threads.Worker(nodeScript(workerUrl), workerOptions());
  worker.on('message', (answer) => onAnswer(answer as FromWorker));
  worker.on('messageerror', (error) => onFailure(workerError('an answer was unreadable', error)));
  worker.on('error', (error) =>
    onFailure(workerError(error instanceof Error ? error.message : String(error), error)),
  );
  worker.on('exit', (exitCode) => onFailure(workerError(`it ended by itself with code ${exitCode}`)));
  return {
    send: (message, transfer) => worker.postMessage(message, transfer),
    stop: () => void worker.terminate(),
  };
}

function nodeScript(workerUrl: URL | string | undefined): URL | string {
  // Not the expression above: bundlers for browsers would take it for a file to copy.
  if (workerUrl === undefined) return new URL(import.meta.url.replace(/[^/]*$/, 'sweepWorker.js'));
  return typeof workerUrl === 'string' && workerUrl.startsWith('file:') ? new URL(workerUrl) : workerUrl;
}

function workerError(what: string, cause?: unknown): Error {
  return new Error(`a worker of the sweep failed: ${what}`, cause === undefined ? {} : { cause });
}
