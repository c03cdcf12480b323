import { createInterface, type Interface } from 'node:readline/promises';
import { InputError } from '@finial/units';

/** Why the work was stopped: the person pressed Ctrl-C. */
export class Interrupted extends Error {
  override readonly name = 'Interrupted';
  constructor() {
    super('Interrupted; nothing was written.');
  }
}

/** A person at the terminal who answers questions, until the input ends or is broken off. */
export class Questioner {
  private lines: Interface | undefined;
  private ended: Promise<never> | undefined;

  constructor(
    private readonly interrupt: () => void,
    private readonly signal: AbortSignal,
  ) {}

  /** Asks one question; an answer that never comes is refused, not waited for. */
  readonly ask = async (question: string): Promise<string> => {
    this.signal.throwIfAborted();
    // Questions go to standard error: standard output holds results alone.
    this.lines ??= createInterface({ input: process.stdin, output: process.stderr });
    this.ended ??= this.endOf(this.lines);
    return Promise.race([this.lines.question(question), this.ended]);
  };

  /** Lets the input go, so that the program can end. */
  close(): void {
    this.lines?.removeAllListeners('close').close();
  }

  /** Ctrl-C reaches a program that reads lines as a key, not as a signal. */
  private endOf(lines: Interface): Promise<never> {
    lines.once('SIGINT', this.interrupt);
    const end = new Promise<never>((_, refuse) => {
      const refuseOnNewLine = (reason: unknown) => {
        process.stderr.write('\n');
        refuse(reason);
      };
      this.signal.addEventListener('abort', () => refuseOnNewLine(this.signal.reason), { once: true });
      lines.once('close', () => refuseOnNewLine(noAnswer()));
    });
    // It may end while nobody waits for an answer.
    end.catch(() => undefined);
    return end;
  }
}

function noAnswer(): InputError {
  const expected = 'an answer to every question';
  return new InputError({ code: 'missing', argument: 'answer', received: undefined, expected });
}
