/** A number as people read it: fixed decimals, a true minus sign, thin spaces between thousands. */
export function decimal(value: number, digits: number): string {
  const [whole = '', fraction] = Math.abs(value).toFixed(digits).split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, '\u202f');
  const text = fraction === undefined ? grouped : `${grouped}.${fraction}`;
  return value < 0 && /[1-9]/.test(text) ? `\u2212${text}` : text;
}

/** A level or a difference in decibels with one decimal. */
export function decibels(value: number, unit: 'dB' | 'dBm' | 'dBi'): string {
  return `${decimal(value, 1)}\u00a0${unit}`;
}

/** A distance in metres below a kilometre, in kilometres above. */
export function distance(distanceM: number): string {
  if (distanceM < 1000) return `${decimal(distanceM, distanceM < 1 ? 2 : distanceM < 10 ? 1 : 0)}\u00a0m`;
  return `${decimal(distanceM / 1000, distanceM < 10_000 ? 2 : 1)}\u00a0km`;
}

/** A time from milliseconds to days in the unit that reads best. */
export function duration(timeSeconds: number): string {
  if (timeSeconds < 1) return `${decimal(timeSeconds * 1000, 1)}\u00a0ms`;
  if (timeSeconds < 120) return `${decimal(timeSeconds, timeSeconds < 10 ? 2 : 1)}\u00a0s`;
  if (timeSeconds < 7200) return `${decimal(timeSeconds / 60, 1)}\u00a0min`;
  return `${decimal(timeSeconds / 3600, 1)}\u00a0h`;
}

/** A ratio as a whole percentage, never rounded up to 100 or down to 0. */
export function percent(ratio: number): string {
  const rounded = Math.round(ratio * 100);
  if (rounded === 100 && ratio < 1) return '>99\u00a0%';
  if (rounded === 0 && ratio > 0) return '<1\u00a0%';
  return `${rounded}\u00a0%`;
}

/** A frequency in megahertz with as many decimals as it needs. */
export function megahertz(frequencyHz: number): string {
  return `${Number((frequencyHz / 1e6).toFixed(4))}\u00a0MHz`;
}
