import { checkInteger } from '@finial/units';

/** The spreading factor if it is one of SF5 to SF12. */
export function checkedSpreadingFactor(spreadingFactor: unknown): number {
  return checkInteger(spreadingFactor, 'spreadingFactor', { min: 5, max: 12, unit: 'bits per symbol' });
}
