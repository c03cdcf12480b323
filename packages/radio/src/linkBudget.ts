import { checkList, checkObject, checkRange, InputError } from '@finial/units';
import { bandwidthBounds, feedlineLossBounds, gainBounds, noiseFigureBounds, powerBounds } from './bounds.js';
import { thermalNoiseDbm } from './thermalNoiseDbm.js';

/** One end of a link: a radio, its feedline and its antenna, for sending and receiving. */
export interface LinkEnd {
  /** Power at the output of the transmitter in dBm, -300 to 300. */
  readonly conductedPowerDbm: number;
  /** Loss between radio and antenna in dB, 0 to 200; it counts on the way out and on the way in. */
  readonly feedlineLossDb: number;
  /** Gain of the antenna towards the other end in dBi, -100 to 100. */
  readonly antennaGainDbi: number;
  /** Noise figure of the receiver alone in dB, 0 to 100. */
  readonly noiseFigureDb: number;
  /**
   * How far man-made noise lifts the noise at the input of this receiver in dB, 0 to 100.
   *
   * @defaultValue 0
   */
  readonly receivedNoiseRiseDb?: number | undefined;
}

/** A loss on the way, beside the path loss: polarisation, a wall, a fading margin. */
export interface NamedLoss {
  /** What it is, in words. */
  readonly name: string;
  /** The loss in dB, 0 to 1000. */
  readonly lossDb: number;
}

/** A link between a gateway and a node. */
export interface LinkPlan {
  /** Path loss between the two antennas (isotropic) in dB, 0 to 1000; the same both ways. */
  readonly pathLossDb: number;
  /** Noise bandwidth in hertz, 1 to 1e12; for LoRa the channel bandwidth, such as `125e3`. */
  readonly bandwidthHz: number;
  /**
   * Noise bandwidth of the downlink in hertz, 1 to 1e12, where it is another.
   *
   * @defaultValue `bandwidthHz`
   */
  readonly downlinkBandwidthHz?: number | undefined;
  /** Signal-to-noise ratio that the gateway needs in dB, -100 to 100. */
  readonly uplinkRequiredSnrDb: number;
  /** Signal-to-noise ratio that the node needs in dB, -100 to 100. */
  readonly downlinkRequiredSnrDb: number;
  /** The gateway's end. */
  readonly gateway: LinkEnd;
  /** The node's end. */
  readonly node: LinkEnd;
  /**
   * Further losses on the way, in the order in which they are to be listed.
   *
   * @defaultValue none
   */
  readonly losses?: readonly NamedLoss[] | undefined;
}

/** One line of a link budget. */
export interface LinkItem {
  /** What it is, in words: `node conducted power`. */
  readonly name: string;
  /** Whether the value is the level it starts from, is added, or is taken off. */
  readonly kind: 'power' | 'gain' | 'loss';
  /** For `power` the level in dBm; for `gain` what is added in dB; for `loss` what is taken off in dB, positive. */
  readonly valueDb: number;
  /** The level in dBm after this line. */
  readonly levelDbm: number;
}

/** A link budget one way. */
export interface LinkDirection {
  /** The budget line by line, from the transmitter's output to the receiver's input. */
  readonly items: readonly LinkItem[];
  /** Equivalent isotropically radiated power of the sender in dBm. */
  readonly eirpDbm: number;
  /** Power at the input of the receiver, below its feedline, in dBm. */
  readonly receivedPowerDbm: number;
  /** Thermal noise k T B at 290 K in dBm. */
  readonly thermalNoiseDbm: number;
  /** Noise at the input of the receiver in dBm: thermal noise, the receiver's noise figure and the noise rise. */
  readonly noisePowerDbm: number;
  /** Signal-to-noise ratio at the receiver in dB. */
  readonly snrDb: number;
  /** Signal-to-noise ratio that the receiver needs in dB. */
  readonly requiredSnrDb: number;
  /** How far the signal-to-noise ratio lies above what is needed in dB; negative when the link does not work. */
  readonly marginDb: number;
  /** Path loss in dB at which the margin would be zero, with the further losses kept as they are. */
  readonly maximumPathLossDb: number;
}

