import { checkInteger } from '@finial/units';

const bounds = { min: 5, max: 12, unit: 'spreading factor' };

/** The spreading factor if it is one of SF5 to SF12; the check is inline because it runs in hot loops. */
export function checkedSpreadingFactor(spreadingFactor: unknown): number {
  if (Number.isInteger(spreadingFactor)) {
    const whole = spreadingFactor as number;
    if (whole >= bounds.min && whole <= bounds.max) return whole;
  }
  return checkInteger(spreadingFactor, 'spreadingFactor', bounds);
}
