import {
  boardPlug12,
  boardPlug16,
  boardPlug25,
  mcxPlug,
  mmcxPlug,
  nJack,
  nPlug,
  reverseSmaJack,
  reverseSmaPlug,
  smaJack,
  smaPlug,
} from './commonEnds.js';
import type { PartEnd, Pigtail } from './parts.js';

/** Its ends in words, its cable, length in metres, first end, second end. */
type PigtailLine = readonly [string, string, number, PartEnd, PartEnd];

const lines: readonly PigtailLine[] = [
  ['SMA plug to N jack', 'RG-316/U', 0.15, smaPlug, nJack],
  ['SMA plug to N jack', 'RG-316/U', 0.3, smaPlug, nJack],
  ['SMA plug to N plug', 'RG-316/U', 0.3, smaPlug, nPlug],
  ['RP-SMA plug to N jack', 'RG-316/U', 0.3, reverseSmaPlug, nJack],
  ['RP-SMA plug to N plug', 'RG-316/U', 0.3, reverseSmaPlug, nPlug],
  ['SMA plug to SMA jack', 'RG-316/U', 0.3, smaPlug, smaJack],
  ['SMA plug to SMA plug', 'RG-316/U', 0.3, smaPlug, smaPlug],
  ['MCX plug to N jack', 'RG-316/U', 0.3, mcxPlug, nJack],
  ['MMCX plug to N jack', 'RG-316/U', 0.3, mmcxPlug, nJack],
  ['MMCX plug to SMA jack', 'RG-316/U', 0.15, mmcxPlug, smaJack],
  ['MCX plug to SMA jack', 'RG-174/U', 0.2, mcxPlug, smaJack],
  ['micro-coax 2.5 mm height plug to SMA jack', 'micro-coax 1.13 mm class', 0.1, boardPlug25, smaJack],
  [
    'micro-coax 2.5 mm height plug to RP-SMA jack',
    'micro-coax 1.13 mm class',
    0.1,
    boardPlug25,
    reverseSmaJack,
  ],
  ['micro-coax 2.5 mm height plug to SMA jack', 'micro-coax 1.13 mm class', 0.2, boardPlug25, smaJack],
  ['micro-coax 2.5 mm height plug to N jack', 'micro-coax 1.37 mm class', 0.2, boardPlug25, nJack],
  ['micro-coax 2.5 mm height plug to N jack', 'micro-coax 1.78 mm class', 0.2, boardPlug25, nJack],
  ['micro-coax 1.6 mm height plug to SMA jack', 'micro-coax 1.13 mm class', 0.15, boardPlug16, smaJack],
  ['micro-coax 1.2 mm height plug to SMA jack', 'micro-coax 1.13 mm class', 0.15, boardPlug12, smaJack],
  [
    'micro-coax 1.2 mm height plug to RP-SMA jack',
    'micro-coax 1.13 mm class',
    0.15,
    boardPlug12,
    reverseSmaJack,
  ],
  ['N plug to N plug', 'RG-223/U', 1, nPlug, nPlug],
  ['SMA plug to N plug', 'RG-223/U', 1, smaPlug, nPlug],
  ['N plug to N plug', 'RG-58C/U', 1, nPlug, nPlug],
  ['SMA plug to N plug', 'RG-58C/U', 1, smaPlug, nPlug],
  ['SMA plug to N plug', 'low-loss 5 mm class', 1, smaPlug, nPlug],
  ['RP-SMA plug to N plug', 'low-loss 5 mm class', 1, reverseSmaPlug, nPlug],
  ['N plug to N plug', 'low-loss 5 mm class', 1, nPlug, nPlug],
];

/**
 * Short ready-made cables between two connectors: from the board to the wall of the box, and from there to the line.
 *
 * Their loss is that of their cable; the connectors at their ends count as pairs where they join a neighbour.
 *
 * @source range of parts from memory; losses by the row of the cable
 */
export const commonPigtails: readonly Pigtail[] = /* @__PURE__ */ lines.map(
  ([words, cable, lengthM, first, second]): Pigtail => ({
    kind: 'pigtail',
    designation: `${words}, ${lengthM} m of ${cable}`,
    cable,
    lengthM,
    ends: [first, second],
    source: 'common part of the trade, from memory',
    status: 'memory',
  }),
);
