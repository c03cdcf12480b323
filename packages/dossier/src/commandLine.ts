import { isInputError } from '@finial/units';
import { Command, CommanderError } from 'commander';
import { addAirtimeCommand } from './command/airtimeCommand.js';
import { addChainCommand } from './command/chainCommand.js';
import { addCoverageCommand } from './command/coverageCommand.js';
import { addDossierCommand } from './command/dossierCommand.js';
import { exitCodes, helpAfter } from './command/exitCodes.js';
import { columnsOf } from './command/layout.js';
import { addPlanCheckCommand } from './command/planCheckCommand.js';
import { addPlanNewCommand } from './command/planNewCommand.js';
import { addSweepCommand } from './command/sweepCommand.js';
import type { CommandSetting, Terminal } from './command/Terminal.js';
import { addWalkCommand } from './command/walkCommand.js';

export type { Terminal } from './command/Terminal.js';

/**
 * Runs the `finial` command and returns its exit code; nothing is thrown for what a person typed or wrote, nor when they stop it.
 */
export async function run(words: readonly string[], terminal: Terminal): Promise<number> {
  let code: number = exitCodes.fine;
  const setting: CommandSetting = {
    terminal,
    end: (reached) => {
      code = reached;
    },
  };
  try {
    await commandLine(setting).parseAsync(words, { from: 'user' });
    return code;
  } catch (error) {
    return codeOfError(error, terminal);
  }
}

function commandLine(setting: CommandSetting): Command {
  const program = programFor(setting.terminal);
  addDossierCommand(program, setting);
  const plan = program.command('plan').description('make a plan, or check one');
  addPlanNewCommand(plan, setting);
  addPlanCheckCommand(plan, setting);
  addAirtimeCommand(program, setting);
  addChainCommand(program, setting);
  addSweepCommand(program, setting);
  addCoverageCommand(program, setting);
  addWalkCommand(program, setting);
  return program;
}

function programFor(terminal: Terminal): Command {
  return new Command('finial')
    .description('Plan, check and prove a community LoRaWAN gateway.')
    .exitOverride()
    .configureOutput({ writeOut: terminal.out, writeErr: terminal.err })
    .configureHelp({ helpWidth: columnsOf(terminal) })
    .addHelpText(
      'after',
      helpAfter(
        'finial dossier plan.json --out dossier',
        'makes the whole dossier; each command has its own --help.',
      ),
    )
    .showHelpAfterError('(finial --help shows what there is)');
}

function codeOfError(error: unknown, { err, signal, isTerminal }: Terminal): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.fine : exitCodes.badInput;
  const isInterrupted = signal?.aborted === true && error === signal.reason;
  if (!isInterrupted && !isInputError(error)) throw error;
  // The line of progress that may stand there is written over.
  const clear = isTerminal ? `\r${' '.repeat(40)}\r` : '';
  err(`${clear}${error instanceof Error ? error.message : 'Interrupted; nothing was written.'}\n`);
  return isInterrupted ? exitCodes.interrupted : exitCodes.badInput;
}
