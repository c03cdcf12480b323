import type { LoRaDataRate } from '@finial/lora';
import { InputError } from '@finial/units';
import type { Plan } from './plan.js';
import { planRegion } from './planRegion.js';

/** The LoRa modulation behind a data rate of the plan's region. */
export function loraModulation(
  plan: Plan,
  dataRate: number,
  direction: 'uplink' | 'downlink',
  argument: string,
): LoRaDataRate {
  const row = planRegion(plan).dataRates.find((candidate) => candidate.dataRate === dataRate);
  if (
    row !== undefined &&
    row.modulation === 'LoRa' &&
    (row.direction === 'both' || row.direction === direction)
  )
    return row;
  throw new InputError({
    code: 'unknown-option',
    argument,
    received: dataRate,
    expected: `a LoRa data rate of ${plan.region} for the ${direction}`,
  });
}
