/** What a sweep uses of Node's `worker_threads`. */
export interface NodeThreads {
  readonly parentPort: NodePort | null;
  readonly Worker: new (script: URL | string, options: { readonly execArgv?: string[] }) => NodeWorker;
}

/** The worker's end of the line to the thread that started it. */
export interface NodePort {
  on(event: 'message', listener: (message: unknown) => void): unknown;
  postMessage(message: unknown, transfer: readonly Transferable[]): void;
}

/** The other end. */
export interface NodeWorker {
  on(event: 'message' | 'messageerror' | 'error', listener: (value: unknown) => void): unknown;
  on(event: 'exit', listener: (exitCode: number) => void): unknown;
  postMessage(message: unknown, transfer: readonly Transferable[]): void;
  terminate(): Promise<number>;
}

/** What is used of Node's global `process`. */
interface NodeProcess {
  readonly execArgv?: readonly string[] | undefined;
  readonly getBuiltinModule?: ((name: string) => unknown) | undefined;
}

/**
 * Node's threads, or `undefined` where there is no Node. Asked for at run time: an import of a Node module would keep browsers from
 * loading the package, and bundlers from bundling it.
 */
export function nodeThreads(): NodeThreads | undefined {
  return nodeProcess()?.getBuiltinModule?.('node:worker_threads') as NodeThreads | undefined;
}

/** Settings for a worker. It takes over the words that Node was started with, but a file cannot be loaded under `--input-type`. */
export function workerOptions(): { readonly execArgv?: string[] } {
  const isTyped = nodeProcess()?.execArgv?.some((word) => word.startsWith('--input-type')) ?? false;
  return isTyped ? { execArgv: [] } : {};
}

function nodeProcess(): NodeProcess | undefined {
  return (globalThis as unknown as { readonly process?: NodeProcess | undefined }).process;
}
