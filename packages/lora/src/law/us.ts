import { checkFinite, checkObject } from '@finial/units';
import type { Citation } from '../Citation.js';
import { dwellIntervalSeconds } from '../dwellTime.js';
import {
  decibelSlack,
  decibels,
  kilohertz,
  reductionDb,
  seconds,
  secondsSlack,
  waitSeconds,
} from '../figures.js';
import { findingUnder } from '../findingUnder.js';
import type { ChannelUse, TransmissionFinding } from '../Transmission.js';
import { bandFinding } from './bandFinding.js';
import { type BandPlan, placeInBandPlan } from './bandPlan.js';
import type { FrameOnAir, Judgement, Jurisdiction } from './Judgement.js';

const edition = 'eCFR of 2026-10-01; last amended 85 FR 18149, 2020';
const classes: Citation = { document: '47 CFR 15.247(a)', edition, status: 'read' };
const hopping: Citation = { document: '47 CFR 15.247(a)(1)(i)', edition, status: 'read' };
const hoppingPower: Citation = { document: '47 CFR 15.247(b)(2)', edition, status: 'quoted' };
const digitalPower: Citation = { document: '47 CFR 15.247(b)(3)', edition, status: 'quoted' };
const antennaGain: Citation = { document: '47 CFR 15.247(b)(4)', edition, status: 'quoted' };
const density: Citation = { document: '47 CFR 15.247(e) and (f)', edition, status: 'quoted' };
const hybrid: Citation = { document: '47 CFR 15.247(f)', edition, status: 'quoted' };
const customaryPower: Citation = {
  document: 'RP001 US902-928, 21 dBm for 125 kHz on fewer than 50 channels and 26 dBm for 500 kHz',
  edition: 'edition not recorded',
  status: 'memory',
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
  /** Bandwidth (20 dB) in hertz up to which that number holds; wider hopping systems are not covered here. */
  readonly maxHoppingBandwidthHz: number;
  /** Hopping over 64 channels: the window is 20 s, whatever the number of channels. */
  readonly hopping: HoppingRule;
  /** Hybrid operation over the 8 channels of one sub-band: the window is the dwell time by the number of channels. */
  readonly hybrid: HoppingRule;
  /** Least bandwidth (6 dB) of digital modulation in hertz. */
  readonly minDigitalBandwidthHz: number;
  /** Highest conducted power in dBm of hopping over 50 channels or more, and of digital modulation. */
  readonly maxConductedPowerDbm: number;
  /** Antenna gain in dBi that costs no conducted power. */
  readonly freeAntennaGainDbi: number;
  /** Highest conducted power in dBm within `densityBandwidthHz`, of digital modulation and of hybrid operation. */
  readonly maxDensityDbm: number;
  /** Bandwidth in hertz of that density. */
  readonly densityBandwidthHz: number;
}

/**
 * The numbers of 47 CFR 15.247 that bind LoRaWAN on 902 to 928 MHz.
 *
 * @source 47 CFR 15.247 (a), (b), (e), (f), eCFR of 2026-10-01
 */
export const usRules: UsRules = {
  minHoppingChannels: 50,
  maxHoppingBandwidthHz: 250e3,
  hopping: { channelCount: 64, dwellSeconds: 0.4, windowSeconds: 20, citation: hopping },
  hybrid: { channelCount: 8, dwellSeconds: 0.4, windowSeconds: 3.2, citation: hybrid },
  minDigitalBandwidthHz: 500e3,
  maxConductedPowerDbm: 30,
  freeAntennaGainDbi: 6,
  maxDensityDbm: 8,
  densityBandwidthHz: 3e3,
};

/**
 * The 902 to 928 MHz band as {@link BandPlan}: one stretch; power and time are ruled by class of modulation, see {@link usRules}.
 *
 * @source 47 CFR 15.247(a)
 */
export const usBandPlan: BandPlan = {
  subBands: [{ minHz: 902e6, maxHz: 928e6, citation: classes }],
  reserved: [],
};

/** A conducted limit and the antenna behind it. */
export interface AntennaBackOff {
  /** Highest conducted power in dBm with an antenna of 6 dBi or less. */
  readonly baseConductedPowerDbm: number;
  /** Gain of the antenna in dBi. */
  readonly antennaGainDbi: number;
}

/**
 * Highest conducted power in dBm with an antenna of more gain: one decibel less for each decibel above 6 dBi, on 902 to 928 MHz.
 *
 * Feedline loss earns nothing: the text does not say that it may offset gain, and this is the safe reading. The relaxations
 * for fixed links belong to 2.4 and 5.8 GHz.
 *
 * @returns dBm at the transmitter's port, exact to a rounding
 * @throws {@link InputError} `not-a-finite-number` or `wrong-type`
 * @source 47 CFR 15.247(b)(4), eCFR of 2026-10-01
 * @example A collinear of 8 dBi
 * ```ts
 * import { conductedLimitDbm } from '@finial/lora';
 *
 * conductedLimitDbm({ baseConductedPowerDbm: 30, antennaGainDbi: 8 }); // → 28
 * ```
 */
