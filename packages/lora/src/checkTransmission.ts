import { eirpDbm as eirpOf, eirpToErpDbm } from '@finial/radio';
import { checkObject, checkRange, InputError } from '@finial/units';
import { checkedDataRate, checkedDirection, checkedRegion, dataRateRow } from './checkedRegion.js';
import { checkedYesNo } from './checkedYesNo.js';
import { downlinkFindings } from './downlinkFindings.js';
import { seconds, secondsSlack, waitSeconds } from './figures.js';
import { findingUnder } from './findingUnder.js';
import { type FrameTime, frameTimeOnAir, longestHopSeconds } from './frameTimeOnAir.js';
import { checkedChannelUse } from './law/channelUse.js';
import { checkedAccess } from './law/checkedAccess.js';
import type { Jurisdiction, Signal } from './law/Jurisdiction.js';
import { judge } from './law/judge.js';
import { checkedJurisdiction } from './law/jurisdictions.js';
import { nominalBandwidthHz } from './nominalBandwidthHz.js';
import { phyPayloadBytes } from './phyPayloadBytes.js';
import type { DataRate, Region } from './Region.js';
import { type PlannedRadio, regionFindings } from './regionFindings.js';
import { type PlannedFrame, shorterFrames } from './shorterFrames.js';
import { frequencyBounds } from './subBandAt.js';
import type { Transmission, TransmissionFinding } from './Transmission.js';

/** What law and regional parameters say about a transmission, with the figures they look at. */
export interface TransmissionCheck {
  /** Whether nothing was found that must stop. Read `notCovered` too: it says what was not looked at. */
  readonly permitted: boolean;
  /** Duration of the frame and what it is made of; `modulation` tells which of the parts are there. */
  readonly timeOnAir: FrameTime;
  /** Bytes of the whole frame. */
  readonly phyPayloadBytes: number;
  /** Equivalent isotropically radiated power in dBm. */
  readonly eirpDbm: number;
  /** Effective radiated power in dBm: 2.15 dB less. */
  readonly erpDbm: number;
  /**
   * Shortest interval in seconds between the starts of such frames that keeps the duty cycle on the average (`lawfulPace`
   * keeps it in every hour), and dwell time or pause in every window; undefined where no
   * known rule sets one. Rules known from memory count here too.
   */
  readonly minimumIntervalSeconds: number | undefined;
  /** What that interval binds: all frames of the station in the sub-band (duty cycle, pause), or those on the same frequency (dwell time). */
  readonly intervalScope: 'sub-band' | 'frequency' | undefined;
  /** Such frames in an hour at that interval, rounded down; undefined where there is none. */
  readonly framesPerHour: number | undefined;
  /** What was found: what must stop, what to fix, what to know. */
  readonly findings: readonly TransmissionFinding[];
  /** What the law also asks for and nobody checked here, in words. */
  readonly notCovered: readonly string[];
}

/**
 * Whether a LoRaWAN data frame may be sent: power, frequency, bandwidth, duration and pace against the law, payload, channel and
 * power against the regional parameters. Says by how much a limit is broken and which changes mend it.
 *
 * The nominal bandwidth counts as the occupied one; of FSK it is what Carson's rule gives, of LR-FHSS the channel that is hopped in. A
 * frequency, bandwidth or way to share the channel without a known rule is not permitted. Rules known from memory only make notes, so that
 * a verdict on Australia rests on notes alone. Only this frame is looked at: what else the station sends is the business of
 * `transmitLedger`. Statutes change and countries deviate: whoever transmits answers for it, and this is no legal advice.
 *
 * @returns the verdict with all figures; durations and powers are exact to a rounding, limits to the cited editions
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` (also: a data rate that the plan reserves), `unknown-option` or
 * `wrong-type`: a field is not what {@link Transmission} says
 * @source EN 300 220-2 and ERC/REC 70-03 (EU), 47 CFR 15.247 (US) and those of `lawRules`; LoRaWAN regional parameters; each finding carries
 * its citation
 * @example A node with a better antenna than the law likes
 * ```ts
 * import { checkTransmission, regions } from '@finial/lora';
 *
 * const check = checkTransmission({
 *   region: regions.EU868, jurisdiction: 'EU', dataRate: 0, frequencyHz: 868.1e6, applicationBytes: 11,
 *   conductedPowerDbm: 14, feedlineLossDb: 0.5, antennaGainDbi: 5.15,
 * });
 * check.permitted; // → false
 * check.erpDbm; // ≈ 16.5
 * check.findings[0]?.remedies; // → [{ conductedPowerDbm: 11.5 }]
 * check.minimumIntervalSeconds; // ≈ 148.3
 * ```
 * @example Korea: who listens may send for 4 s, who does not has 0.4 s in any 20 s
 * ```ts
 * import { checkTransmission, regions } from '@finial/lora';
 *
 * const frame = {
 *   region: regions.KR920, jurisdiction: 'KR', dataRate: 0, frequencyHz: 922.1e6, applicationBytes: 11,
 *   conductedPowerDbm: 12, feedlineLossDb: 0, antennaGainDbi: 2,
 * } as const;
 * checkTransmission(frame).permitted; // → true
 * checkTransmission({ ...frame, access: 'duty-cycle' }).permitted; // → false
 * ```
 */
