import { checkInteger, checkObject, checkRange } from '@finial/units';

/** Frames that ask for one of several demodulators. */
export interface DemodulatorDemand {
  /** Frames that are on the air at once on average, on all channels and spreading factors, 0 to 1e6. */
  readonly offeredErlangs: number;
  /** Demodulators, 1 to 1024; gateways commonly have 8. */
  readonly demodulatorCount: number;
}

/**
 * Share of frames that find all demodulators busy (Erlang's loss formula).
 *
 * Frames start at random and hold a demodulator from their preamble to their end; how long each lasts does not matter, only how much is
 * offered. Frames that collide are counted as if each held a demodulator, so that the share is rather too high.
 *
 * @returns share of frames lost, 0 to 1, relative error below 1e-12
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` or `wrong-type`
 * @source A. K. Erlang 1917, formula B, by its recursion over the number of servers (from memory); eight frames at once: R. B. Sørensen
 * and others, Analysis of LoRaWAN Uplink with Multiple Demodulating Paths and Capture Effect, arXiv 1902.02866, abstract
 * @example A gateway with eight demodulators and three frames in the air on average
 * ```ts
 * import { erlangBlockingRatio } from '@finial/lora';
 *
 * erlangBlockingRatio({ offeredErlangs: 3, demodulatorCount: 8 }); // ≈ 0.00813
 * ```
 */
export function erlangBlockingRatio(demand: DemodulatorDemand): number {
  checkObject(demand, 'demand');
  const offeredErlangs = checkRange(demand.offeredErlangs, 'offeredErlangs', {
    min: 0,
    max: 1e6,
    unit: 'erlangs',
  });
  const bounds = { min: 1, max: 1024, unit: 'demodulators' };
  return blockingKernel(offeredErlangs, checkInteger(demand.demodulatorCount, 'demodulatorCount', bounds));
}

/** Unchecked, for searches. */
export function blockingKernel(offeredErlangs: number, demodulatorCount: number): number {
  let blocked = 1;
  for (let count = 1; count <= demodulatorCount; count++) {
    blocked = (offeredErlangs * blocked) / (count + offeredErlangs * blocked);
  }
  return blocked;
}
