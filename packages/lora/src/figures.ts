// Figures as messages show them. What a person must do is rounded to the safe side; what was measured, to the nearest.

/** Decibels that a comparison forgives: sums such as 16.15 - 2.15 are not exact. */
export const decibelSlack = 1e-6;

/** Seconds that a comparison forgives. */
export const secondsSlack = 1e-6;

/** Decibels to take away so that nothing remains of an excess: the next tenth above. */
export function reductionDb(excessDb: number): number {
  return Math.ceil(excessDb * 10 - decibelSlack) / 10;
}

/** Seconds to wait so that an interval is not too short: the next tenth above. */
export function waitSeconds(intervalSeconds: number): number {
  return Math.ceil(intervalSeconds * 10 - secondsSlack) / 10;
}

export function decibels(level: number): string {
  return String(Number(level.toFixed(2)));
}

export function seconds(duration: number): string {
  return `${Number(duration.toFixed(duration < 10 ? 3 : 1))} s`;
}

/** A time too short to be told in seconds. */
export function milliseconds(duration: number): string {
  return `${Number((duration * 1e3).toPrecision(3))} ms`;
}

export function megahertz(frequencyHz: number): string {
  return `${Number((frequencyHz / 1e6).toFixed(4))} MHz`;
}

export function kilohertz(bandwidthHz: number): string {
  return `${Number((bandwidthHz / 1e3).toFixed(3))} kHz`;
}

export function percent(ratio: number): string {
  return `${Number((ratio * 100).toPrecision(3))} %`;
}

export function bytes(count: number): string {
  return count === 1 ? '1 byte' : `${count} bytes`;
}