/** A link budget both ways. */
export interface LinkBudget {
  /** From the node to the gateway. */
  readonly uplink: LinkDirection;
  /** From the gateway to the node. */
  readonly downlink: LinkDirection;
}

interface NamedEnd extends LinkEnd {
  readonly name: string;
  readonly receivedNoiseRiseDb: number;
}

interface Way {
  readonly transmitter: NamedEnd;
  readonly receiver: NamedEnd;
  readonly requiredSnrDb: number;
  readonly thermalNoiseDbm: number;
}

const pathLossBounds = { min: 0, max: 1000, unit: 'dB (a loss is positive)' };
const snrBounds = { min: -100, max: 100, unit: 'dB' };

/**
 * Link budget of a gateway and a node, both ways, line by line.
 *
 * Signal and noise meet at the input of the receiver, below its feedline. A feedline at 290 K takes its loss off the signal, while
 * the noise it swallows from the antenna it replaces by its own warmth: the noise there stays k T B plus the receiver's noise
 * figure. So the receiving feedline costs its loss once, not twice. Give `receivedNoiseRiseDb` as it is at the input of the receiver,
 * where a spectrum analyser in place of the radio would see it.
 *
 * Nothing here knows about interference, collisions or fading; put a margin for them among the losses.
 *
 * @returns both ways, each with its items, levels and margins; error below 1e-11 dB
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source Recommendation ITU-R P.341, system loss and transmission loss (terms); noise: Recommendation ITU-R P.372, section 2 (from memory)
 * @example SF10 over 140 dB
 * ```ts
 * import { linkBudget } from '@finial/radio';
 *
 * const budget = linkBudget({
 *   pathLossDb: 140, bandwidthHz: 125e3, uplinkRequiredSnrDb: -15, downlinkRequiredSnrDb: -15,
 *   gateway: { conductedPowerDbm: 14, feedlineLossDb: 2, antennaGainDbi: 5, noiseFigureDb: 6 },
 *   node: { conductedPowerDbm: 14, feedlineLossDb: 0, antennaGainDbi: 0, noiseFigureDb: 6 },
 * });
 * budget.uplink.receivedPowerDbm; // ≈ -123
 * budget.uplink.marginDb; // ≈ 9.01
 * budget.downlink.marginDb; // ≈ 9.01
 * ```
 */
export function linkBudget(link: LinkPlan): LinkBudget {
  checkObject(link, 'link');
  const shared = {
    pathLossDb: checkRange(link.pathLossDb, 'pathLossDb', pathLossBounds),
    losses: checkedLosses(link.losses),
  };
  const { bandwidthHz, downlinkBandwidthHz = bandwidthHz } = link;
  const uplinkNoiseDbm = noiseIn(bandwidthHz, 'bandwidthHz');
  const downlinkNoiseDbm = noiseIn(downlinkBandwidthHz, 'downlinkBandwidthHz');
  const gateway = checkedEnd(link.gateway, 'gateway');
  const node = checkedEnd(link.node, 'node');
  const uplinkSnrDb = checkRange(link.uplinkRequiredSnrDb, 'uplinkRequiredSnrDb', snrBounds);
  const downlinkSnrDb = checkRange(link.downlinkRequiredSnrDb, 'downlinkRequiredSnrDb', snrBounds);
  return {
    uplink: oneWay(shared, {
      transmitter: node,
      receiver: gateway,
      requiredSnrDb: uplinkSnrDb,
      thermalNoiseDbm: uplinkNoiseDbm,
    }),
    downlink: oneWay(shared, {
      transmitter: gateway,
      receiver: node,
      requiredSnrDb: downlinkSnrDb,
      thermalNoiseDbm: downlinkNoiseDbm,
    }),
  };
}

