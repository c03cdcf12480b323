import { checkObject, checkOneOf, checkRange } from '@finial/units';

/** A package or box that bags of desiccant are to keep dry. */
export interface DryingTask {
  /** Volume of air in cubic metres, 0 to 10. */
  readonly volumeM3: number;
  /** Surface in square metres through which vapour passes, 0 to 100. */
  readonly wallAreaM2: number;
  /** Vapour that the wall lets through in kilograms per square metre and day, 0 to 0.1; the sheet's unit g/(m² d) divided by 1000. */
  readonly wallVapourKgPerM2Day: number;
  /** How long it must last in days, 0 to 20 000. */
  readonly durationDays: number;
  /** Highest relative humidity in per cent at the end. */
  readonly finalHumidityPercent: 20 | 40 | 60;
  /**
   * Mass in kilograms of wood, paper or card shut in, 0 to 1000.
   *
   * @defaultValue 0
   */
  readonly packingKg?: number | undefined;
  /**
   * Water in that packing per kilogram of it, 0 to 1: 0.14 where its moisture is unknown, 0 when dried.
   *
   * @defaultValue 0.14
   */
  readonly packingWaterRatio?: number | undefined;
  /**
   * Water in kilograms that comes in by other ways over the whole time, such as breathing, 0 to 1000.
   *
   * @defaultValue 0
   */
  readonly ingressKg?: number | undefined;
  /**
   * Water in the air when the box is closed, in kilograms per cubic metre, 0 to 0.2.
   *
   * @defaultValue 0.015 (20 degrees C at 85 %)
   */
  readonly closingKgPerM3?: number | undefined;
}

/** How much desiccant a task takes. */
export interface DesiccantNeed {
  /** Units by the formula, not rounded. */
  readonly exactUnitsCount: number;
  /** Whole units to put in. */
  readonly unitsCount: number;
  /** Water in kilograms shut in with the air. */
  readonly airWaterKg: number;
  /** Water in kilograms shut in with the packing. */
  readonly packingWaterKg: number;
  /** Water in kilograms that comes through the wall, lessened by the factor for humidity building up inside. */
  readonly wallWaterKg: number;
  /** Water in kilograms by other ways, as given. */
  readonly ingressKg: number;
  /** Water in kilograms that one unit takes up at the final humidity. */
  readonly unitCapacityKg: number;
}

/** Water that one unit takes up, and the factor on the wall's vapour, by final humidity. */
export const desiccantByHumidity: Readonly<
  Record<20 | 40 | 60, { readonly capacityKg: number; readonly ratio: number }>
> = {
  20: { capacityKg: 0.003, ratio: 0.9 },
  40: { capacityKg: 0.006, ratio: 0.7 },
  60: { capacityKg: 0.008, ratio: 0.6 },
};

/**
 * Units of desiccant that keep a closed box below a humidity for a time. One unit takes up at least 6 g of water at 40 %, about 30 g of clay.
 *
 * Made for packages in store. A box with a cable gland that breathes every day defeats any bag: give its water as `ingressKg`, or see {@link boxMoisture}.
 *
 * @returns units, at least; real bags hold up to 20 % more
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number` or `out-of-range`
 * @source DIN 55474 (formula, factors) and DIN 55473 (unit), as quoted on a supplier's sheet
 * @example A 4 litre box for a year
 * ```ts
 * import { desiccantUnits } from '@finial/site';
 *
 * const need = desiccantUnits({ volumeM3: 0.004, wallAreaM2: 0.13, wallVapourKgPerM2Day: 0.0004, durationDays: 365, finalHumidityPercent: 40 });
 * need.exactUnitsCount; // ≈ 2.224
 * need.unitsCount; // → 3
 * ```
 */
export function desiccantUnits(task: DryingTask): DesiccantNeed {
  const { volumeM3, wallAreaM2, wallVapourKgPerM2Day, durationDays, finalHumidityPercent } = checkObject(
    task,
    'task',
  );
  const { packingKg = 0, packingWaterRatio = 0.14, ingressKg = 0, closingKgPerM3 = 0.015 } = task;
  checkRange(volumeM3, 'task.volumeM3', { min: 0, max: 10, unit: 'cubic metres' });
  checkRange(wallAreaM2, 'task.wallAreaM2', { min: 0, max: 100, unit: 'square metres' });
  checkRange(wallVapourKgPerM2Day, 'task.wallVapourKgPerM2Day', {
    min: 0,
    max: 0.1,
    unit: 'kilograms per square metre and day',
    hints: [{ name: 'grams per square metre and day', ratio: 1e-3 }],
  });
  checkRange(durationDays, 'task.durationDays', { min: 0, max: 20000, unit: 'days' });
  checkRange(finalHumidityPercent, 'task.finalHumidityPercent', { min: 20, max: 60, unit: 'per cent' });
  checkOneOf(finalHumidityPercent, 'task.finalHumidityPercent', [20, 40, 60]);
  checkRange(packingKg, 'task.packingKg', { min: 0, max: 1000, unit: 'kilograms' });
  checkRange(packingWaterRatio, 'task.packingWaterRatio', { min: 0, max: 1, unit: '(a ratio)' });
  checkRange(ingressKg, 'task.ingressKg', { min: 0, max: 1000, unit: 'kilograms' });
  checkRange(closingKgPerM3, 'task.closingKgPerM3', { min: 0, max: 0.2, unit: 'kilograms per cubic metre' });

  const { capacityKg, ratio } = desiccantByHumidity[finalHumidityPercent];
  const airWaterKg = volumeM3 * closingKgPerM3;
  const packingWaterKg = packingKg * packingWaterRatio;
  const wallWaterKg = wallAreaM2 * wallVapourKgPerM2Day * ratio * durationDays;
  const exactUnitsCount = (airWaterKg + packingWaterKg + wallWaterKg + ingressKg) / capacityKg;
  return {
    exactUnitsCount,
    // Rounding noise must not add a bag to a task that comes out whole.
    unitsCount: Math.ceil(exactUnitsCount - 1e-9),
    airWaterKg,
    packingWaterKg,
    wallWaterKg,
    ingressKg,
    unitCapacityKg: capacityKg,
  };
}
