import { eirpDbm as eirpOf, eirpToErpDbm } from '@finial/radio';
import { checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import { checkedDataRate, checkedDirection, checkedRegion, dataRateRow } from './checkedRegion.js';
import { seconds, secondsSlack, waitSeconds } from './figures.js';
import { findingUnder } from './findingUnder.js';
import { jurisdictions } from './law/jurisdictions.js';
import { phyPayloadBytes } from './phyPayloadBytes.js';
import type { LoRaDataRate, Region } from './Region.js';
import { regionFindings } from './regionFindings.js';
import { loraFrame, type PlannedFrame, shorterFrames } from './shorterFrames.js';
import { frequencyBounds } from './subBandAt.js';
import type { Transmission, TransmissionFinding } from './Transmission.js';
import { type TimeOnAir, timeOnAir } from './timeOnAir.js';

/** What law and regional parameters say about a transmission, with the figures they look at. */
export interface TransmissionCheck {
  /** Whether nothing was found that must stop. Read `notCovered` too: it says what was not looked at. */
  readonly permitted: boolean;
  /** Duration of the frame and what it is made of. */
  readonly timeOnAir: TimeOnAir;
  /** Bytes of the whole frame. */
  readonly phyPayloadBytes: number;
  /** Equivalent isotropically radiated power in dBm. */
  readonly eirpDbm: number;
  /** Effective radiated power in dBm: 2.15 dB less. */
  readonly erpDbm: number;
  /**
   * Shortest interval in seconds between the starts of such frames that keeps duty cycle or dwell time for ever; undefined where no known
   * rule sets one.
   */
  readonly minimumIntervalSeconds: number | undefined;
  /** What that interval binds: all frames of the station in the sub-band (duty cycle), or those on the same frequency (dwell time). */
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
 * Data frames of LoRa modulation only: frequency-shift keying and LR-FHSS are refused. The nominal bandwidth counts as the occupied one.
 * A frequency or bandwidth without a known rule is not permitted. Rules known from memory only make notes. Statutes change and
 * countries deviate: whoever transmits answers for it, and this is no legal advice.
 *
 * @returns the verdict with all figures; durations and powers are exact to a rounding, limits to the cited editions
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range`, `unknown-option` or `wrong-type`: a field is not what
 * {@link Transmission} says; `outside-validity`: the data rate is no LoRa modulation
 * @source EN 300 220-2 and ERC/REC 70-03 (EU), 47 CFR 15.247 (US), LoRaWAN regional parameters; each finding carries its citation
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
 */
export function checkTransmission(transmission: Transmission): TransmissionCheck {
  const { frame, radio, ...plan } = checkedTransmission(transmission);
  const { row, direction } = frame;
  const onAir = timeOnAir(loraFrame(row, direction, frame.phyPayloadBytes));
  const erpDbm = eirpToErpDbm(radio.eirpDbm);
  const law = jurisdictions[plan.jurisdiction];
  const judgement = law.judge({
    direction,
    frequencyHz: radio.frequencyHz,
    bandwidthHz: row.bandwidthHz,
    timeOnAirSeconds: onAir.totalSeconds,
    conductedPowerDbm: radio.conductedPowerDbm,
    antennaGainDbi: radio.antennaGainDbi,
    erpDbm,
    intervalSeconds: plan.intervalSeconds,
    channelUse: plan.channelUse,
    shorterThan: (limitSeconds) => shorterFrames(frame, limitSeconds),
  });
  const findings = [
    ...judgement.findings,
    ...overlapFindings(onAir.totalSeconds, plan.intervalSeconds),
    ...regionFindings(frame, radio),
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
    notCovered: law.notCovered,
  };
}

interface CheckedTransmission extends Pick<Transmission, 'jurisdiction' | 'intervalSeconds' | 'channelUse'> {
  readonly frame: PlannedFrame;
  readonly radio: {
    readonly frequencyHz: number;
    readonly conductedPowerDbm: number;
    readonly antennaGainDbi: number;
    readonly eirpDbm: number;
  };
}

function checkedTransmission(transmission: Transmission): CheckedTransmission {
  checkObject(transmission, 'transmission');
  const {
    applicationBytes,
    fOptsBytes = 0,
    intervalSeconds,
    channelUse,
    direction = 'uplink',
  } = transmission;
  const region = checkedRegion(transmission.region);
  const jurisdiction = checkOneOf(transmission.jurisdiction, 'jurisdiction', ['EU', 'US']);
  checkedDirection(direction);
  const row = checkedLoRaRow(region, transmission.dataRate);
  const frequencyHz = checkRange(transmission.frequencyHz, 'frequencyHz', frequencyBounds);
  if (intervalSeconds !== undefined) {
    checkRange(intervalSeconds, 'intervalSeconds', { min: 1e-3, max: 1e9, unit: 'seconds' });
  }
  if (channelUse !== undefined) checkOneOf(channelUse, 'channelUse', ['hopping-64', 'hybrid-8', 'single']);
  const { conductedPowerDbm, feedlineLossDb, antennaGainDbi } = transmission;
  const eirpDbm = eirpOf({ conductedPowerDbm, feedlineLossDb, antennaGainDbi });
  const phyBytes = phyPayloadBytes({ applicationBytes, fOptsBytes });
  return {
    frame: { region, direction, row, applicationBytes, fOptsBytes, phyPayloadBytes: phyBytes },
    radio: { frequencyHz, conductedPowerDbm, antennaGainDbi, eirpDbm },
    jurisdiction,
    intervalSeconds,
    channelUse,
  };
}

function checkedLoRaRow(region: Region, dataRate: number): LoRaDataRate {
  const row = dataRateRow(region, checkedDataRate(dataRate, 'dataRate'));
  if (row?.modulation === 'LoRa') return row;
  const known = region.dataRates.filter(({ modulation }) => modulation === 'LoRa');
  throw new InputError({
    code: row === undefined ? 'out-of-range' : 'outside-validity',
    argument: 'dataRate',
    received: dataRate,
    expected: `a LoRa data rate of ${region.name} (${known.map((each) => each.dataRate).join(', ')})`,
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