function oneWay(
  shared: { pathLossDb: number; losses: readonly NamedLoss[] },
  { transmitter, receiver, requiredSnrDb, thermalNoiseDbm: noiseDbm }: Way,
): LinkDirection {
  const sent = [
    line(`${transmitter.name} conducted power`, 'power', transmitter.conductedPowerDbm),
    line(`${transmitter.name} feedline`, 'loss', transmitter.feedlineLossDb),
    line(`${transmitter.name} antenna gain`, 'gain', transmitter.antennaGainDbi),
  ];
  const items = withLevels([
    ...sent,
    line('path loss', 'loss', shared.pathLossDb),
    ...shared.losses.map(({ name, lossDb }) => line(name, 'loss', lossDb)),
    line(`${receiver.name} antenna gain`, 'gain', receiver.antennaGainDbi),
    line(`${receiver.name} feedline`, 'loss', receiver.feedlineLossDb),
  ]);
  const eirpDbm = levelAfter(items, sent.length);
  const receivedPowerDbm = levelAfter(items, items.length);
  const noisePowerDbm = noiseDbm + receiver.noiseFigureDb + receiver.receivedNoiseRiseDb;
  const snrDb = receivedPowerDbm - noisePowerDbm;
  const marginDb = snrDb - requiredSnrDb;
  return {
    items,
    eirpDbm,
    receivedPowerDbm,
    thermalNoiseDbm: noiseDbm,
    noisePowerDbm,
    snrDb,
    requiredSnrDb,
    marginDb,
    maximumPathLossDb: shared.pathLossDb + marginDb,
  };
}

function noiseIn(bandwidthHz: number, argument: string): number {
  return thermalNoiseDbm({ bandwidthHz: checkRange(bandwidthHz, argument, bandwidthBounds) });
}

type Line = Omit<LinkItem, 'levelDbm'>;

function line(name: string, kind: LinkItem['kind'], valueDb: number): Line {
  return { name, kind, valueDb };
}

function withLevels(lines: readonly Line[]): LinkItem[] {
  let levelDbm = 0;
  return lines.map((item) => {
    levelDbm += item.kind === 'loss' ? -item.valueDb : item.valueDb;
    return { ...item, levelDbm };
  });
}

function levelAfter(items: readonly LinkItem[], count: number): number {
  return items[count - 1]?.levelDbm ?? 0;
}

function checkedEnd(end: LinkEnd, name: string): NamedEnd {
  checkObject(end, name);
  const { receivedNoiseRiseDb = 0 } = end;
  const rise = { min: 0, max: 100, unit: 'dB' };
  return {
    name,
    conductedPowerDbm: checkRange(end.conductedPowerDbm, `${name}.conductedPowerDbm`, powerBounds),
    feedlineLossDb: checkRange(end.feedlineLossDb, `${name}.feedlineLossDb`, feedlineLossBounds),
    antennaGainDbi: checkRange(end.antennaGainDbi, `${name}.antennaGainDbi`, gainBounds),
    noiseFigureDb: checkRange(end.noiseFigureDb, `${name}.noiseFigureDb`, noiseFigureBounds),
    receivedNoiseRiseDb: checkRange(receivedNoiseRiseDb, `${name}.receivedNoiseRiseDb`, rise),
  };
}

function checkedLosses(losses: readonly NamedLoss[] | undefined): readonly NamedLoss[] {
  // An empty list is a plain "none"; checkList would refuse it.
  if (losses === undefined || (Array.isArray(losses) && losses.length === 0)) return [];
  return checkList(losses, 'losses').map((loss, index) => {
    const path = `losses[${index}]`;
    checkObject(loss, path);
    if (typeof loss.name !== 'string' || loss.name.trim() === '') {
      const expected = 'the name of the loss in words';
      throw new InputError({ code: 'wrong-type', argument: `${path}.name`, received: loss.name, expected });
    }
    return { name: loss.name, lossDb: checkRange(loss.lossDb, `${path}.lossDb`, pathLossBounds) };
  });
}