export function conductedLimitDbm(backOff: AntennaBackOff): number {
  checkObject(backOff, 'backOff');
  const baseDbm = checkFinite(backOff.baseConductedPowerDbm, 'baseConductedPowerDbm', 'dBm');
  const gainDbi = checkFinite(backOff.antennaGainDbi, 'antennaGainDbi', 'dBi');
  return baseDbm - Math.max(0, gainDbi - usRules.freeAntennaGainDbi);
}

/** 47 CFR 15.247 as {@link Jurisdiction}. */
export const us: Jurisdiction = {
  judge,
  notCovered: [
    'antennas other than those the equipment was authorised with (47 CFR 15.203, 15.204(c)(4))',
    'unwanted emissions (15.247(d)) and RF exposure (15.247(i), 1.1307)',
    'the measured power density in 3 kHz (15.247(e)); only what a flat spectrum would reach is compared',
    'whether the hopping is pseudo-random and uses its channels equally (15.247(a)(1))',
    'field-strength operation on a single channel (15.249)',
  ],
};

function judge(frame: FrameOnAir): Judgement {
  const place = placeInBandPlan(usBandPlan, frame.frequencyHz, frame.bandwidthHz);
  if (place.kind !== 'inside') return noInterval([bandFinding(usBandPlan, place, frame, classes)]);
  if (frame.bandwidthHz >= usRules.minDigitalBandwidthHz) {
    return noInterval([...powerFindings(frame, digitalPower), ...customaryNotes(frame, 26)]);
  }
  if (frame.bandwidthHz >= usRules.maxHoppingBandwidthHz) return noInterval([bandwidthNotCovered(frame)]);
  return judgeNarrow(frame, frame.channelUse ?? 'hopping-64');
}

function noInterval(findings: readonly TransmissionFinding[]): Judgement {
  return { findings, minimumIntervalSeconds: undefined, intervalScope: undefined };
}

function judgeNarrow(frame: FrameOnAir, channelUse: ChannelUse): Judgement {
  if (channelUse === 'single') return noInterval([singleChannel(frame)]);
  const overAll = channelUse === 'hopping-64';
  const rule = overAll ? usRules.hopping : usRules.hybrid;
  const findings = [
    ...(frame.channelUse === undefined ? [assumedHopping()] : []),
    ...powerFindings(frame, overAll ? hoppingPower : digitalPower),
    ...(overAll ? [] : [...densityFindings(frame), ...customaryNotes(frame, 21)]),
  ];
  if (frame.timeOnAirSeconds > rule.dwellSeconds + secondsSlack) {
    return noInterval([...findings, tooLong(frame, rule)]);
  }
  const interval = dwellIntervalSeconds({
    timeOnAirSeconds: Math.min(frame.timeOnAirSeconds, rule.dwellSeconds),
    dwellSeconds: rule.dwellSeconds,
    windowSeconds: rule.windowSeconds,
  });
  return {
    findings: [...findings, paceFinding(frame, rule, interval)],
    minimumIntervalSeconds: interval,
    intervalScope: 'frequency',
  };
}

function powerFindings(frame: FrameOnAir, powerRule: Citation): TransmissionFinding[] {
  const { antennaGainDbi, conductedPowerDbm } = frame;
  const limitDbm = conductedLimitDbm({ baseConductedPowerDbm: usRules.maxConductedPowerDbm, antennaGainDbi });
  const backedOff = limitDbm < usRules.maxConductedPowerDbm;
  const why = backedOff
    ? ` with a ${decibels(antennaGainDbi)} dBi antenna (feedline loss earns nothing)`
    : '';
  return lowerPower(frame, limitDbm, {
    rule: 'conducted-power',
    citation: backedOff ? antennaGain : powerRule,
    message: `${decibels(conductedPowerDbm - limitDbm)} dB too much at the transmitter's port${why}`,
  });
}

/** However the power lies in the band, a flat spectrum has the lowest peak: above its limit no measurement can come out right. */
function densityFindings(frame: FrameOnAir): TransmissionFinding[] {
  const flatDb = 10 * Math.log10(frame.bandwidthHz / usRules.densityBandwidthHz);
  const limitDbm = usRules.maxDensityDbm + flatDb;
  return lowerPower(frame, limitDbm, {
    rule: 'power-density',
    citation: density,
    message: `even spread evenly over ${kilohertz(frame.bandwidthHz)} the power exceeds ${usRules.maxDensityDbm} dBm in ${kilohertz(usRules.densityBandwidthHz)}`,
  });
}

