import type { SweepJob, SweepQuestion } from './SweepJob.js';

/** Jobs for all radials, clockwise from north. Unchecked. */
export function splitRadials(
  question: SweepQuestion,
  radialCount: number,
  jobsCount: number,
): readonly SweepJob[] {
  const cut = (place: number): number => Math.floor((place * radialCount) / jobsCount);
  return Array.from({ length: jobsCount }, (_, place) => ({
    ...question,
    firstRadial: cut(place),
    radialCount: cut(place + 1) - cut(place),
  }));
}
