import type { Pool } from 'geotiff';
import { mostCells } from '../tile/checkElevation.js';
import { lzwDecoded } from './lzwDecoded.js';

type Geotiff = typeof import('geotiff');

// Compression schemes, TIFF 6.0 section 3 and its supplements of 2002.
const lzw = 5;
const deflates = [8, 32946];

/**
 * What unpacks the blocks of a GeoTIFF, none to more bytes than a block has: a file of a few kilobytes can claim gigabytes, and the
 * reader's own decoder of LZW runs on over damaged codes until the memory is full.
 */
export function blockPool({ Pool, BaseDecoder, getDecoder }: Geotiff): Pool {
  type Parameters = ConstructorParameters<Geotiff['BaseDecoder']>[0];

  class BlockDecoder extends BaseDecoder {
    readonly #compression: number;

    constructor(compression: number, parameters: Parameters) {
      super(parameters);
      this.#compression = compression;
    }

    override async decodeBlock(buffer: ArrayBufferLike): Promise<ArrayBufferLike> {
      const { tileWidth, tileHeight, bitsPerSample } = this.parameters;
      const bits = typeof bitsPerSample === 'number' ? bitsPerSample : Number(bitsPerSample[0]);
      // A strip may say that it has more rows than the image, which means all of them.
      const mostBytes = Math.min(tileWidth * tileHeight, mostCells) * Math.ceil(bits / 8);
      const block = new Uint8Array(buffer);
      const bytes =
        this.#compression === lzw ? lzwDecoded(block, mostBytes) : await inflated(block, mostBytes);
      return bytes.byteLength === bytes.buffer.byteLength ? bytes.buffer : bytes.slice().buffer;
    }
  }

  return new (class extends Pool {
    constructor() {
      super(0); // no threads
    }

    override bindParameters(compression: number, parameters: Parameters): ReturnType<Pool['bindParameters']> {
      if (compression === lzw || deflates.includes(compression))
        return new BlockDecoder(compression, parameters);
      return {
        decode: async (buffer: ArrayBufferLike) => (await getDecoder(compression, parameters)).decode(buffer),
      };
    }
  })();
}

/** The first bytes of a block in the zlib format, as many as there are up to a length. */
async function inflated(
  block: Uint8Array<ArrayBufferLike>,
  mostBytes: number,
): Promise<Uint8Array<ArrayBuffer>> {
  const packed = new Blob([block as Uint8Array<ArrayBuffer>]).stream();
  const reader = packed.pipeThrough(new DecompressionStream('deflate')).getReader();
  const pieces: Uint8Array[] = [];
  let length = 0;
  while (length < mostBytes) {
    const { done, value } = await reader.read();
    if (done) break;
    pieces.push(value);
    length += value.length;
  }
  if (length >= mostBytes) await reader.cancel();
  const bytes = new Uint8Array(Math.min(length, mostBytes));
  let at = 0;
  for (const piece of pieces) {
    bytes.set(piece.subarray(0, bytes.length - at), at);
    at += piece.length;
  }
  return bytes;
}
