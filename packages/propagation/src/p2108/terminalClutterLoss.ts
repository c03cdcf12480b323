import type { ClutterClass } from '@finial/terrain';
import { checkObject, checkOneOf, checkRange } from '@finial/units';
import {
  antennaHeightM as antennaBounds,
  clutterHeightM as clutterBounds,
  frequencyHz as frequencyBounds,
} from '../models/possible.js';
import { type OutsideValidity, validityCheck } from '../models/validity.js';
import { knifeEdgeJ } from '../p526/knifeEdgeJ.js';

/** What stands around an antenna, in the classes of land cover that `@finial/terrain` reads. */
export type TerminalSurroundings = ClutterClass;

/** An antenna below the tops of what stands around it. */
export interface ClutteredTerminal {
  /** Frequency in hertz, 30e6 to 3e9. */
  readonly frequencyHz: number;
  /** Height of the antenna above ground in metres, 0.01 to 10000. */
  readonly antennaHeightM: number;
  /** What stands around it. */
  readonly surroundings: TerminalSurroundings;
  /**
   * Representative height of what stands around it, in metres, 0.01 to 500.
   *
   * @defaultValue 10 for water, open and suburban, 15 for urban and trees, 20 for dense urban
   */
  readonly clutterHeightM?: number | undefined;
  /**
   * Width of the street, or distance from the antenna to what stands before it, in metres, 0.1 to 10000.
   *
   * @defaultValue 27
   */
  readonly streetWidthM?: number | undefined;
  /**
   * What to do with a frequency outside the range of the model.
   *
   * @defaultValue `refuse`
   */
  readonly outsideValidity?: OutsideValidity | undefined;
}

/** Loss of an antenna below the clutter, with what it is made of. */
export interface TerminalClutterLoss {
  /** Median loss in dB, added to the loss of a path that ends at the height of the clutter. 0 for an antenna at or above it. */
  readonly lossDb: number;
  /** Height of the clutter that was used, in metres. */
  readonly clutterHeightM: number;
  /** How far the clutter stands above the antenna, in metres; 0 if it does not. */
  readonly clutterAboveAntennaM: number;
  /** Angle up to the top of the clutter from the antenna in degrees; 0 over water and open land, where no edge is taken. */
  readonly clutterAngleDeg: number;
  /** The diffraction parameter ν of that edge as a plain ratio; 0 where no edge is taken. */
  readonly diffractionRatio: number;
  /** What lies outside the range of the model. */
  readonly warnings: readonly string[];
}

const heightsM: Readonly<Record<TerminalSurroundings, number>> = {
  water: 10,
  open: 10,
  suburban: 10,
  urban: 15,
  trees: 15,
  'dense-urban': 20,
};

/**
 * Median loss of an antenna that stands lower than the houses or trees around it, by its height (the height-gain terminal correction).
 *
 * For either end of a path whose model ends at clutter height. Never add it to a model that already counts clutter in its profile (P.1812
 * since edition 6 with clutter heights), nor to the statistical method of the same Recommendation: that would count it twice.
 *
 * @returns the loss and its parts; the published test values agree within their printed 0.1 dB
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `unknown-option`, or `outside-validity` for a
 * frequency outside 30 MHz to 3 GHz that is not allowed
 * @source Recommendation ITU-R P.2108-1 (09/2021), section 3.1, equations 2a to 2g; default heights from memory of its table 3
 * @example A node on a lamp post in a suburb
 * ```ts
 * import { terminalClutterLoss } from '@finial/propagation/p2108';
 *
 * terminalClutterLoss({ frequencyHz: 868e6, antennaHeightM: 1.5, surroundings: 'suburban' }).lossDb; // ≈ 18.60
 * terminalClutterLoss({ frequencyHz: 868e6, antennaHeightM: 12, surroundings: 'suburban' }).lossDb; // → 0
 * ```
 */
export function terminalClutterLoss(terminal: ClutteredTerminal): TerminalClutterLoss {
  checkObject(terminal, 'terminal');
  const { within, warnings } = validityCheck(terminal.outsideValidity);
  const frequencyHz = within(terminal.frequencyHz, 'frequencyHz', {
    possible: frequencyBounds,
    min: 30e6,
    max: 3e9,
  });
  const antennaHeightM = checkRange(terminal.antennaHeightM, 'antennaHeightM', antennaBounds);
  const surroundings = checkOneOf(terminal.surroundings, 'surroundings', [
    'water',
    'open',
    'suburban',
    'urban',
    'trees',
    'dense-urban',
  ]);
  const { clutterHeightM: givenClutterM = heightsM[surroundings], streetWidthM: givenWidthM = 27 } = terminal;
  const clutterHeightM = checkRange(givenClutterM, 'clutterHeightM', clutterBounds);
  const streetWidthM = checkRange(givenWidthM, 'streetWidthM', { min: 0.1, max: 1e4, unit: 'metres' });

  const clutterAboveAntennaM = Math.max(clutterHeightM - antennaHeightM, 0);
  const flat = { clutterHeightM, clutterAboveAntennaM, clutterAngleDeg: 0, diffractionRatio: 0, warnings };
  if (clutterAboveAntennaM === 0) return { lossDb: 0, ...flat };
  const frequencyGhz = frequencyHz / 1e9;
  if (surroundings === 'water' || surroundings === 'open') {
    const heightGain = 21.8 + 6.2 * Math.log10(frequencyGhz);
    return { lossDb: -heightGain * Math.log10(antennaHeightM / clutterHeightM), ...flat };
  }
  // The Recommendation takes the angle in degrees: 0.342 holds the conversion.
  const clutterAngleDeg = (Math.atan(clutterAboveAntennaM / streetWidthM) * 180) / Math.PI;
  const diffractionRatio = 0.342 * Math.sqrt(frequencyGhz * clutterAboveAntennaM * clutterAngleDeg);
  return { ...flat, lossDb: knifeEdgeJ(diffractionRatio) - 6.03, clutterAngleDeg, diffractionRatio };
}
