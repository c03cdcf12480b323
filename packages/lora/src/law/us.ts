import type { Citation } from '../Citation.js';
import { decibels, kilohertz, megahertz } from '../figures.js';
import { placeInBandPlan } from './bandPlan.js';
import { bandRemark } from './bandRemark.js';
import type { CheckedChannelUse } from './channelUse.js';
import { conductedLimitDbm } from './conductedLimitDbm.js';
import type {
  Demands,
  Jurisdiction,
  PowerLimit,
  Refusal,
  Remark,
  Signal,
  TimeLimit,
} from './Jurisdiction.js';
import { type HoppingRule, usBandPlan, usCitations, usRules } from './usRules.js';
import { usRuleTable } from './usRuleTable.js';

/** 47 CFR 15.247 as {@link Jurisdiction}. */
export const us: Jurisdiction = {
  name: 'US',
  plan: usBandPlan,
  demandsOn,
  otherRules: usRuleTable,
};

function demandsOn(signal: Signal): Demands | Refusal {
  const place = placeInBandPlan(usBandPlan, signal.frequencyHz, signal.bandwidthHz);
  if (place.kind !== 'inside') return { refusal: bandRemark(usBandPlan, place, signal) };
  if (signal.modulation === 'LR-FHSS') return hopsWithinFrames(signal);
  if (signal.bandwidthHz >= usRules.minDigitalBandwidthHz) return digital(signal);
  const use = signal.channelUse ?? { system: 'hopping', channelCount: usRules.hopping.channelCount };
  const { remarks, power, time } = {
    hopping: () => hops(signal, use),
    hybrid: () => hybridOf(signal, use),
    single: () => oneChannel(signal),
  }[use.system]();
  return { remarks: [...(signal.channelUse === undefined ? [assumedHopping] : []), ...remarks], power, time };
}

/** Digital modulation: half a megahertz or more, no dwell time. */
function digital(signal: Signal): Demands {
  const power = [
    portLimit(signal, usRules.maxConductedPowerDbm, usCitations.digitalPower),
    densityLimit(signal),
    customaryLimit(usRules.customaryWidePowerDbm),
  ];
  return { remarks: [], power, time: [] };
}

function hops(signal: Signal, { channelCount }: CheckedChannelUse): Demands {
  const wide = signal.bandwidthHz >= usRules.maxHoppingBandwidthHz;
  const fewest = wide ? usRules.minWideHoppingChannels : usRules.minHoppingChannels;
  const many = channelCount >= usRules.minHoppingChannels;
  return {
    remarks: channelCount < fewest ? [tooFewChannels(signal, channelCount, fewest)] : [],
    power: [
      portLimit(
        signal,
        many ? usRules.maxConductedPowerDbm : usRules.maxFewChannelsPowerDbm,
        usCitations.hoppingPower,
      ),
    ],
    time: [
      dwell(signal, {
        ...usRules.hopping,
        channelCount,
        windowSeconds: wide ? usRules.wideHoppingWindowSeconds : usRules.hopping.windowSeconds,
      }),
    ],
  };
}

function hybridOf(signal: Signal, { channelCount }: CheckedChannelUse): Demands {
  const windowSeconds = usRules.hybrid.dwellSeconds * channelCount;
  return {
    remarks: [],
    power: [
      portLimit(signal, usRules.maxConductedPowerDbm, usCitations.digitalPower),
      densityLimit(signal),
      customaryLimit(usRules.customaryNarrowPowerDbm),
    ],
    time: [dwell(signal, { ...usRules.hybrid, channelCount, windowSeconds })],
  };
}

/** LR-FHSS changes its frequency within the frame: each hop dwells by itself. */
function hopsWithinFrames(signal: Signal): Demands {
  const limit = dwell(signal, { ...usRules.hopping, channelCount: 1 });
  const book = `${limit.book}, hops within ${kilohertz(signal.bandwidthHz)}`;
  return {
    remarks: [
      {
        rule: 'hop-frequencies',
        severity: 'note',
        message: `counted as hopping over ${usRules.minHoppingChannels} frequencies or more, within each frame`,
        citation: usCitations.hopFrequencies,
      },
    ],
    power: [portLimit(signal, usRules.maxConductedPowerDbm, usCitations.hoppingPower)],
    time: [{ ...limit, book, perHop: true }],
  };
}

