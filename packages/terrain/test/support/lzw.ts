const clear = 256;
const end = 257;

/** LZW as TIFF 6.0, section 13 has it: codes of 9 to 12 bits, most significant bit first, width raised one code early. */
export function lzw(bytes: Uint8Array): Uint8Array {
  const out: number[] = [];
  let held = 0;
  let heldBits = 0;
  let width = 9;
  let table = new Map<string, number>();
  let next = 258;

  function write(code: number): void {
    held = (held << width) | code;
    heldBits += width;
    while (heldBits >= 8) {
      heldBits -= 8;
      out.push((held >> heldBits) & 255);
      held &= (1 << heldBits) - 1;
    }
  }

  function codeOf(key: string): number {
    return key.includes(',') ? (table.get(key) as number) : Number(key);
  }

  write(clear);
  let key = '';
  for (const byte of bytes) {
    const longer = key === '' ? String(byte) : `${key},${byte}`;
    if (key === '' || table.has(longer)) {
      key = longer;
      continue;
    }
    write(codeOf(key));
    table.set(longer, next++);
    if (next === 512 || next === 1024 || next === 2048) width++;
    if (next === 4095) {
      write(clear);
      table = new Map();
      next = 258;
      width = 9;
    }
    key = String(byte);
  }
  if (key !== '') {
    write(codeOf(key));
    if (++next === 512 || next === 1024 || next === 2048) width++;
  }
  write(end);
  if (heldBits > 0) out.push((held << (8 - heldBits)) & 255);
  return Uint8Array.from(out);
}
