import { freeSpaceLossDb } from '@finial/radio';
import { checkObject, checkOneOf, checkRange, type Finding, InputError } from '@finial/units';
import { type IndoorPath, indoorLossDb } from './indoorLossDb.js';
import { type Slab, slabLossDb } from './slabLossDb.js';
import { thresholdSource, wifiThresholds } from './wifiThresholds.js';

/** A Wi-Fi link from an access point in the house to the gateway at its wall or on its roof. */
export interface WifiPath {
  /** Frequency in hertz, 1e9 to 10e9; inside buildings only 2.4e9 to 2.5e9 and 5.15e9 to 5.85e9. */
  readonly frequencyHz: number;
  /** Distance in metres, 1 to 1000. */
  readonly distanceM: number;
  /** What lies along the way: open air, or the inside of a building, whose own walls are then counted already. */
  readonly surroundings: 'open-air' | IndoorPath['building'];
  /**
   * Floors between, 0 to 3; only inside a building.
   *
   * @defaultValue 0
   */
  readonly floorsCount?: number | undefined;
  /**
   * Walls to add, in their order: in the open every one, inside a building only the outer one.
   *
   * @defaultValue none
   */
  readonly walls?: readonly Slab[] | undefined;
  /**
   * Further loss in dB, 0 to 60: metal-coated glass 20 to 30, a metal box around the gateway's Wi-Fi antenna 20 and more (common practice, no source).
   *
   * @defaultValue 0
   */
  readonly furtherLossDb?: number | undefined;
  /** Radiated power of the weaker of the two ends in dBm (EIRP), -30 to 36: the answer must come back too. */
  readonly eirpDbm: number;
  /** Gain of the receiving antenna in dBi, its feedline's loss taken off, -20 to 30. */
  readonly antennaGainDbi: number;
  /**
   * Rate on the air that is wanted in bits per second, 1 to 65e6; what arrives is about half. A gateway needs only kilobits: more margin is worth more than rate.
   *
   * @defaultValue 6.5e6
   */
  readonly linkRateBps?: number | undefined;
  /**
   * Level in dBm that the receiver needs for that rate, -120 to 0, from its data sheet.
   *
   * @defaultValue what the standard asks of every receiver
   */
  readonly thresholdDbm?: number | undefined;
  /**
   * Level in dBm measured at the place of the gateway, -120 to 0; it takes the place of the computed one.
   *
   * @defaultValue none
   */
  readonly measuredRssiDbm?: number | undefined;
  /**
   * Margin that is wanted in dB, 0 to 60 (common practice, no source).
   *
   * @defaultValue 20
   */
  readonly wantedMarginDb?: number | undefined;
}

/** One wall and its loss. */
export interface WallLoss extends Slab {
  /** What the wave loses straight through it, in dB. */
  readonly lossDb: number;
}

/** What Wi-Fi at the wall is worth. */
export interface WifiBackhaul {
  /** Loss along the distance, floors included, in dB. */
  readonly pathLossDb: number;
  /** The walls in the order given. */
  readonly walls: readonly WallLoss[];
  /** All losses together in dB. */
  readonly totalLossDb: number;
  /** Level in dBm by the model. */
  readonly computedDbm: number;
  /** Level in dBm that counts: the measured one where there is one. */
  readonly receivedDbm: number;
  /** How far the level that counts may differ, either way, in dB. */
  readonly uncertaintyDb: number;
  /** Level in dBm that the receiver needs. */
  readonly thresholdDbm: number;
  /** Rate on the air in bits per second that the threshold stands for. */
  readonly linkRateBps: number;
  /** How far the level lies above the threshold in dB; negative where the link fails. */
  readonly marginDb: number;
  /** Whether the margin that is wanted is there. */
  readonly works: boolean;
  /** What to change, and what to mind. */
  readonly findings: readonly Finding[];
}

const levelBounds = { min: -120, max: 0, unit: 'dBm' };
const measuredUncertaintyDb = 5;
const unsourced = 'common practice, no source';

