import type { Citation } from '../Citation.js';
import type { LawRule } from './LawRule.js';
import { usCitations as at, usRules as rules } from './usRules.js';

function row(name: string, use: LawRule['use'], limits: string, citation: Citation): LawRule {
  return { id: `US ${name}`, jurisdiction: 'US', limits, unit: '', citation, use };
}

function figure(name: string, limits: string, amount: number, unit: string, citation: Citation): LawRule {
  const use = citation.status === 'memory' ? 'noted' : 'checked';
  return { id: `US ${name}`, jurisdiction: 'US', limits, figure: amount, unit, citation, use };
}

/** The American rules as rows, from the numbers that the checks use. */
export const usRuleTable: readonly LawRule[] = /* @__PURE__ */ usRows();

function usRows(): LawRule[] {
  const dwell = 's on one frequency';
  return [
    figure(
      'hopping channels',
      'least channels, 20 dB bandwidth below 250 kHz',
      rules.minHoppingChannels,
      'channels',
      at.hopping,
    ),
    figure(
      'hopping dwell',
      'use of one frequency, 20 dB bandwidth below 250 kHz',
      rules.hopping.dwellSeconds,
      `${dwell} in 20 s`,
      at.hopping,
    ),
    figure(
      'wide hopping channels',
      'least channels, 20 dB bandwidth of 250 kHz and more',
      rules.minWideHoppingChannels,
      'channels',
      at.hopping,
    ),
    figure(
      'wide hopping dwell',
      'use of one frequency, 20 dB bandwidth of 250 kHz and more',
      rules.hopping.dwellSeconds,
      `${dwell} in 10 s`,
      at.hopping,
    ),
    figure(
      'hopping bandwidth',
      'greatest 20 dB bandwidth of hopping',
      rules.maxWideHoppingBandwidthHz,
      'Hz',
      at.hopping,
    ),
    figure(
      'digital bandwidth',
      'least 6 dB bandwidth of digital modulation',
      rules.minDigitalBandwidthHz,
      'Hz',
      at.digital,
    ),
    figure(
      'hopping power',
      'hopping over 50 channels or more',
      rules.maxConductedPowerDbm,
      'dBm conducted',
      at.hoppingPower,
    ),
    figure(
      'hopping power, few channels',
      'hopping over 25 to 49 channels',
      rules.maxFewChannelsPowerDbm,
      'dBm conducted',
      at.hoppingPower,
    ),
    figure(
      'digital power',
      'digital modulation',
      rules.maxConductedPowerDbm,
      'dBm conducted',
      at.digitalPower,
    ),
    figure(
      'antenna gain',
      'gain from which each decibel costs a decibel of conducted power; feedline loss earns nothing',
      rules.freeAntennaGainDbi,
      'dBi',
      at.antennaGain,
    ),
    figure(
      'density',
      'digital modulation and hybrid operation; only a flat spectrum is compared',
      rules.maxDensityDbm,
      'dBm conducted in 3 kHz',
      at.density,
    ),
    figure(
      'hybrid dwell',
      'use of one frequency in hybrid operation',
      rules.hybrid.dwellSeconds,
      `${dwell} in as many times 0.4 s as there are channels`,
      at.hybrid,
    ),
    figure(
      'single channel',
      'a narrow signal on one fixed channel, which fits no class of 15.247',
      rules.maxSingleChannelEirpDbm,
      'dBm EIRP',
      at.fieldStrength,
    ),
    figure(
      'customary power, narrow',
      'power that customarily keeps the density: 125 kHz on fewer than 50 channels',
      rules.customaryNarrowPowerDbm,
      'dBm conducted',
      at.customaryPower,
    ),
    figure(
      'customary power, wide',
      'power that customarily keeps the density: 500 kHz',
      rules.customaryWidePowerDbm,
      'dBm conducted',
      at.customaryPower,
    ),
    row(
      'LR-FHSS frequencies',
      'noted',
      'LR-FHSS counts as hopping over 50 frequencies or more; its hops dwell one by one',
      at.hopFrequencies,
    ),
    row(
      'point to point',
      'checked',
      'no relaxation for fixed links on 902 to 928 MHz: those are for 2.4 and 5.8 GHz',
      at.pointToPoint,
    ),
    row(
      'hopping order',
      'not covered',
      'whether the hopping is pseudo-random, uses its channels equally and keeps them 25 kHz or their 20 dB bandwidth apart (15.247(a)(1))',
      at.separation,
    ),
    row(
      'measured density',
      'not covered',
      'the measured power density in 3 kHz (15.247(e)); only what a flat spectrum would reach is compared',
      at.density,
    ),
    row(
      'emissions and exposure',
      'not covered',
      'unwanted emissions (15.247(d)) and RF exposure (15.247(i), 1.1307)',
      at.emissions,
    ),
    row(
      'antenna connector',
      'not covered',
      'a permanent or unique antenna connector, unless installed by a professional, who then answers for the limits (15.203)',
      at.connector,
    ),
    row(
      'authorised antennas',
      'not covered',
      'antennas of another type or of more gain than the equipment was authorised with, and amplifiers sold apart (15.204)',
      at.antennas,
    ),
    row(
      'harmonics of single channels',
      'not covered',
      'the limits of 15.249 beside the field strength on the channel',
      at.fieldStrength,
    ),
  ];
}
