import { Interrupted, Questioner } from './command/interrupt.js';
import { run } from './commandLine.js';

const stop = new AbortController();
const interrupt = () => stop.abort(new Interrupted());
// Once: whoever presses Ctrl-C a second time does not want to wait for tidying up.
process.once('SIGINT', interrupt);

// A reader that closes the pipe early (`| head`) has seen enough; that is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit();
});

const questioner = new Questioner(interrupt, stop.signal);
process.exitCode = await run(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  isTerminal: process.stderr.isTTY === true,
  columns: process.stdout.columns,
  ask: process.stdin.isTTY === true ? questioner.ask : undefined,
  signal: stop.signal,
});
questioner.close();
