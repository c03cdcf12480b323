/** A short or an open, printed with six digits, comes out a hair above 1. */
const printedOne = 1.000_01;

/** What to say of reflections above 1, which no antenna makes; nothing when there are none. */
export function reflectionWarnings(
  frequencyHz: Float64Array,
  magnitudeAt: (index: number) => number,
  cause = 'was the analyser calibrated at this socket?',
): readonly string[] {
  let count = 0;
  let first = 0;
  let greatest = 0;
  for (let index = 0; index < frequencyHz.length; index += 1) {
    const magnitude = magnitudeAt(index);
    if (magnitude <= printedOne) continue;
    if (count === 0) first = index;
    count += 1;
    greatest = Math.max(greatest, magnitude);
  }
  if (count === 0) return [];
  const where = `${count} of ${frequencyHz.length} points, first at ${frequencyHz[first]} Hz`;
  return [`more comes back than was sent (|S11| up to ${greatest.toFixed(3)}, ${where}): ${cause}`];
}
