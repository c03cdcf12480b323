import { thermalNoiseDbm } from '@finial/radio';
import { checkObject, checkRange, ratioToDb } from '@finial/units';
import { bitRateBps } from './bitRateBps.js';
import { channelFrequenciesHz } from './channelFrequenciesHz.js';
import {
  checkedDataRate,
  checkedDirection,
  checkedRegion,
  dataRateRow,
  dwellTableHolds,
  serves,
} from './checkedRegion.js';
import { checkedYesNo } from './checkedYesNo.js';
import { decibels } from './figures.js';
import { type LawfulPace, lawfulPace } from './lawfulPace.js';
import { loraFrame } from './loraFrame.js';
import { maxPayload } from './maxPayload.js';
import { phyPayloadBytes } from './phyPayloadBytes.js';
import type { Direction, LoRaDataRate, Region } from './Region.js';
import { refused } from './refused.js';
import { requiredSnrDb } from './requiredSnrDb.js';
import { signalAndNoiseDbm } from './signalAndNoiseDbm.js';
import type { Access, ChannelUse, JurisdictionName } from './Transmission.js';
import { timeOnAir } from './timeOnAir.js';

/** How a place was heard or is expected to be heard, and what is to be sent there. */
export interface UsableDataRatesQuestion {
  /** Regional parameters, such as `regions.EU868`. */
  readonly region: Region;
  /** Which way the frames go. The signal must be that of this direction: an uplink's reports say little about downlinks. */
  readonly direction: Direction;
  /** Signal-to-noise ratio in dB within the bandwidth of `referenceDataRate`, -60 to 100: a typical value of the place, such as a median. */
  readonly snrDb: number;
  /** LoRa data rate at which that was heard or reckoned. Frames of other rates are taken to come at the same power. */
  readonly referenceDataRate: number;
  /** RSSI in dBm that was reported with the SNR, -200 to 50; of use for strong signals, whose SNR receivers do not tell in full. */
  readonly rssiDbm?: number | undefined;
  /** Noise figure of the receiver in dB, 0 to 60; to be given with `rssiDbm`, and only with it. */
  readonly noiseFigureDb?: number | undefined;
  /** Margin in dB that is kept for fading, 0 to 60; 10 is customary for a fixed place (common practice, no source). */
  readonly fadeAllowanceDb: number;
  /** Bytes of the application, 0 to 242, if data rates must carry them; then times on air come out, too. */
  readonly applicationBytes?: number | undefined;
  /** Whether the dwell time of uplinks is limited, for the payload table; unless given, only where the plan always does. */
  readonly dwellLimited?: boolean | undefined;
  /** Whose law holds, if frames an hour are wanted; to be given with `applicationBytes`. */
  readonly jurisdiction?: JurisdictionName | undefined;
  /** Centre frequency in hertz for the law; unless given, the first channel of the plan that takes the data rate. */
  readonly frequencyHz?: number | undefined;
  /** How a node spreads its narrow uplinks, for the law. */
  readonly channelUse?: ChannelUse | undefined;
  /** How the station shares its channel, for the law. */
  readonly access?: Access | undefined;
}

/** A data rate at a place. */
export interface UsableDataRate {
  /** Index of the data rate. */
  readonly dataRate: number;
  /** Its spreading factor. */
  readonly spreadingFactor: number;
  /** Its bandwidth in hertz. */
  readonly bandwidthHz: number;
  /** Rate of the payload bits in bits per second. */
  readonly bitRateBps: number;
  /** Signal-to-noise ratio in dB within this bandwidth. */
  readonly snrDb: number;
  /** Signal-to-noise ratio in dB that the demodulator needs. */
  readonly requiredSnrDb: number;
  /** What is left above that in dB; negative where nothing is. */
  readonly marginDb: number;
  /** Time on air in seconds of the frame, where bytes were given. */
  readonly timeOnAirSeconds: number | undefined;
  /** How often the law lets such frames be sent, where it was asked. */
  readonly pace: LawfulPace | undefined;
  /** Whether the place can use it: margin kept, bytes carried, law kept. */
  readonly usable: boolean;
  /** Why it cannot, in words; empty where it can. */
  readonly reasons: readonly string[];
}

/** The data rates of a place. */
export interface DataRateChoice {
  /** Signal-to-noise ratio in dB that was reckoned with, within the bandwidth of the reference data rate. */
  readonly snrDb: number;
  /** Whether that came from the RSSI, because the reported SNR was too high to be told. */
  readonly fromRssi: boolean;
  /** Every LoRa data rate of the direction, fastest first. */
  readonly dataRates: readonly UsableDataRate[];
  /** The fastest usable one, by its index; undefined where none is usable. */
  readonly recommendedDataRate: number | undefined;
}