/**
 * Level and margin of a Wi-Fi backhaul: free space or an indoor model, and the slab loss of the walls.
 *
 * The path is taken without reflections from around (open air) or as the median of a building. Walls are crossed straight and without windows. A measured
 * level beats every model: walk there with the very device, in its closed box.
 *
 * @returns levels in dBm; 6 dB uncertain in open air, 10 dB inside, 3 dB more per wall (in square sum), 5 dB where measured (all common practice)
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number`, `out-of-range`, `outside-validity` or `missing`
 * @source Recommendation ITU-R P.525 (free space); P.1238 before -10 (inside, from memory); P.2040-1, table 3 (walls); IEEE 802.11 HT PHY (thresholds from memory)
 * @example 30 m across the yard, through a brick wall
 * ```ts
 * import { wifiBackhaul } from '@finial/site';
 *
 * const link = wifiBackhaul({
 *   frequencyHz: 2.437e9, distanceM: 30, surroundings: 'open-air', eirpDbm: 15, antennaGainDbi: 2,
 *   walls: [{ material: 'brick', thicknessM: 0.1 }],
 * });
 * link.receivedDbm; // ≈ -56.66
 * link.marginDb; // ≈ 25.34
 * ```
 */
export function wifiBackhaul(path: WifiPath): WifiBackhaul {
  checkObject(path, 'path');
  const { furtherLossDb = 0, measuredRssiDbm, wantedMarginDb = 20 } = path;
  const decibels = (max: number) => ({ min: 0, max, unit: 'dB' });
  const eirpDbm = checkRange(path.eirpDbm, 'eirpDbm', { min: -30, max: 36, unit: 'dBm' });
  const gainDbi = checkRange(path.antennaGainDbi, 'antennaGainDbi', { min: -20, max: 30, unit: 'dBi' });
  const furtherDb = checkRange(furtherLossDb, 'furtherLossDb', decibels(60));
  const wantedDb = checkRange(wantedMarginDb, 'wantedMarginDb', decibels(60));
  const pathLossDb = lossAlong(path);
  const walls = wallsOf(path);
  const totalLossDb = walls.reduce((sum, { lossDb }) => sum + lossDb, pathLossDb + furtherDb);
  const computedDbm = eirpDbm + gainDbi - totalLossDb;
  const measuredDbm =
    measuredRssiDbm === undefined ? undefined : checkRange(measuredRssiDbm, 'measuredRssiDbm', levelBounds);
  const receivedDbm = measuredDbm ?? computedDbm;
  const need = thresholdOf(path);
  const marginDb = receivedDbm - need.thresholdDbm;
  const modelUncertaintyDb = Math.hypot(
    path.surroundings === 'open-air' ? 6 : 10,
    3 * Math.sqrt(walls.length),
  );
  return {
    pathLossDb,
    walls,
    totalLossDb,
    computedDbm,
    receivedDbm,
    uncertaintyDb: measuredDbm === undefined ? modelUncertaintyDb : measuredUncertaintyDb,
    thresholdDbm: need.thresholdDbm,
    linkRateBps: need.linkRateBps,
    marginDb,
    works: marginDb >= wantedDb,
    findings: [
      ...marginFindings(marginDb, wantedDb),
      ...measurementFindings(measuredDbm, computedDbm, modelUncertaintyDb),
      ...unverifiedFindings(path),
    ],
  };
}

function lossAlong(path: WifiPath): number {
  const { floorsCount = 0, frequencyHz, distanceM } = path;
  const surroundings = checkOneOf(path.surroundings, 'surroundings', [
    'open-air',
    'house',
    'flats',
    'office',
  ]);
  if (surroundings !== 'open-air') {
    return indoorLossDb({ frequencyHz, distanceM, building: surroundings, floorsCount });
  }
  checkRange(floorsCount, 'floorsCount', { min: 0, max: 0, unit: 'floors in open air' });
  checkRange(distanceM, 'distanceM', { min: 1, max: 1000, unit: 'metres' });
  checkRange(frequencyHz, 'frequencyHz', { min: 1e9, max: 10e9, unit: 'hertz' });
  return freeSpaceLossDb({ frequencyHz, distanceM });
}

