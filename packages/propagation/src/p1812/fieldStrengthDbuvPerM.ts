import { checkFinite, checkObject, checkRange, frequencyHints } from '@finial/units';

/** A transmitter, and the loss of the path from it. */
export interface ReceivedField {
  /** Frequency in hertz, 1e6 to 1e11. */
  readonly frequencyHz: number;
  /** Basic transmission loss in dB. */
  readonly lossDb: number;
  /** Effective radiated power towards the receiver in dBm, over a half-wave dipole; 1 kW is 60 dBm. */
  readonly erpDbm: number;
}

/**
 * Field strength in dB over one microvolt per metre behind a basic transmission loss.
 *
 * @returns field strength, error below 1e-12 dB but for the rounded constant of the method (0.01 dB)
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Recommendation ITU-R P.1812-8 (09/2025), Annex 1, section 4.10; equation (70) as edition 6 numbers them
 * @example A node of 25 mW behind 130 dB
 * ```ts
 * import { p1812 } from '@finial/propagation';
 *
 * p1812.fieldStrengthDbuvPerM({ frequencyHz: 868.1e6, lossDb: 130, erpDbm: 14 }); // ≈ 22.13
 * ```
 */
export function fieldStrengthDbuvPerM(field: ReceivedField): number {
  checkObject(field, 'field');
  const frequencyHz = checkRange(field.frequencyHz, 'frequencyHz', {
    min: 1e6,
    max: 1e11,
    unit: 'hertz',
    hints: frequencyHints,
  });
  const lossDb = checkFinite(field.lossDb, 'lossDb', 'dB');
  const erpDbm = checkRange(field.erpDbm, 'erpDbm', { min: -300, max: 300, unit: 'dBm' });
  return kilowattFieldDbuvPerM(frequencyHz / 1e9, lossDb) + erpDbm - 60;
}

/** Field of 1 kW effective radiated power. Positional and unchecked. */
export function kilowattFieldDbuvPerM(frequencyGHz: number, lossDb: number): number {
  return 199.36 + 20 * Math.log10(frequencyGHz) - lossDb;
}