function oneChannel(signal: Signal): Demands {
  const fits = 'neither hopping, nor hybrid, nor digital modulation of';
  return {
    remarks: [],
    power: [
      {
        rule: 'no-class',
        quantity: 'EIRP',
        limitDbm: usRules.maxSingleChannelEirpDbm,
        wrong: (excess) =>
          `a ${kilohertz(signal.bandwidthHz)} signal on one fixed channel is ${fits} ${kilohertz(usRules.minDigitalBandwidthHz)}, and for 15.249 it is ${excess} dB too strong`,
        otherwise: {
          advice: 'hop over all 64 channels or over the 8 of a sub-band',
          remedies: [{ channelUse: 'hopping-64' }, { channelUse: 'hybrid-8' }],
        },
        citation: usCitations.classes,
      },
    ],
    time: [],
  };
}

function portLimit(signal: Signal, baseConductedPowerDbm: number, powerRule: Citation): PowerLimit {
  const { antennaGainDbi } = signal;
  const limitDbm = conductedLimitDbm({ baseConductedPowerDbm, antennaGainDbi });
  const backedOff = limitDbm < baseConductedPowerDbm;
  const why = backedOff
    ? ` with a ${decibels(antennaGainDbi)} dBi antenna (feedline loss earns nothing)`
    : '';
  return {
    rule: 'conducted-power',
    quantity: 'conducted',
    limitDbm,
    wrong: (excess) => `${excess} dB too much at the transmitter's port${why}`,
    citation: backedOff ? usCitations.antennaGain : powerRule,
  };
}

/** However the power lies in the band, a flat spectrum has the lowest peak: above its limit no measurement can come out right. */
function densityLimit({ bandwidthHz }: Signal): PowerLimit {
  const flatDb = 10 * Math.log10(bandwidthHz / usRules.densityBandwidthHz);
  return {
    rule: 'power-density',
    quantity: 'conducted',
    limitDbm: usRules.maxDensityDbm + flatDb,
    wrong: () =>
      `even spread evenly over ${kilohertz(bandwidthHz)} the power exceeds ${usRules.maxDensityDbm} dBm in ${kilohertz(usRules.densityBandwidthHz)}`,
    citation: usCitations.density,
  };
}

function customaryLimit(limitDbm: number): PowerLimit {
  return {
    rule: 'power-density-in-practice',
    quantity: 'conducted',
    limitDbm,
    customary: true,
    wrong: () =>
      `real signals are not flat: ${usRules.maxDensityDbm} dBm in ${kilohertz(usRules.densityBandwidthHz)} is customarily kept with ${limitDbm} dBm`,
    citation: usCitations.customaryPower,
  };
}

function dwell(signal: Signal, rule: HoppingRule): TimeLimit {
  return {
    kind: 'window',
    book: `US ${megahertz(signal.frequencyHz)}`,
    budgetSeconds: rule.dwellSeconds,
    windowSeconds: rule.windowSeconds,
    longestSeconds: rule.dwellSeconds,
    channelCount: rule.channelCount,
    scope: 'frequency',
    where: megahertz(signal.frequencyHz),
    citation: rule.citation,
  };
}

function tooFewChannels(signal: Signal, channelCount: number, fewest: number): Remark {
  return {
    rule: 'hopping-channels',
    severity: 'stop',
    message: `${channelCount} channels of ${kilohertz(signal.bandwidthHz)} are ${fewest - channelCount} too few for hopping: take ${fewest} or more, or operate as hybrid`,
    measured: `${channelCount} channels`,
    limit: `${fewest} channels`,
    remedies: [
      { channelUse: { system: 'hopping', channelCount: fewest } },
      { channelUse: { system: 'hybrid', channelCount } },
    ],
    citation: usCitations.hopping,
  };
}

const assumedHopping: Remark = {
  rule: 'channel-use-assumed',
  severity: 'note',
  message: 'assumed to hop over all 64 channels; say hybrid-8 where only one sub-band of 8 is in use',
  citation: usCitations.hopping,
};
