/** A frequency in words: `868.100 MHz`. */
export function megahertz(frequencyHz: number): string {
  return `${(frequencyHz / 1e6).toFixed(3)} MHz`;
}

/** A duration in words with three digits that count: `206 ms`, `20.6 s`. */
export function seconds(durationSeconds: number): string {
  if (durationSeconds < 1) return `${Number((durationSeconds * 1e3).toPrecision(4))} ms`;
  return `${Number(durationSeconds.toPrecision(4))} s`;
}

/** A distance in words: `850 m`, `2.66 km`. */
export function distance(lengthM: number): string {
  return lengthM < 1000 ? `${Math.round(lengthM)} m` : `${(lengthM / 1000).toFixed(2)} km`;
}

/** A length on the bench in words: `79.0 mm`. */
export function millimetres(lengthM: number): string {
  return `${(lengthM * 1000).toFixed(1)} mm`;
}

/** An area in words: `12.3 km²`. */
export function squareKilometres(areaM2: number): string {
  return `${(areaM2 / 1e6).toFixed(2)} km²`;
}

/** A share in words: `68 %`. */
export function percent(ratio: number): string {
  return `${(100 * ratio).toFixed(0)} %`;
}

/** A figure in decibels or their kin, with its unit. */
export function decibels(figureDb: number, unit: 'dB' | 'dBm' | 'dBi' = 'dB'): string {
  return `${figureDb.toFixed(2)} ${unit}`;
}
