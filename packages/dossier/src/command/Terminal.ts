/** Where the command writes to and asks; apart so that tests can listen and answer. */
export interface Terminal {
  /** Writes to standard output. */
  readonly out: (text: string) => void;
  /** Writes to standard error. */
  readonly err: (text: string) => void;
  /** Whether a person watches standard error: progress is shown only then. */
  readonly isTerminal: boolean;
  /** Characters in a line; 80 when left out. */
  readonly columns?: number | undefined;
  /** Asks the person a question and resolves to the answer; left out where standard input is no terminal. */
  readonly ask?: ((question: string) => Promise<string>) | undefined;
  /** Aborted when the person wants to stop. */
  readonly signal?: AbortSignal | undefined;
}

/** What every command is given. */
export interface CommandSetting {
  /** Where it writes to. */
  readonly terminal: Terminal;
  /** Takes the exit code at its end. */
  readonly end: (code: number) => void;
}
