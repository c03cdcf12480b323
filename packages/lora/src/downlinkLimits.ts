import { erpToEirpDbm, maxConductedPowerDbm } from '@finial/radio';
import { checkObject } from '@finial/units';
import { channelFrequenciesHz } from './channelFrequenciesHz.js';
import { checkedRegion, dataRateRow, serves } from './checkedRegion.js';
import { type AirtimeLimit, publicLimit } from './law/airtimeLimits.js';
import { checkedAccess } from './law/checkedAccess.js';
import type { Jurisdiction, PowerLimit, Signal } from './law/Jurisdiction.js';
import { checkedJurisdiction } from './law/jurisdictions.js';
import { stoppingRemark } from './law/stoppingRemark.js';
import { nominalBandwidthHz } from './nominalBandwidthHz.js';
import type { DataRate, Region } from './Region.js';
import type { Access, JurisdictionName } from './Transmission.js';

/** A gateway whose downlinks are planned. */
export interface DownlinkQuestion {
  /** Regional parameters, such as `regions.EU868`. */
  readonly region: Region;
  /** Whose law holds. */
  readonly jurisdiction: JurisdictionName;
  /** Loss of the gateway's cables, connectors and arrestors up to the antenna in dB, 0 to 200. */
  readonly feedlineLossDb: number;
  /** Gain of its antenna in its strongest direction in dBi, -100 to 100. */
  readonly antennaGainDbi: number;
  /** How it shares its channels, where the law leaves the choice; the usual way of the jurisdiction unless given. */
  readonly access?: Access | undefined;
}

/** What the law leaves a gateway on one downlink channel. */
export interface DownlinkLimit {
  /** Which receive window of the nodes it is: the first (on default channels) or the second. */
  readonly window: 'RX1' | 'RX2';
  /** Centre frequency in hertz. */
  readonly frequencyHz: number;
  /** Bandwidth in hertz. */
  readonly bandwidthHz: number;
  /** Whether a known rule permits the channel. */
  readonly permitted: boolean;
  /** Why not, in words, where it is not permitted. */
  readonly reason?: string | undefined;
  /** Highest power at the gateway's port in dBm; left out where the channel is not permitted. */
  readonly maxConductedPowerDbm?: number | undefined;
  /** What that radiates in dBm. */
  readonly maxEirpDbm?: number | undefined;
  /** Whether that limit is confirmed; false where it is known from memory. */
  readonly verified: boolean;
  /** Limits on time; channels whose limits have the same `book` share them. Empty where none is known. */
  readonly airtime: readonly AirtimeLimit[];
}

/**
 * The power table of a gateway: for each downlink channel that nodes listen on by default, the highest power behind its feedline and
 * antenna, and the budget of time that the channel draws on.
 *
 * A gateway answers all its nodes from one budget, so that this is where a network runs out first: in Europe the first windows of the three
 * default channels share 36 s an hour. Channels that a network adds are not in the table: ask `airtimeLimits`.
 *
 * @returns one row per channel, RX1 first; powers exact to a rounding, limits to the cited editions
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range`, `unknown-option` or `wrong-type`
 * @source The law's rules as in `lawRules`; channels and second window from the regional parameters
 * @example A gateway with 2 dB of feedline and a 5.15 dBi antenna in Europe
 * ```ts
 * import { downlinkLimits, regions } from '@finial/lora';
 *
 * const table = downlinkLimits({
 *   region: regions.EU868, jurisdiction: 'EU', feedlineLossDb: 2, antennaGainDbi: 5.15,
 * });
 * table.map(({ window }) => window); // → ['RX1', 'RX1', 'RX1', 'RX2']
 * table[0]?.maxConductedPowerDbm; // ≈ 13
 * table[3]?.maxConductedPowerDbm; // ≈ 26
 * table[3]?.airtime[0]?.budgetSeconds; // → 360
 * ```
 */
export function downlinkLimits(question: DownlinkQuestion): readonly DownlinkLimit[] {
  checkObject(question, 'question');
  const region = checkedRegion(question.region);
  const law = checkedJurisdiction(question.jurisdiction);
  const access = checkedAccess(question.access);
  const { feedlineLossDb, antennaGainDbi } = question;
  // Asked for its refusals: the antenna is the same on every channel.
  maxConductedPowerDbm({ eirpLimitDbm: 0, feedlineLossDb, antennaGainDbi });
  const place = { law, access, feedlineLossDb, antennaGainDbi };
  const second = dataRateRow(region, region.secondWindow.dataRate);
  return [
    ...firstWindows(region).map((channel) => limitOf('RX1', channel, place)),
    ...(second === undefined
      ? []
      : [limitOf('RX2', { frequencyHz: region.secondWindow.frequencyHz, row: second }, place)]),
  ];
}

interface DownlinkChannel {
  readonly frequencyHz: number;
  readonly row: DataRate;
}

/** Channels of groups that carry downlinks, each with its lowest data rate. */
function firstWindows(region: Region): DownlinkChannel[] {
  return region.channels
    .filter((group) => serves(group, 'downlink'))
    .flatMap((group) => {
      const row = dataRateRow(region, group.minDataRate);
      if (row === undefined || !serves(row, 'downlink')) return [];
      return channelFrequenciesHz(group).map((frequencyHz) => ({ frequencyHz, row }));
    });
}

interface Place {
  readonly law: Jurisdiction;
  readonly access: Access | undefined;
  readonly feedlineLossDb: number;
  readonly antennaGainDbi: number;
}

function limitOf(window: 'RX1' | 'RX2', { frequencyHz, row }: DownlinkChannel, place: Place): DownlinkLimit {
  const bandwidthHz = nominalBandwidthHz(row);
  const signal: Signal = {
    direction: 'downlink',
    modulation: row.modulation,
    frequencyHz,
    bandwidthHz,
    antennaGainDbi: place.antennaGainDbi,
    channelUse: undefined,
    access: place.access,
  };
  const demands = place.law.demandsOn(signal);
  const channel = { window, frequencyHz, bandwidthHz };
  const stop = 'refusal' in demands ? demands.refusal : stoppingRemark(demands);
  if ('refusal' in demands || stop !== undefined) {
    return { ...channel, permitted: false, reason: stop?.message, verified: true, airtime: [] };
  }
  const airtime = demands.time.map(publicLimit);
  const lowest = demands.power
    .filter(({ customary }) => customary !== true)
    .map((limit) => ({ powerDbm: portPowerDbm(limit, place), verified: limit.citation.status !== 'memory' }))
    .sort((a, b) => a.powerDbm - b.powerDbm)[0];
  if (lowest === undefined) return { ...channel, permitted: true, verified: false, airtime };
  const { feedlineLossDb, antennaGainDbi } = place;
  return {
    ...channel,
    permitted: true,
    maxConductedPowerDbm: lowest.powerDbm,
    maxEirpDbm: lowest.powerDbm - feedlineLossDb + antennaGainDbi,
    verified: lowest.verified,
    airtime,
  };
}

function portPowerDbm({ quantity, limitDbm }: PowerLimit, { feedlineLossDb, antennaGainDbi }: Place): number {
  if (quantity === 'conducted') return limitDbm;
  const eirpLimitDbm = quantity === 'ERP' ? erpToEirpDbm(limitDbm) : limitDbm;
  return maxConductedPowerDbm({ eirpLimitDbm, feedlineLossDb, antennaGainDbi });
}
