import { type Region, regions } from '@finial/lora';
import type { Plan } from './plan.js';

/** The regional parameters that a plan names. */
export function planRegion({ region }: Plan): Region {
  const found = Object.values(regions).find(({ name }) => name === region);
  if (found === undefined) throw new Error(`the plan format knows ${region}, the regional parameters do not`);
  return found;
}