/** Receivers stop counting about here (common practice, no source); above, the RSSI says more. */
const highestReportedSnrDb = 10;

/**
 * Which data rates a place can use, with what margin, and the fastest of them that keeps the allowance for fading.
 *
 * The signal is carried over from the data rate at which it was heard: twice the bandwidth lets in 3 dB more noise, and each
 * spreading factor needs 2.5 dB less. Fast data rates spare airtime, energy and other people's frames; slow ones reach further. One frame is one sample:
 * take the median of many, or a prediction. Interference, collisions and a receiver's own ceiling are not in it, nor are FSK and LR-FHSS,
 * which need another receiver, nor rows whose modulation is known from memory only.
 *
 * @returns the data rates with their margins, error below 1e-11 dB of what was reported; times on air and paces as {@link timeOnAir} and
 * {@link lawfulPace}
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range`, `unknown-option` or `wrong-type`: a field is not what
 * {@link UsableDataRatesQuestion} says; `missing`: one of two fields that belong together
 * @source `requiredSnrDb` with its datasheets; thermal noise over bandwidth
 * @example A place heard at SF12 with -9 dB
 * ```ts
 * import { regions, usableDataRates } from '@finial/lora';
 *
 * const choice = usableDataRates({
 *   region: regions.EU868, direction: 'uplink', snrDb: -9, referenceDataRate: 0, fadeAllowanceDb: 5,
 *   applicationBytes: 20, jurisdiction: 'EU',
 * });
 * choice.recommendedDataRate; // → 2
 * const [usable] = choice.dataRates.filter((each) => each.usable);
 * usable?.marginDb; // ≈ 6
 * usable?.pace?.possible && usable.pace.framesPerHour; // → 79
 * ```
 */
export function usableDataRates(question: UsableDataRatesQuestion): DataRateChoice {
  const place = checkedPlace(question);
  const dataRates = place.region.dataRates
    .filter((row): row is LoRaDataRate => row.modulation === 'LoRa' && serves(row, place.direction))
    .map((row) => judged(place, row))
    .sort((a, b) => b.bitRateBps - a.bitRateBps);
  return {
    snrDb: place.snrDb,
    fromRssi: place.fromRssi,
    dataRates,
    recommendedDataRate: dataRates.find(({ usable }) => usable)?.dataRate,
  };
}

interface Place extends UsableDataRatesQuestion {
  readonly referenceHz: number;
  readonly fromRssi: boolean;
}

function judged(place: Place, row: LoRaDataRate): UsableDataRate {
  const { dataRate, spreadingFactor, bandwidthHz } = row;
  const snrDb = place.snrDb - ratioToDb(bandwidthHz / place.referenceHz);
  const neededDb = requiredSnrDb(spreadingFactor);
  const marginDb = snrDb - neededDb;
  const pace = paceOf(place, row);
  const reasons = [
    ...marginReasons(marginDb, place.fadeAllowanceDb),
    ...payloadReasons(place, row),
    ...(pace?.possible === false ? [pace.reason] : []),
  ];
  return {
    dataRate,
    spreadingFactor,
    bandwidthHz,
    bitRateBps: bitRateBps({ spreadingFactor, bandwidthHz, codingRate: 5 }),
    snrDb,
    requiredSnrDb: neededDb,
    marginDb,
    timeOnAirSeconds: secondsOnAir(place, row),
    pace,
    usable: reasons.length === 0,
    reasons,
  };
}

/** A margin that equals the allowance is kept, in spite of the rounding of sums. */
const marginSlackDb = 1e-9;

function marginReasons(marginDb: number, allowanceDb: number): string[] {
  const shortDb = allowanceDb - marginDb;
  return shortDb <= marginSlackDb ? [] : [`${decibels(shortDb)} dB short of the allowance for fading`];
}

function payloadReasons(
  { region, direction, applicationBytes, dwellLimited }: Place,
  row: LoRaDataRate,
): string[] {
  if (applicationBytes === undefined) return [];
  const limited = dwellTableHolds(region, dwellLimited);
  const largest = maxPayload({ region, direction, dataRate: row.dataRate, dwellLimited: limited });
  if (!largest.available) return [largest.reason];
  return largest.applicationBytes >= applicationBytes
    ? []
    : [`carries ${largest.applicationBytes} bytes at most`];
}

