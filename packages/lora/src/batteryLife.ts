import { checkObject, checkPositive, checkRange } from '@finial/units';

/** A battery and what is taken from it. */
export interface BatteryUse {
  /** Mean current in amperes, 1e-12 to 100; see `energyPerFrame`. */
  readonly averageCurrentA: number;
  /** Capacity printed on the battery in ampere hours, above 0 to 1e6. */
  readonly capacityAh: number;
  /**
   * Share of the capacity that can be used before the node stops, 0.01 to 1: cold, current peaks and the cut-off voltage take the rest. 0.8
   * is a cautious guess (common practice, no source).
   */
  readonly usableRatio: number;
  /**
   * Share of its charge that the battery loses by itself in a year, 0 to 0.99; about 0.01 for lithium thionyl chloride, 0.02 to 0.03 for alkaline
   * cells at room temperature (common practice, no source). 0 unless given.
   */
  readonly selfDischargePerYearRatio?: number | undefined;
}

/** How long a battery lasts. */
export interface BatteryLife {
  /** Life in days. */
  readonly lifeDays: number;
  /** Life in seconds. */
  readonly lifeSeconds: number;
  /** Charge in coulombs that the node takes in that time. */
  readonly usedCoulombs: number;
  /** Charge in coulombs that the battery loses by itself in that time. */
  readonly selfDischargedCoulombs: number;
  /** Charge in coulombs that is left over when the node stops. */
  readonly leftCoulombs: number;
}

const daySeconds = 86_400;
const yearSeconds = 365.25 * daySeconds;

/**
 * How long a battery feeds a constant mean current while it discharges by itself.
 *
 * The battery loses by itself the same share of what it still holds in any equal time, so that the loss gets less as it empties.
 * Temperature, ageing and the passivation of lithium cells are in `usableRatio` or nowhere; a life of more years than the
 * cell's shelf life is a sum, not a promise.
 *
 * @returns days, and where the charge goes; relative error below 1e-9
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` or `wrong-type`
 * @source Charge balance dq/dt = -I - k q with k = -ln(1 - loss in a year), solved; 1 Ah is 3600 C, a year 365.25 days
 * @example 12 µA from two ampere hours and a half
 * ```ts
 * import { batteryLife } from '@finial/lora';
 *
 * const battery = { averageCurrentA: 12e-6, capacityAh: 2.5, usableRatio: 0.8 };
 * batteryLife(battery).lifeDays; // ≈ 6944.4
 * batteryLife({ ...battery, selfDischargePerYearRatio: 0.02 }).lifeDays; // ≈ 5431.8
 * ```
 */
export function batteryLife(use: BatteryUse): BatteryLife {
  checkObject(use, 'use');
  const { selfDischargePerYearRatio = 0 } = use;
  const currentA = checkRange(use.averageCurrentA, 'averageCurrentA', {
    min: 1e-12,
    max: 100,
    unit: 'amperes',
  });
  checkPositive(use.capacityAh, 'capacityAh', 'ampere hours');
  const capacityAh = checkRange(use.capacityAh, 'capacityAh', { min: 0, max: 1e6, unit: 'ampere hours' });
  const usableRatio = checkRange(use.usableRatio, 'usableRatio', { min: 0.01, max: 1, unit: 'as a ratio' });
  const losses = { min: 0, max: 0.99, unit: 'as a ratio' };
  checkRange(selfDischargePerYearRatio, 'selfDischargePerYearRatio', losses);

  const fullCoulombs = capacityAh * 3600;
  const leftCoulombs = fullCoulombs * (1 - usableRatio);
  const lossPerSecond = -Math.log1p(-selfDischargePerYearRatio) / yearSeconds;
  const lifeSeconds = secondsToEmpty(fullCoulombs, leftCoulombs, currentA, lossPerSecond);
  const usedCoulombs = currentA * lifeSeconds;
  return {
    lifeDays: lifeSeconds / daySeconds,
    lifeSeconds,
    usedCoulombs,
    // Taken as a difference it may come out a rounding below zero.
    selfDischargedCoulombs: Math.max(0, fullCoulombs - leftCoulombs - usedCoulombs),
    leftCoulombs,
  };
}

function secondsToEmpty(full: number, left: number, currentA: number, lossPerSecond: number): number {
  const drawn = full - left;
  // A vanishing loss would make the logarithm 0/0; its limit is plain division.
  const lossRatio = (lossPerSecond * drawn) / (currentA + lossPerSecond * left);
  return lossRatio < 1e-9 ? drawn / (currentA + lossPerSecond * left) : Math.log1p(lossRatio) / lossPerSecond;
}