function lowerPower(
  frame: FrameOnAir,
  limitDbm: number,
  rule: { readonly rule: string; readonly citation: Citation; readonly message: string },
): TransmissionFinding[] {
  const excessDb = frame.conductedPowerDbm - limitDbm;
  if (excessDb <= decibelSlack) return [];
  const reduction = reductionDb(excessDb);
  const conductedPowerDbm = frame.conductedPowerDbm - reduction;
  return [
    findingUnder(rule.citation, {
      rule: rule.rule,
      severity: 'stop',
      message: `${rule.message}: lower the conducted power by ${reduction} dB, to ${decibels(conductedPowerDbm)} dBm`,
      measured: `${decibels(frame.conductedPowerDbm)} dBm`,
      limit: `${decibels(limitDbm)} dBm`,
      remedies: [{ conductedPowerDbm }],
    }),
  ];
}

function customaryNotes(frame: FrameOnAir, customaryDbm: number): TransmissionFinding[] {
  if (frame.conductedPowerDbm <= customaryDbm + decibelSlack) return [];
  return [
    findingUnder(customaryPower, {
      rule: 'power-density-in-practice',
      severity: 'note',
      message: `real signals are not flat: ${usRules.maxDensityDbm} dBm in 3 kHz is customarily kept with ${customaryDbm} dBm`,
      measured: `${decibels(frame.conductedPowerDbm)} dBm`,
      limit: `${customaryDbm} dBm`,
      remedies: [{ conductedPowerDbm: customaryDbm }],
    }),
  ];
}

function tooLong(frame: FrameOnAir, rule: HoppingRule): TransmissionFinding {
  const shorter = frame.shorterThan(rule.dwellSeconds);
  const advice = shorter.advice === '' ? '; no frame of this plan is short enough' : `: ${shorter.advice}`;
  return findingUnder(rule.citation, {
    rule: 'dwell-time',
    severity: 'stop',
    message: `the frame stays ${seconds(frame.timeOnAirSeconds - rule.dwellSeconds)} too long on its frequency${advice}`,
    measured: seconds(frame.timeOnAirSeconds),
    limit: `${seconds(rule.dwellSeconds)} in ${seconds(rule.windowSeconds)}`,
    remedies: shorter.remedies,
  });
}

/** Equal use of the channels makes each wait its turn: below this average interval no order of channels can help. */
function paceFinding(frame: FrameOnAir, rule: HoppingRule, interval: number): TransmissionFinding {
  const shortest = interval / rule.channelCount;
  const planned = frame.intervalSeconds;
  const limit = `${seconds(rule.dwellSeconds)} in ${seconds(rule.windowSeconds)}`;
  if (planned === undefined || planned >= shortest - secondsSlack) {
    return findingUnder(rule.citation, {
      rule: 'dwell-interval',
      severity: 'note',
      message: `after such a frame each frequency rests until ${seconds(interval)} from its start; the others stay free`,
      limit,
    });
  }
  const every = waitSeconds(shortest);
  return findingUnder(rule.citation, {
    rule: 'dwell-interval',
    severity: 'stop',
    message: `${seconds(planned)} between starts uses each of ${rule.channelCount} channels too often: wait ${seconds(every)}`,
    measured: seconds(planned),
    limit,
    remedies: [{ intervalSeconds: every }],
  });
}

function singleChannel(frame: FrameOnAir): TransmissionFinding {
  return findingUnder(classes, {
    rule: 'no-class',
    severity: 'stop',
    message: `a ${kilohertz(frame.bandwidthHz)} signal on one fixed channel is neither hopping, nor hybrid, nor digital modulation of ${kilohertz(usRules.minDigitalBandwidthHz)}: hop over all 64 channels or over the 8 of a sub-band`,
    measured: '1 channel',
    limit: `${usRules.minHoppingChannels} channels, or hybrid operation`,
    remedies: [{ channelUse: 'hopping-64' }, { channelUse: 'hybrid-8' }],
  });
}

function assumedHopping(): TransmissionFinding {
  return findingUnder(hopping, {
    rule: 'channel-use-assumed',
    severity: 'note',
    message: 'assumed to hop over all 64 channels; say hybrid-8 where only one sub-band of 8 is in use',
  });
}

function bandwidthNotCovered(frame: FrameOnAir): TransmissionFinding {
  return findingUnder(classes, {
    rule: 'not-covered',
    severity: 'stop',
    message: `no rule known here covers a bandwidth of ${kilohertz(frame.bandwidthHz)}, so it is not permitted: use 125 or 500 kHz`,
    measured: kilohertz(frame.bandwidthHz),
  });
}