function secondsOnAir({ direction, applicationBytes }: Place, row: LoRaDataRate): number | undefined {
  if (applicationBytes === undefined) return undefined;
  return timeOnAir(loraFrame(row, direction, phyPayloadBytes({ applicationBytes }))).totalSeconds;
}

function paceOf(place: Place, row: LoRaDataRate): LawfulPace | undefined {
  const { region, jurisdiction, direction, applicationBytes, channelUse, access } = place;
  if (jurisdiction === undefined) return undefined;
  // Not `??`: a null that a JavaScript caller passes is to be refused, not replaced.
  const frequencyHz =
    place.frequencyHz === undefined ? firstChannelHz(region, direction, row) : place.frequencyHz;
  if (frequencyHz === undefined) {
    return { possible: false, reason: `no channel of ${region.name} takes it by itself: give its frequency` };
  }
  const { dataRate } = row;
  return lawfulPace({
    region,
    jurisdiction,
    frequencyHz,
    dataRate,
    direction,
    applicationBytes,
    channelUse,
    access,
  });
}

function firstChannelHz(
  region: Region,
  direction: Direction,
  { dataRate }: LoRaDataRate,
): number | undefined {
  return region.channels
    .filter((group) => serves(group, direction))
    .filter((group) => dataRate >= group.minDataRate && dataRate <= group.maxDataRate)
    .flatMap((group) => channelFrequenciesHz(group))[0];
}

const levels = {
  snrDb: { min: -60, max: 100, unit: 'dB' },
  rssiDbm: { min: -200, max: 50, unit: 'dBm' },
  noiseFigureDb: { min: 0, max: 60, unit: 'dB' },
  fadeAllowanceDb: { min: 0, max: 60, unit: 'dB' },
} as const;

function checkedPlace(question: UsableDataRatesQuestion): Place {
  checkObject(question, 'question');
  const region = checkedRegion(question.region);
  const direction = checkedDirection(question.direction);
  checkRange(question.snrDb, 'snrDb', levels.snrDb);
  checkRange(question.fadeAllowanceDb, 'fadeAllowanceDb', levels.fadeAllowanceDb);
  if (question.dwellLimited !== undefined) checkedYesNo(question.dwellLimited, 'dwellLimited');
  const { applicationBytes } = question;
  if (applicationBytes !== undefined) phyPayloadBytes({ applicationBytes });
  refuseHalves(question);
  const referenceHz = checkedReference(region, question.referenceDataRate).bandwidthHz;
  return { ...question, region, direction, referenceHz, ...signalOf(question, referenceHz) };
}

/** Fields that say nothing without another are refused when they come alone: a field that is silently left aside misleads. */
function refuseHalves(question: UsableDataRatesQuestion): void {
  const pairs = [
    ['rssiDbm', 'noiseFigureDb'],
    ['noiseFigureDb', 'rssiDbm'],
    ['jurisdiction', 'applicationBytes'],
    ['frequencyHz', 'jurisdiction'],
    ['channelUse', 'jurisdiction'],
    ['access', 'jurisdiction'],
  ] as const;
  for (const [given, needed] of pairs) {
    if (question[given] === undefined || question[needed] !== undefined) continue;
    throw refused(needed, undefined, `the ${needed} that belongs to ${given}`, 'missing');
  }
}

function checkedReference(region: Region, referenceDataRate: unknown): LoRaDataRate {
  const row = dataRateRow(region, checkedDataRate(referenceDataRate, 'referenceDataRate'));
  if (row?.modulation === 'LoRa') return row;
  throw refused('referenceDataRate', referenceDataRate, `a LoRa data rate of ${region.name}`, 'out-of-range');
}

/** The SNR as reported, unless it is so high that receivers do not tell it in full and the RSSI is known. */
function signalOf(
  { snrDb, rssiDbm, noiseFigureDb }: UsableDataRatesQuestion,
  bandwidthHz: number,
): Pick<Place, 'snrDb' | 'fromRssi'> {
  if (rssiDbm === undefined || noiseFigureDb === undefined) return { snrDb, fromRssi: false };
  checkRange(rssiDbm, 'rssiDbm', levels.rssiDbm);
  checkRange(noiseFigureDb, 'noiseFigureDb', levels.noiseFigureDb);
  const { signalPowerDbm } = signalAndNoiseDbm({ rssiDbm, snrDb });
  const overFloorDb = signalPowerDbm - thermalNoiseDbm({ bandwidthHz }) - noiseFigureDb;
  const fromRssi = snrDb >= highestReportedSnrDb && overFloorDb > snrDb;
  return { snrDb: fromRssi ? overFloorDb : snrDb, fromRssi };
}