function wallsOf({ walls = [], frequencyHz }: WifiPath): readonly WallLoss[] {
  if (!Array.isArray(walls)) {
    throw new InputError({ code: 'wrong-type', argument: 'walls', received: walls, expected: 'a list' });
  }
  return walls.map((wall: Slab, index) => {
    checkObject(wall, `walls[${index}]`);
    const { material, thicknessM } = wall;
    return { material, thicknessM, lossDb: slabLossDb({ material, thicknessM, frequencyHz }) };
  });
}

/** The slowest listed rate that is fast enough, or the caller's own threshold. */
function thresholdOf(path: WifiPath): { readonly linkRateBps: number; readonly thresholdDbm: number } {
  const { linkRateBps: wantedBps = 6.5e6, thresholdDbm } = path;
  checkRange(wantedBps, 'linkRateBps', {
    min: 1,
    max: 65e6,
    unit: 'bits per second on one stream of 20 MHz',
  });
  if (thresholdDbm !== undefined) {
    return { linkRateBps: wantedBps, thresholdDbm: checkRange(thresholdDbm, 'thresholdDbm', levelBounds) };
  }
  const row = wifiThresholds.find(({ linkRateBps }) => linkRateBps >= wantedBps);
  if (row === undefined) throw new Error('the table ends at the upper bound of the rate');
  return row;
}

function marginFindings(marginDb: number, wantedDb: number): readonly Finding[] {
  if (marginDb >= wantedDb) return [];
  const [measured, limit] = [`${marginDb.toFixed(1)} dB`, `${wantedDb} dB`];
  const message = `Wi-Fi reaches the gateway with ${measured} of the ${limit} wanted: move the access point to the window nearest, give the gateway an outside antenna, or lay a cable.`;
  return [{ rule: 'wifi-margin', severity: 'fix', message, measured, limit, source: unsourced }];
}

function measurementFindings(
  measuredDbm: number | undefined,
  computedDbm: number,
  modelUncertaintyDb: number,
): readonly Finding[] {
  if (measuredDbm === undefined) {
    const message =
      'This level is computed: measure it at the place, with the gateway in its closed box, before you drill.';
    return [{ rule: 'wifi-unmeasured', severity: 'note', message, source: unsourced }];
  }
  const differenceDb = measuredDbm - computedDbm;
  if (Math.abs(differenceDb) <= modelUncertaintyDb + measuredUncertaintyDb) return [];
  const measured = `${measuredDbm} dBm`;
  const side = differenceDb < 0 ? 'below' : 'above';
  const message = `Measured ${measured}, ${Math.abs(differenceDb).toFixed(0)} dB ${side} the model: look for metal in the way (coated glass, foil, steel), a wrong antenna, or another access point.`;
  return [{ rule: 'wifi-disagrees', severity: 'note', message, measured, source: unsourced }];
}

function unverifiedFindings({
  surroundings,
  walls = [],
  thresholdDbm,
  measuredRssiDbm,
}: WifiPath): readonly Finding[] {
  const note = (rule: string, message: string, source: string): Finding => ({
    rule,
    severity: 'note',
    message,
    source,
  });
  const found: Finding[] = [];
  if (thresholdDbm === undefined) {
    const message =
      'The threshold is that of the standard, unverified (from memory): the data sheet of the radio may state a better one.';
    found.push(note('wifi-threshold', message, thresholdSource));
  }
  if (walls.length > 0 && measuredRssiDbm === undefined) {
    const message =
      'Wall losses are those of plain slabs by P.2040-1 (later editions changed some constants): coated glass, foil and reinforcing steel cost 20 dB and more on top.';
    found.push(
      note(
        'wall-model',
        message,
        'Recommendation ITU-R P.2040-1, table 3; allowance: common practice, no source',
      ),
    );
  }
  if (surroundings !== 'open-air' && measuredRssiDbm === undefined) {
    const message =
      'The loss inside the building rests on unverified coefficients (from memory), and buildings differ by 10 dB.';
    found.push(note('indoor-model', message, 'Recommendation ITU-R P.1238, tables 2 and 3, from memory'));
  }
  return found;
}
