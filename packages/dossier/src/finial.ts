import { run } from './commandLine.js';

process.exitCode = await run(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  isTerminal: process.stderr.isTTY === true,
});
