/** Where the thread that runs the inputs is, in memory that the watching thread sees: it must not have to answer. */
export class Progress {
  readonly #numbers: Float64Array;

  readonly memory: SharedArrayBuffer;

  constructor(memory: SharedArrayBuffer = new SharedArrayBuffer(24)) {
    this.memory = memory;
    this.#numbers = new Float64Array(memory);
  }

  /** An input begins. */
  enter(target: number, index: number): void {
    this.#numbers[0] = target;
    this.#numbers[1] = index;
    this.#numbers[2] = Date.now();
  }

  /** No input is running. */
  rest(): void {
    this.#numbers[2] = 0;
  }

  now(): { readonly target: number; readonly index: number; readonly seconds: number } {
    const [target = 0, index = 0, since = 0] = this.#numbers;
    return { target, index, seconds: since === 0 ? 0 : (Date.now() - since) / 1000 };
  }
}
