/**
 * Symbols after the preamble, unchecked and positional for inner loops. SF5 and SF6 follow the second chip generation.
 *
 * The coding rate multiplies whole blocks: the division is rounded up first. Rounding after the multiplication is the usual mistake.
 */
export function payloadSymbolsKernel(
  spreadingFactor: number,
  codingRate: number,
  payloadBytes: number,
  explicitHeader: boolean,
  crc: boolean,
  optimized: boolean,
): number {
  const bits =
    8 * payloadBytes +
    (crc ? 16 : 0) -
    4 * spreadingFactor +
    (spreadingFactor >= 7 ? 8 : 0) +
    (explicitHeader ? 20 : 0);
  const bitsPerBlock = 4 * (optimized ? spreadingFactor - 2 : spreadingFactor);
  return 8 + (bits > 0 ? codingRate * Math.ceil(bits / bitsPerBlock) : 0);
}

/** Symbols of the preamble with its sync part: two symbols longer at SF5 and SF6. */
export function preambleSymbolsKernel(spreadingFactor: number, preambleSymbols: number): number {
  return preambleSymbols + (spreadingFactor >= 7 ? 4.25 : 6.25);
}

/** Duration of one symbol in seconds; a shift instead of a power. */
export function symbolSecondsKernel(spreadingFactor: number, bandwidthHz: number): number {
  return (1 << spreadingFactor) / bandwidthHz;
}