export function checkTransmission(transmission: Transmission): TransmissionCheck {
  const { frame, radio, signal, law, intervalSeconds } = checkedTransmission(transmission);
  const onAir = frameTimeOnAir(frame.row, frame.direction, frame.phyPayloadBytes);
  const erpDbm = eirpToErpDbm(radio.eirpDbm);
  const judgement = judge(law, signal, {
    direction: frame.direction,
    timeOnAirSeconds: onAir.totalSeconds,
    longestHopSeconds: longestHopSeconds(onAir),
    conductedPowerDbm: radio.conductedPowerDbm,
    eirpDbm: radio.eirpDbm,
    erpDbm,
    intervalSeconds,
    shorterThan: (limitSeconds, part) => shorterFrames(frame, limitSeconds, part),
  });
  const findings = [
    ...judgement.findings,
    ...overlapFindings(onAir.totalSeconds, intervalSeconds),
    ...regionFindings(frame, radio),
    ...downlinkFindings(frame, radio),
  ];
  return {
    permitted: findings.every(({ severity }) => severity !== 'stop'),
    timeOnAir: onAir,
    phyPayloadBytes: frame.phyPayloadBytes,
    eirpDbm: radio.eirpDbm,
    erpDbm,
    minimumIntervalSeconds: judgement.minimumIntervalSeconds,
    intervalScope: judgement.intervalScope,
    framesPerHour: framesPerHour(judgement.minimumIntervalSeconds),
    findings,
    notCovered: law.otherRules.filter(({ use }) => use === 'not covered').map(({ limits }) => limits),
  };
}

interface CheckedTransmission {
  readonly frame: PlannedFrame;
  readonly radio: PlannedRadio;
  readonly signal: Signal;
  readonly law: Jurisdiction;
  readonly intervalSeconds: number | undefined;
}

function checkedTransmission(transmission: Transmission): CheckedTransmission {
  checkObject(transmission, 'transmission');
  const region = checkedRegion(transmission.region);
  const law = checkedJurisdiction(transmission.jurisdiction);
  const row = checkedRow(region, transmission.dataRate);
  const radio = checkedRadio(transmission);
  const { intervalSeconds } = transmission;
  if (intervalSeconds !== undefined) {
    checkRange(intervalSeconds, 'intervalSeconds', { min: 1e-3, max: 1e9, unit: 'seconds' });
  }
  const frame = plannedFrame(transmission, region, row);
  const signal: Signal = {
    direction: frame.direction,
    modulation: row.modulation,
    frequencyHz: radio.frequencyHz,
    bandwidthHz: nominalBandwidthHz(row),
    antennaGainDbi: transmission.antennaGainDbi,
    channelUse: checkedChannelUse(transmission.channelUse),
    access: checkedAccess(transmission.access),
  };
  return { frame, radio, signal, law, intervalSeconds };
}

function checkedRadio(transmission: Transmission): PlannedRadio {
  const { conductedPowerDbm, feedlineLossDb, antennaGainDbi } = transmission;
  return {
    frequencyHz: checkRange(transmission.frequencyHz, 'frequencyHz', frequencyBounds),
    conductedPowerDbm,
    eirpDbm: eirpOf({ conductedPowerDbm, feedlineLossDb, antennaGainDbi }),
  };
}

function plannedFrame(transmission: Transmission, region: Region, row: DataRate): PlannedFrame {
  const { applicationBytes, fOptsBytes = 0, direction = 'uplink', dwellLimited, repeater } = transmission;
  if (dwellLimited !== undefined) checkedYesNo(dwellLimited, 'dwellLimited');
  if (repeater !== undefined) checkedYesNo(repeater, 'repeater');
  return {
    region,
    direction: checkedDirection(direction),
    row,
    applicationBytes,
    fOptsBytes,
    phyPayloadBytes: phyPayloadBytes({ applicationBytes, fOptsBytes }),
    dwellLimited,
    repeater,
  };
}

function checkedRow(region: Region, dataRate: number): DataRate {
  const row = dataRateRow(region, checkedDataRate(dataRate, 'dataRate'));
  if (row !== undefined) return row;
  const known = region.dataRates.map((each) => each.dataRate).join(', ');
  throw new InputError({
    code: 'out-of-range',
    argument: 'dataRate',
    received: dataRate,
    expected: `a data rate of ${region.name} (${known})`,
  });
}

function overlapFindings(timeOnAirSeconds: number, planned: number | undefined): TransmissionFinding[] {
  if (planned === undefined || planned >= timeOnAirSeconds - secondsSlack) return [];
  const arithmetic = {
    document: 'A transmitter sends one frame at a time',
    edition: 'arithmetic',
    status: 'read',
  } as const;
  const every = waitSeconds(timeOnAirSeconds);
  return [
    findingUnder(arithmetic, {
      rule: 'frames-overlap',
      severity: 'stop',
      message: `the next frame would start before this one ends: wait ${seconds(every)} between starts at least`,
      measured: seconds(planned),
      limit: seconds(timeOnAirSeconds),
      remedies: [{ intervalSeconds: every }],
    }),
  ];
}

/** A frame that ends with the hour exactly must count in spite of rounding. */
const countSlack = 1e-9;

function framesPerHour(intervalSeconds: number | undefined): number | undefined {
  return intervalSeconds === undefined ? undefined : Math.floor(3600 / intervalSeconds + countSlack);
}
