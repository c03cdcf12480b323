/**
 * Generation of the LoRa chip that sends. They differ at SF5 and SF6 only.
 *
 * - `second`: SX1261, SX1262, SX1268 and those after them, also the chips for 2.4 GHz. SF5 and SF6 have a sync part two symbols longer
 * than the others
 * - `first`: SX1272, SX1273 and SX1276 to SX1279. SF6 has the sync part of the others and an implicit header always; no SF5
 */
export type ChipGeneration = 'first' | 'second';
