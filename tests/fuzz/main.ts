import { inspect, parseArgs } from 'node:util';
import { isMainThread, parentPort, resourceLimits, Worker, workerData } from 'node:worker_threads';
import { faultOf } from './faultOf.js';
import { Progress } from './Progress.js';
import { type Budget, runTarget, type TargetReport } from './runTarget.js';
import { allTargets, inputOf } from './targets.js';

/** What the watching thread tells the running one. */
interface Orders extends Budget {
  readonly only: string;
  readonly fromTarget: number;
  readonly memory: SharedArrayBuffer;
}

interface Message {
  readonly name: string;
  readonly target: number;
  readonly report: TargetReport;
}

// An input that takes longer, or makes the process larger, is a fault of its own.
const longestSeconds = 10;
const mostBytes = 3e9;

export async function main(script: URL): Promise<void> {
  if (!isMainThread) return await work(workerData as Orders);
  const { values } = parseArgs({
    options: {
      inputs: { type: 'string', default: '1000000' },
      seed: { type: 'string', default: '1' },
      only: { type: 'string', default: '' },
      'seconds-per-target': { type: 'string', default: '600' },
      replay: { type: 'string' },
    },
  });
  if (values.replay !== undefined) return await replay(values.replay);
  const budget = {
    inputs: Number(values.inputs),
    seed: Number(values.seed),
    seconds: Number(values['seconds-per-target']),
  };
  process.exitCode = (await watch(script, { ...budget, only: values.only })) ? 0 : 1;
}

/** Prints one input and what comes of it. */
async function replay(words: string): Promise<void> {
  const [, name, seed, index] = /^(.+):(\d+):(\d+)$/.exec(words) ?? [];
  const target = (await allTargets()).find((one) => one.name === name);
  if (target === undefined) throw new Error('--replay wants target:seed:index');
  const args = inputOf(target, Number(seed), Number(index));
  console.log(inspect(args, { depth: 8, maxArrayLength: 50, maxStringLength: 4000 }));
  const started = performance.now();
  const fault = await faultOf(target, args);
  console.log(fault ?? 'no fault', `(${Math.round(performance.now() - started)} ms)`);
  try {
    const value: unknown = await target.call(...(args as never[]));
    console.log(inspect(value, { depth: 4, maxArrayLength: 20, maxStringLength: 400 }));
  } catch (error) {
    console.log(error);
  }
}

/** Runs targets one after the other in this thread. */
async function work({ only, fromTarget, memory, ...budget }: Orders): Promise<void> {
  const progress = new Progress(memory);
  // The readers warn of damaged blocks on the console, once per block.
  console.warn = () => undefined;
  const targets = await allTargets();
  for (const [place, target] of targets.entries()) {
    if (place < fromTarget || !target.name.includes(only)) continue;
    const from = place === fromTarget ? budget.from : 0;
    const report = await runTarget(target, { ...budget, from }, (index) => progress.enter(place, index));
    progress.rest();
    const message: Message = { name: target.name, target: place, report };
    parentPort?.postMessage(message);
  }
}

/** Keeps a working thread going, past each input that hangs or kills it; true where nothing was found. */
async function watch(script: URL, orders: Omit<Orders, 'fromTarget' | 'memory'>): Promise<boolean> {
  const names = (await allTargets()).map(({ name }) => name);
  let isClean = true;
  let next: { readonly fromTarget: number; readonly from: number } | undefined = { fromTarget: 0, from: 0 };
  while (next !== undefined) {
    const progress = new Progress();
    const worker = new Worker(script, {
      workerData: { ...orders, ...next, memory: progress.memory },
      resourceLimits: { ...resourceLimits, maxOldGenerationSizeMb: 1500 },
    });
    const lost = await new Promise<string | undefined>((settle) => {
      const timer = setInterval(() => {
        if (progress.now().seconds > longestSeconds) settle(`took more than ${longestSeconds} s`);
        if (process.memoryUsage.rss() > mostBytes) settle(`the process grew beyond ${mostBytes} bytes`);
      }, 250);
      worker.on('message', (message: Message) => {
        isClean = print(message, orders.seed) && isClean;
      });
      worker.on('error', (error) => settle(`ended the thread: ${String(error)}`));
      worker.on('exit', (code) => settle(code === 0 ? undefined : `ended the thread with ${code}`));
      void settled().then(() => clearInterval(timer));
      async function settled(): Promise<void> {
        await new Promise((resolve) => worker.once('exit', resolve));
      }
    });
    await worker.terminate();
    next = undefined;
    if (lost === undefined) continue;
    isClean = false;
    const { target, index } = progress.now();
    console.log(`FAULT ${names[target]}:${orders.seed}:${index} ${lost}`);
    next = { fromTarget: target, from: index + 1 };
  }
  return isClean;
}

function print({ name, report }: Message, seed: number): boolean {
  const { to, seconds, slowestSeconds, slowestIndex, faults } = report;
  const slowest = slowestSeconds > 0.2 ? `, slowest ${slowestSeconds.toFixed(2)} s at ${slowestIndex}` : '';
  console.log(`${name}: ${to} inputs in ${seconds.toFixed(1)} s${slowest}`);
  for (const { index, what, count } of faults.slice(0, 12))
    console.log(`FAULT ${name}:${seed}:${index} (${count} times) ${what}`);
  return faults.length === 0;
}
