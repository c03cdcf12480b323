import { checkObject, checkRange } from '@finial/units';

/** A sealed box by its heat-transfer coefficient. */
export interface SealedBox {
  /** Power in watts that the electronics turn to heat, 0 to 1000. */
  readonly powerW: number;
  /** Share of sunshine that the finish takes up, 0 to 1: see {@link solarAbsorptivityRatios}. */
  readonly absorptivityRatio: number;
  /** Sunshine on the lit area in watts per square metre, 0 to 1500. */
  readonly irradianceWPerM2: number;
  /** Area in square metres that the sun shines on, 0 to 100. */
  readonly sunlitAreaM2: number;
  /** Heat-transfer coefficient from inside air to outside air in watts per square metre and kelvin, 0.1 to 100. From memory: painted steel 5.5, plastic 3.5. */
  readonly transferWPerM2K: number;
  /** Area in square metres that sheds heat, 0.0001 to 100: see {@link effectiveAreaM2}. */
  readonly areaM2: number;
}

/**
 * How much warmer than the air around it a sealed box grows inside, by the handbook balance: heat in over U times area.
 *
 * All sunshine taken up counts as if set free inside, though part of it leaves from the outside skin at once: the figure is on the safe side in the
 * sun, by up to a half. {@link enclosureBalance} keeps skin and inside apart.
 *
 * @returns rise in kelvin, ±30 %
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source enclosure-climate handbooks (coefficients from memory); the balance is conservation of energy
 * @example A white plastic box of 4 W, the sun on one side
 * ```ts
 * import { enclosureRiseK } from '@finial/site';
 *
 * const box = { powerW: 4, absorptivityRatio: 0.25, irradianceWPerM2: 1000, sunlitAreaM2: 0.03, transferWPerM2K: 3.5, areaM2: 0.13 };
 * enclosureRiseK(box); // ≈ 25.27
 * ```
 */
export function enclosureRiseK(box: SealedBox): number {
  const { powerW, absorptivityRatio, irradianceWPerM2, sunlitAreaM2, transferWPerM2K, areaM2 } = checkObject(
    box,
    'box',
  );
  checkRange(powerW, 'box.powerW', { min: 0, max: 1000, unit: 'watts' });
  checkRange(absorptivityRatio, 'box.absorptivityRatio', { min: 0, max: 1, unit: '(a ratio)' });
  checkRange(irradianceWPerM2, 'box.irradianceWPerM2', { min: 0, max: 1500, unit: 'watts per square metre' });
  checkRange(sunlitAreaM2, 'box.sunlitAreaM2', { min: 0, max: 100, unit: 'square metres' });
  checkRange(transferWPerM2K, 'box.transferWPerM2K', {
    min: 0.1,
    max: 100,
    unit: 'watts per square metre and kelvin',
  });
  checkRange(areaM2, 'box.areaM2', { min: 1e-4, max: 100, unit: 'square metres' });
  return (powerW + absorptivityRatio * irradianceWPerM2 * sunlitAreaM2) / (transferWPerM2K * areaM2);
}
