import { checkTransmission, type DataRate, maxPayload, type TransmissionCheck } from '@finial/lora';
import type { Finding } from '@finial/units';
import type { BuiltPlan } from './builtPlan.js';
import type { TransmissionPlan } from './plan.js';
import { planRegion } from './planRegion.js';

/** What the law and the regional parameters allow at one uplink data rate. */
export interface DataRateRow {
  /** Data rate index of the region. */
  readonly dataRate: number;
  /** The modulation in words: `SF9, 125 kHz`. */
  readonly modulation: string;
  /** Most application bytes of one frame. */
  readonly longestPayloadBytes: number;
  /** Time on air of the plan's frame in seconds; absent where it does not fit. */
  readonly airtimeSeconds?: number | undefined;
  /** Least time between the starts of two such frames in seconds; absent where no rule of the law sets one. */
  readonly minimumIntervalSeconds?: number | undefined;
  /** Whether the plan's frame may be sent at this data rate at all. */
  readonly permitted: boolean;
  /** Why not, where it is not permitted. */
  readonly reason?: string | undefined;
}

/** The law part of the dossier. */
export interface LawPart {
  /** The node's frame as planned. */
  readonly uplink: TransmissionCheck;
  /** The gateway's downlink as planned, where the plan has one. */
  readonly downlink?: TransmissionCheck | undefined;
  /** Every uplink data rate of the region for the same payload. */
  readonly dataRates: readonly DataRateRow[];
  /** What the law says to a person. */
  readonly findings: readonly Finding[];
}

/** Checks the plan's transmissions against the law in force and lists what each data rate would allow. */
export function lawPart(plan: BuiltPlan): LawPart {
  const uplink = check(plan, 'uplink', plan.node.uplink);
  const downlink = plan.gateway.downlink && check(plan, 'downlink', plan.gateway.downlink);
  return {
    uplink,
    downlink,
    dataRates: planRegion(plan)
      .dataRates.filter(({ direction }) => direction !== 'downlink')
      .map((row) => dataRateRow(plan, row)),
    findings: [...uplink.findings, ...(downlink?.findings ?? [])],
  };
}

function check(
  plan: BuiltPlan,
  direction: 'uplink' | 'downlink',
  frame: TransmissionPlan,
): TransmissionCheck {
  const end = direction === 'uplink' ? plan.node : plan.gateway;
  return checkTransmission({
    region: planRegion(plan),
    jurisdiction: plan.jurisdiction,
    direction,
    ...frame,
    conductedPowerDbm: end.conductedPowerDbm,
    feedlineLossDb: end.feedlineLossDb ?? 0,
    antennaGainDbi: end.antennaGainDbi,
    ...(direction === 'uplink' ? uplinkHabits(plan) : {}),
  });
}

function uplinkHabits({ node }: BuiltPlan) {
  const { intervalSeconds, channelUse, access, dwellLimited } = node;
  return { intervalSeconds, channelUse, access, dwellLimited };
}

function dataRateRow(plan: BuiltPlan, row: DataRate): DataRateRow {
  const { dataRate } = row;
  const modulation = modulationInWords(row);
  const { dwellLimited } = plan.node;
  const longest = maxPayload({ region: planRegion(plan), dataRate, direction: 'uplink', dwellLimited });
  const longestPayloadBytes = longest.available ? longest.applicationBytes : 0;
  const { applicationBytes } = plan.node.uplink;
  if (!longest.available || applicationBytes > longestPayloadBytes) {
    const tooLong = `${applicationBytes} bytes do not fit: ${longestPayloadBytes} at most.`;
    const reason = longest.available ? tooLong : `${longest.reason}.`;
    return { dataRate, modulation, longestPayloadBytes, permitted: false, reason };
  }
  const result = check(plan, 'uplink', { ...plan.node.uplink, dataRate });
  return {
    dataRate,
    modulation,
    longestPayloadBytes,
    airtimeSeconds: result.timeOnAir.totalSeconds,
    minimumIntervalSeconds: result.minimumIntervalSeconds,
    permitted: result.permitted,
    reason: result.findings.find(({ severity }) => severity === 'stop')?.message,
  };
}

/** A modulation as people call it: `SF9, 125 kHz`. */
export function modulationInWords(row: DataRate): string {
  if (row.modulation === 'LoRa') return `SF${row.spreadingFactor}, ${row.bandwidthHz / 1000} kHz`;
  return row.modulation === 'FSK' ? `FSK, ${row.bitRateBps / 1000} kbit/s` : `LR-FHSS, ${row.codeRate}`;
}
