import { checkRange, InputError } from '@finial/units';

/** Returns the step if a half circle is a whole number of it. */
export function checkStep(stepDeg: number): number {
  checkRange(stepDeg, 'stepDeg', { min: 0.05, max: 10, unit: 'degrees' });
  const steps = 180 / stepDeg;
  if (Math.abs(steps - Math.round(steps)) < 1e-9) return stepDeg;
  throw new InputError({
    code: 'out-of-range',
    argument: 'stepDeg',
    received: stepDeg,
    expected: 'a divisor of 180 degrees',
  });
}

/** Elevations from -90 to 90, both included, each rounded once only. */
export function elevationsOf(stepDeg: number): Float64Array {
  const steps = Math.round(180 / stepDeg);
  return Float64Array.from({ length: steps + 1 }, (_, index) => (180 * index) / steps - 90);
}
