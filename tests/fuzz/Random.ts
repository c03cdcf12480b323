/** Random draws that come back the same for the same words: input 17 of a target is input 17 on every machine. */
export class Random {
  #a: number;
  #b: number;
  #c: number;
  #d = 1;

  constructor(words: string) {
    [this.#a, this.#b, this.#c] = hashOf(words);
    for (let round = 0; round < 12; round++) this.#next();
  }

  /** From 0 to below 1. */
  ratio(): number {
    return this.#next() / 2 ** 32;
  }

  /** A whole number from `least` to `most`, both included. */
  whole(least: number, most: number): number {
    return least + Math.floor(this.ratio() * (most - least + 1));
  }

  chance(ratio: number): boolean {
    return this.ratio() < ratio;
  }

  pick<Item>(items: readonly [Item, ...Item[]]): Item;
  pick<Item>(items: readonly Item[]): Item;
  pick<Item>(items: readonly Item[]): Item {
    return items[Math.floor(this.ratio() * items.length)] as Item;
  }

  /** What `make` gives, a few times over; short lists are the likelier ones. */
  several<Item>(most: number, make: (index: number) => Item): Item[] {
    const count = Math.floor(this.ratio() ** 2 * (most + 1));
    return Array.from({ length: count }, (_, index) => make(index));
  }

  // The generator "sfc32" of the PractRand suite (C. Doty-Humphrey, public domain).
  #next(): number {
    const sum = (this.#a + this.#b + this.#d++) | 0;
    this.#a = this.#b ^ (this.#b >>> 9);
    this.#b = (this.#c + (this.#c << 3)) | 0;
    this.#c = ((this.#c << 21) | (this.#c >>> 11)) + sum;
    return sum >>> 0;
  }
}

function hashOf(words: string): [number, number, number] {
  const state: [number, number, number] = [0x811c9dc5, 0x9e3779b9, 0x85ebca6b];
  for (let at = 0; at < words.length; at++) {
    for (const place of [0, 1, 2] as const) {
      state[place] = Math.imul(state[place] ^ (words.charCodeAt(at) + place), 0x01000193);
    }
  }
  return state;
}
