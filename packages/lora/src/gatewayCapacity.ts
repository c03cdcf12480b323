import { checkInteger, checkList, checkObject, checkPositive, checkRange } from '@finial/units';
import { type Capture, type CaptureReach, captureReach, survivingRatio } from './alohaDelivery.js';
import { blockingKernel } from './erlangBlockingRatio.js';
import { refused } from './refused.js';
import { checkedSpreadingFactor } from './spreadingFactor.js';

/** Nodes that send alike. */
export interface NodeGroup {
  /** Their spreading factor, a whole number from 5 to 12; groups of the same one disturb each other. */
  readonly spreadingFactor: number;
  /** How many there are, 0 to 1e6. */
  readonly nodeCount: number;
  /** Time on air of each frame in seconds, above 0 to 1000. */
  readonly timeOnAirSeconds: number;
  /** Mean interval between the starts of frames of one node in seconds, up to 1e9 and not shorter than the frame. */
  readonly intervalSeconds: number;
}

/** What a gateway sends itself. */
export interface DownlinkLoad {
  /** Mean time on air in seconds, above 0 to 1000. */
  readonly timeOnAirSeconds: number;
  /** Downlinks in an hour, 0 or more; together they must last less than the hour. */
  readonly framesPerHour: number;
}

/** A gateway and what is sent to it. */
export interface GatewayLoad {
  /** The nodes within reach, those of other networks included. */
  readonly groups: readonly NodeGroup[];
  /** Channels that nodes take turns over, 1 to 1000; 8 unless given. */
  readonly channelCount?: number | undefined;
  /** Frames that the gateway can receive at once, 1 to 1024; 8 unless given. */
  readonly demodulatorCount?: number | undefined;
  /** Whether the stronger of two frames survives, and how strong they come in; without it both are lost. */
  readonly capture?: Capture | undefined;
  /** What the gateway sends itself; nothing unless given. */
  readonly downlink?: DownlinkLoad | undefined;
  /** Share of all frames that must come through, above 0 and below 1, if the number of nodes for it is wanted. */
  readonly targetDeliveryRatio?: number | undefined;
}

/** Why a frame is lost at the gateway. */
export type CapacityLossName = 'gateway transmitting' | 'demodulators busy' | 'collision';

/** One reason for losses. */
export interface CapacityLoss {
  /** What it is. */
  readonly name: CapacityLossName;
  /** Share lost of the frames that the reasons before left over. */
  readonly lossRatio: number;
  /** Frames lost by it in an hour. */
  readonly lostFramesPerHour: number;
}

/** How a group fares. */
export interface GroupDelivery {
  /** Spreading factor of the group. */
  readonly spreadingFactor: number;
  /** Frames that it sends in an hour. */
  readonly sentFramesPerHour: number;
  /** Its frames on the air at once on average, over all channels. */
  readonly offeredErlangs: number;
  /** What is lost, in the order in which it is taken off. */
  readonly losses: readonly CapacityLoss[];
  /** Share of its frames that come through. */
  readonly deliveryRatio: number;
  /** Frames that come through in an hour. */
  readonly receivedFramesPerHour: number;
}

/** What a gateway can take in. */
export interface GatewayCapacity {
  /** Each group, in the order given. */
  readonly groups: readonly GroupDelivery[];
  /** Frames sent to the gateway in an hour. */
  readonly sentFramesPerHour: number;
  /** Frames that come through in an hour. */
  readonly receivedFramesPerHour: number;
  /** Share that comes through; 1 where nothing is sent. */
  readonly deliveryRatio: number;
  /** Frames on the air at once on average. */
  readonly offeredErlangs: number;
  /** Share of the time that the gateway sends and hears nothing. */
  readonly transmittingRatio: number;
  /**
   * Most nodes, in the same mixture of groups, at which the target is kept, rounded down; undefined where no target was given or there is
   * no node to multiply.
   */
  readonly targetNodeCount: number | undefined;
  /** What the figures rest on, in words. */
  readonly assumptions: readonly string[];
}

/**
 * Which share of frames a gateway takes in: its own downlinks, its demodulators and collisions, item by item.
 *
 * A model for planning. Every frame is strong enough when alone; coverage is another matter. Its assumptions come with the result: nodes start at
 * random and on a random channel, spreading factors do not disturb each other (real ones do, when one is some 10 to 25 dB
 * stronger), other services do not interfere. The three reasons are taken one after the other as if independent. Several
 * gateways in reach of a node do better.
 *
 * @returns shares and frames an hour; exact to the model within 1e-9
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range`, `wrong-type` or `missing` (no group)
 * @source Collisions: `alohaDelivery` with its sources. Demodulators: {@link erlangBlockingRatio}. Downlinks: share of the time in which a
 * transmitter that starts at random leaves a frame undisturbed, derived here
 * @example A thousand nodes at SF9, one frame in ten minutes, and a downlink a minute
 * ```ts
 * import { gatewayCapacity } from '@finial/lora';
 *
 * const capacity = gatewayCapacity({
 *   groups: [{ spreadingFactor: 9, nodeCount: 1000, timeOnAirSeconds: 0.205824, intervalSeconds: 600 }],
 *   downlink: { timeOnAirSeconds: 0.185344, framesPerHour: 60 },
 *   targetDeliveryRatio: 0.9,
 * });
 * capacity.deliveryRatio; // ≈ 0.912
 * capacity.groups[0]?.losses.map(({ name }) => name);
 * // → ['gateway transmitting', 'demodulators busy', 'collision']
 * capacity.targetNodeCount; // → 1153
 * ```
 */
