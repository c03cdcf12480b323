import type { RangeBounds } from '@finial/units';

// A ledger counts in whole microseconds, so that sums are exact and a budget can be filled to its edge. Whatever cannot be told
// exactly is rounded against the sender: time on air and windows up, budgets down.

/** Instants of any epoch in seconds: within them a double tells microseconds apart. */
export const instantBounds: RangeBounds = {
  min: -4e9,
  max: 4e9,
  unit: 'seconds',
  hints: [
    { name: 'milliseconds', ratio: 1e-3 },
    { name: 'microseconds', ratio: 1e-6 },
  ],
};

/** Noise of a double such as 0.046336 must not count as a microsecond more: nanoseconds are rounded first. */
function nanoseconds(durationSeconds: number): number {
  return Math.round(durationSeconds * 1e9);
}

export function instantUs(instantSeconds: number): number {
  // The zero takes the sign off -0.
  return Math.round(instantSeconds * 1e6) + 0;
}

export function roundedUpUs(durationSeconds: number): number {
  return Math.max(1, Math.ceil(nanoseconds(durationSeconds) / 1e3));
}

export function roundedDownUs(durationSeconds: number): number {
  return Math.floor(nanoseconds(durationSeconds) / 1e3);
}

export function secondsOf(microseconds: number): number {
  return microseconds / 1e6;
}
