import type { Citation } from '../Citation.js';
import type { BandPlan } from './bandPlan.js';

const edition = 'eCFR of 2026-10-01; last amended 85 FR 18149, 2020';

type UsSection =
  | 'classes'
  | 'separation'
  | 'hopping'
  | 'digital'
  | 'hoppingPower'
  | 'digitalPower'
  | 'antennaGain'
  | 'pointToPoint'
  | 'emissions'
  | 'density'
  | 'hybrid'
  | 'connector'
  | 'antennas'
  | 'fieldStrength'
  | 'customaryPower'
  | 'hopFrequencies';

/** Where the American rules stand: the sections of 47 CFR 15.247 and its neighbours. */
export const usCitations: Readonly<Record<UsSection, Citation>> = {
  classes: { document: '47 CFR 15.247(a)', edition, status: 'read' },
  separation: { document: '47 CFR 15.247(a)(1)', edition, status: 'read' },
  hopping: { document: '47 CFR 15.247(a)(1)(i)', edition, status: 'read' },
  digital: { document: '47 CFR 15.247(a)(2)', edition, status: 'read' },
  hoppingPower: { document: '47 CFR 15.247(b)(2)', edition, status: 'quoted' },
  digitalPower: { document: '47 CFR 15.247(b)(3)', edition, status: 'quoted' },
  antennaGain: { document: '47 CFR 15.247(b)(4)', edition, status: 'quoted' },
  pointToPoint: { document: '47 CFR 15.247(c)', edition, status: 'read' },
  emissions: { document: '47 CFR 15.247(d), (g) and (i); 1.1307', edition, status: 'memory' },
  density: { document: '47 CFR 15.247(e) and (f)', edition, status: 'quoted' },
  hybrid: { document: '47 CFR 15.247(f)', edition, status: 'quoted' },
  connector: { document: '47 CFR 15.203', edition: 'edition not recorded', status: 'read' },
  antennas: { document: '47 CFR 15.204(b) and (c)(4)', edition: 'edition not recorded', status: 'read' },
  fieldStrength: {
    document: '47 CFR 15.249, 50 mV/m at 3 m computed into radiated power',
    edition: 'edition not recorded',
    status: 'quoted',
  },
  customaryPower: {
    document: 'RP001 US902-928, 21 dBm for 125 kHz on fewer than 50 channels and 26 dBm for 500 kHz',
    edition: 'edition not recorded',
    status: 'memory',
  },
  hopFrequencies: {
    document: 'LR-FHSS in 1.523 MHz: 60 frequencies, 25.4 kHz apart',
    edition: 'edition not recorded',
    status: 'memory',
  },
};

/** Channels that take turns, and how long each may be used. */
export interface HoppingRule {
  /** Hopping channels of the plan. */
  readonly channelCount: number;
  /** Longest use of one frequency in any window, in seconds. */
  readonly dwellSeconds: number;
  /** Length of the window in seconds. */
  readonly windowSeconds: number;
  /** Where the rule comes from. */
  readonly citation: Citation;
}

/** The numbers of 47 CFR 15.247 that bind LoRaWAN on 902 to 928 MHz. */
export interface UsRules {
  /** Fewest frequencies of a hopping system below `maxHoppingBandwidthHz`. */
  readonly minHoppingChannels: number;
  /** Bandwidth (20 dB) in hertz from which a hopping system counts as wide. */
  readonly maxHoppingBandwidthHz: number;
  /** Fewest frequencies of a wide hopping system. */
  readonly minWideHoppingChannels: number;
  /** Bandwidth (20 dB) in hertz that no hopping system may exceed. */
  readonly maxWideHoppingBandwidthHz: number;
  /** Window in seconds for the dwell time of a wide hopping system. */
  readonly wideHoppingWindowSeconds: number;
  /** Hopping over 64 channels: the window is 20 s, whatever the number of channels. */
  readonly hopping: HoppingRule;
  /** Hybrid operation over the 8 channels of one sub-band: the window is the dwell time by the number of channels. */
  readonly hybrid: HoppingRule;
  /** Least bandwidth (6 dB) of digital modulation in hertz. */
  readonly minDigitalBandwidthHz: number;
  /** Highest conducted power in dBm of hopping over 50 channels or more, and of digital modulation. */
  readonly maxConductedPowerDbm: number;
  /** Highest conducted power in dBm of hopping over fewer channels: 0.25 W. */
  readonly maxFewChannelsPowerDbm: number;
  /** Antenna gain in dBi that costs no conducted power. */
  readonly freeAntennaGainDbi: number;
  /** Highest conducted power in dBm within `densityBandwidthHz`, of digital modulation and of hybrid operation. */
  readonly maxDensityDbm: number;
  /** Bandwidth in hertz of that density. */
  readonly densityBandwidthHz: number;
  /** Conducted power in dBm that customarily keeps the density with 125 kHz on fewer than 50 channels; from memory. */
  readonly customaryNarrowPowerDbm: number;
  /** Conducted power in dBm that customarily keeps the density with 500 kHz; from memory. */
  readonly customaryWidePowerDbm: number;
  /** Radiated power in dBm that 15.249 leaves to a signal that fits no class of 15.247: 50 mV/m at 3 m. */
  readonly maxSingleChannelEirpDbm: number;
}

/**
 * The numbers of 47 CFR 15.247 (and the one of 15.249) that bind LoRaWAN on 902 to 928 MHz.
 *
 * @source 47 CFR 15.247 (a), (b), (e), (f), eCFR of 2026-10-01; 15.249, its field strength computed into radiated power
 */
export const usRules: UsRules = {
  minHoppingChannels: 50,
  maxHoppingBandwidthHz: 250e3,
  minWideHoppingChannels: 25,
  maxWideHoppingBandwidthHz: 500e3,
  wideHoppingWindowSeconds: 10,
  hopping: { channelCount: 64, dwellSeconds: 0.4, windowSeconds: 20, citation: usCitations.hopping },
  hybrid: { channelCount: 8, dwellSeconds: 0.4, windowSeconds: 3.2, citation: usCitations.hybrid },
  minDigitalBandwidthHz: 500e3,
  maxConductedPowerDbm: 30,
  maxFewChannelsPowerDbm: 23.979,
  freeAntennaGainDbi: 6,
  maxDensityDbm: 8,
  densityBandwidthHz: 3e3,
  customaryNarrowPowerDbm: 21,
  customaryWidePowerDbm: 26,
  maxSingleChannelEirpDbm: -1.25,
};

/**
 * The 902 to 928 MHz band as {@link BandPlan}: one stretch; power and time are ruled by class of modulation, see {@link usRules}.
 *
 * @source 47 CFR 15.247(a)
 */
export const usBandPlan: BandPlan = {
  subBands: [{ minHz: 902e6, maxHz: 928e6, citation: usCitations.classes }],
  reserved: [],
};