export function gatewayCapacity(load: GatewayLoad): GatewayCapacity {
  const gateway = checkedLoad(load);
  const groups = gateway.groups.map((group) => groupDelivery(gateway, group));
  const sentFramesPerHour = sumOf(groups, (group) => group.sentFramesPerHour);
  const receivedFramesPerHour = sumOf(groups, (group) => group.receivedFramesPerHour);
  return {
    groups,
    sentFramesPerHour,
    receivedFramesPerHour,
    deliveryRatio: deliveryRatioOf(groups),
    offeredErlangs: offeredErlangs(gateway.groups),
    transmittingRatio: gateway.transmittingRatio,
    targetNodeCount: targetNodeCount(gateway, load.targetDeliveryRatio),
    assumptions: assumptionsOf(load),
  };
}

interface CheckedLoad {
  readonly groups: readonly NodeGroup[];
  readonly channelCount: number;
  readonly demodulatorCount: number;
  readonly reach: CaptureReach;
  readonly downlinksPerSecond: number;
  readonly transmittingRatio: number;
}

const hourSeconds = 3600;

function groupDelivery(gateway: CheckedLoad, group: NodeGroup): GroupDelivery {
  const sentFramesPerHour = framesPerSecond(group) * hourSeconds;
  const shares: readonly (readonly [CapacityLossName, number])[] = [
    ['gateway transmitting', listeningRatio(gateway, group.timeOnAirSeconds)],
    ['demodulators busy', 1 - blockingKernel(offeredErlangs(gateway.groups), gateway.demodulatorCount)],
    ['collision', survivingRatio(touchingErlangs(gateway, group), gateway.reach)],
  ];
  let left = sentFramesPerHour;
  const losses = shares.map(([name, keptRatio]) => {
    const lostFramesPerHour = left * (1 - keptRatio);
    left -= lostFramesPerHour;
    return { name, lossRatio: 1 - keptRatio, lostFramesPerHour };
  });
  return {
    spreadingFactor: group.spreadingFactor,
    sentFramesPerHour,
    offeredErlangs: framesPerSecond(group) * group.timeOnAirSeconds,
    losses,
    deliveryRatio: shares.reduce((product, [, keptRatio]) => product * keptRatio, 1),
    receivedFramesPerHour: left,
  };
}

/** A frame is heard if the gateway is silent when it starts and starts nothing while it lasts; in silence its downlinks come closer together. */
function listeningRatio(
  { downlinksPerSecond, transmittingRatio }: CheckedLoad,
  timeOnAirSeconds: number,
): number {
  const silentRatio = 1 - transmittingRatio;
  return silentRatio * Math.exp((-downlinksPerSecond * timeOnAirSeconds) / silentRatio);
}

/** Frames of other nodes on the same channel and spreading factor that touch one frame on average. */
function touchingErlangs({ groups, channelCount }: CheckedLoad, group: NodeGroup): number {
  const disturbing = groups.filter(({ spreadingFactor }) => spreadingFactor === group.spreadingFactor);
  return sumOf(disturbing, (other) => {
    // A node does not disturb itself.
    const others = other === group ? Math.max(0, other.nodeCount - 1) : other.nodeCount;
    const startsPerSecond = others / other.intervalSeconds / channelCount;
    return startsPerSecond * (group.timeOnAirSeconds + other.timeOnAirSeconds);
  });
}

function framesPerSecond({ nodeCount, intervalSeconds }: NodeGroup): number {
  return nodeCount / intervalSeconds;
}

function offeredErlangs(groups: readonly NodeGroup[]): number {
  return sumOf(groups, (group) => framesPerSecond(group) * group.timeOnAirSeconds);
}

function deliveryRatioOf(groups: readonly GroupDelivery[]): number {
  const sent = sumOf(groups, (group) => group.sentFramesPerHour);
  if (sent === 0) return 1;
  return sumOf(groups, (group) => group.receivedFramesPerHour) / sent;
}

function sumOf<Item>(items: readonly Item[], value: (item: Item) => number): number {
  return items.reduce((sum, item) => sum + value(item), 0);
}

