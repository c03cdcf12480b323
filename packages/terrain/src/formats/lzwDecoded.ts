const clear = 256;
const end = 257;
const widest = 12;

/**
 * The bytes that a block of LZW stands for, up to a length; what comes behind is left alone.
 *
 * A damaged block is refused at the first code that cannot be, and takes no more time and memory than a whole one.
 *
 * @source TIFF revision 6.0 (1992), section 13: codes of 9 to 12 bits, most significant bit first, width raised one code early
 */
export function lzwDecoded(block: Uint8Array, mostBytes: number): Uint8Array<ArrayBuffer> {
  // A string of the table is another string and one byte behind it; the first 256 are their own byte.
  const before = new Uint16Array(2 ** widest);
  const last = Uint8Array.from(before, (_, code) => code);
  const lengths = new Uint16Array(2 ** widest).fill(1);
  let out = new Uint8Array(Math.min(mostBytes, Math.max(1024, 4 * block.length)));
  let written = 0;
  let next = 258;
  let width = 9;
  let previous = -1;
  let bit = 0;

  function code(): number {
    if (bit + width > 8 * block.length) return end;
    const at = bit >> 3;
    const three = ((block[at] ?? 0) << 16) | ((block[at + 1] ?? 0) << 8) | (block[at + 2] ?? 0);
    const found = (three >> (24 - (bit & 7) - width)) & (2 ** width - 1);
    bit += width;
    return found;
  }

  /** Writes the string of a code from behind and returns its first byte. */
  function write(string: number): number {
    const length = lengths[string] as number;
    if (written + length > out.length) out = grown(out, Math.min(mostBytes, 2 * (written + length)));
    let from = string;
    for (let at = written + length - 1; at > written; at--) {
      if (at < out.length) out[at] = last[from] as number;
      from = before[from] as number;
    }
    if (written < out.length) out[written] = last[from] as number;
    written += length;
    return last[from] as number;
  }

  for (let found = code(); found !== end && written < mostBytes; found = code()) {
    if (found === clear) {
      next = 258;
      width = 9;
      previous = -1;
      continue;
    }
    if (previous === -1 ? found > 255 : found > next)
      throw new Error('a block of LZW with a code that cannot be');
    // A code that is not in the table yet is the string before it and that string's first byte once more.
    const isNew = found === next;
    const first = write(isNew ? previous : found);
    if (isNew && written < mostBytes) write(first);
    if (previous !== -1 && next < before.length) {
      before[next] = previous;
      last[next] = first;
      lengths[next] = (lengths[previous] as number) + 1;
      next++;
    }
    if (next + 1 >= 2 ** width && width < widest) width++;
    previous = found;
  }
  return out.subarray(0, Math.min(written, mostBytes));
}

function grown(bytes: Uint8Array<ArrayBuffer>, length: number): Uint8Array<ArrayBuffer> {
  const longer = new Uint8Array(length);
  longer.set(bytes);
  return longer;
}
