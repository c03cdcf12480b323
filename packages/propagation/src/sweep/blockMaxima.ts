/** Points of one small block. */
export const smallBlock = 8;
/** Points of one large block. */
export const largeBlock = 64;

/**
 * A series with its maxima over blocks of 8 and of 64 entries, so that a search can pass over whole blocks by a bound. Entries arrive in
 * order from index 0, or the whole series is read at once. Nothing is allocated after the start.
 */
export class BlockMaxima {
  /** The entries. */
  readonly values: Float64Array;
  /** Maximum of the entries 8b to 8b + 7. */
  readonly small: Float64Array;
  /** Maximum of the entries 64b to 64b + 63. */
  readonly large: Float64Array;

  constructor(capacity: number) {
    this.values = new Float64Array(capacity);
    this.small = new Float64Array(Math.ceil(capacity / smallBlock));
    this.large = new Float64Array(Math.ceil(capacity / largeBlock));
  }

  /** Sets an entry; indices rise by one from 0. */
  push(index: number, value: number): void {
    this.values[index] = value;
    const small = index >> 3;
    const large = index >> 6;
    if ((index & 7) === 0 || value > (this.small[small] as number)) this.small[small] = value;
    if ((index & 63) === 0 || value > (this.large[large] as number)) this.large[large] = value;
  }
}