/** Delivery only falls with more nodes, so that the number is found by halving. */
function targetNodeCount(gateway: CheckedLoad, targetRatio: number | undefined): number | undefined {
  const present = sumOf(gateway.groups, ({ nodeCount }) => nodeCount);
  if (targetRatio === undefined || present === 0) return undefined;
  const keepsTarget = (total: number): boolean => {
    const groups = gateway.groups.map((group) => ({
      ...group,
      nodeCount: (group.nodeCount * total) / present,
    }));
    const scaled = { ...gateway, groups };
    return deliveryRatioOf(groups.map((group) => groupDelivery(scaled, group))) >= targetRatio;
  };
  let kept = 0;
  let missed = 1;
  while (keepsTarget(missed)) [kept, missed] = [missed, missed * 2];
  for (;;) {
    const middle = Math.floor((kept + missed) / 2);
    // Beyond 2^53 neighbouring numbers are more than 1 apart: then nothing lies between them any more.
    if (middle <= kept || middle >= missed) return kept;
    if (keepsTarget(middle)) kept = middle;
    else missed = middle;
  }
}

function assumptionsOf({ capture, downlink }: GatewayLoad): readonly string[] {
  return [
    'nodes start frames at random and choose channels at random, all alike',
    'spreading factors do not disturb each other',
    capture === undefined
      ? 'two frames of one spreading factor that touch on a channel are both lost'
      : `of two frames that touch on a channel the one that is ${capture.thresholdDb ?? 6} dB stronger survives, whichever came first`,
    'a frame that collides holds a demodulator like any other',
    downlink === undefined
      ? 'the gateway never transmits'
      : 'the gateway hears nothing on any channel while it transmits, and transmits at random',
    'every frame is strong enough when it is alone, and no other service interferes',
  ];
}

const longestFrame = { min: 0, max: 1000, unit: 'seconds' };

function checkedLoad(load: GatewayLoad): CheckedLoad {
  checkObject(load, 'load');
  const { channelCount = 8, demodulatorCount = 8, downlink, targetDeliveryRatio } = load;
  const groups = checkList(load.groups, 'groups').map((group, index) =>
    checkedGroup(group, `groups[${index}]`),
  );
  checkInteger(channelCount, 'channelCount', { min: 1, max: 1000, unit: 'channels' });
  checkInteger(demodulatorCount, 'demodulatorCount', { min: 1, max: 1024, unit: 'demodulators' });
  if (targetDeliveryRatio !== undefined) {
    const bounds = { min: 1e-6, max: 1 - 1e-9, unit: 'as a ratio' };
    checkRange(targetDeliveryRatio, 'targetDeliveryRatio', bounds);
  }
  const reach = captureReach(load.capture);
  return { groups, channelCount, demodulatorCount, reach, ...checkedDownlink(downlink) };
}

function checkedGroup(group: NodeGroup, path: string): NodeGroup {
  checkObject(group, path);
  const spreadingFactor = checkedSpreadingFactor(group.spreadingFactor);
  const nodeCount = checkInteger(group.nodeCount, `${path}.nodeCount`, { min: 0, max: 1e6, unit: 'nodes' });
  const timeOnAirSeconds = checkedTime(group.timeOnAirSeconds, `${path}.timeOnAirSeconds`);
  const intervalSeconds = checkRange(group.intervalSeconds, `${path}.intervalSeconds`, {
    min: timeOnAirSeconds,
    max: 1e9,
    unit: 'seconds (a frame ends before the next begins)',
  });
  return { spreadingFactor, nodeCount, timeOnAirSeconds, intervalSeconds };
}

function checkedTime(timeOnAirSeconds: unknown, argument: string): number {
  return checkRange(checkPositive(timeOnAirSeconds, argument, 'seconds'), argument, longestFrame);
}

function checkedDownlink(
  downlink: DownlinkLoad | undefined,
): Pick<CheckedLoad, 'downlinksPerSecond' | 'transmittingRatio'> {
  if (downlink === undefined) return { downlinksPerSecond: 0, transmittingRatio: 0 };
  checkObject(downlink, 'downlink');
  const timeOnAirSeconds = checkedTime(downlink.timeOnAirSeconds, 'downlink.timeOnAirSeconds');
  const bounds = { min: 0, max: 1e9, unit: 'downlinks in an hour' };
  const framesPerHour = checkRange(downlink.framesPerHour, 'downlink.framesPerHour', bounds);
  const downlinksPerSecond = framesPerHour / hourSeconds;
  const transmittingRatio = downlinksPerSecond * timeOnAirSeconds;
  if (transmittingRatio < 1) return { downlinksPerSecond, transmittingRatio };
  const most = `fewer than ${hourSeconds / timeOnAirSeconds}, which fill the hour`;
  throw refused('downlink.framesPerHour', framesPerHour, most);
}
