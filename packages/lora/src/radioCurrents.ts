import type { Citation } from './Citation.js';

/** Supply current of a radio chip in one of its states. */
export interface RadioCurrent {
  /** The chip. */
  readonly chip: 'SX1276' | 'SX1261' | 'SX1262';
  /** What it does. */
  readonly state: 'transmit' | 'receive' | 'sleep';
  /** Output power in dBm while it transmits. */
  readonly powerDbm?: number | undefined;
  /** Typical supply current in amperes, of the chip alone. */
  readonly currentA: number;
  /** Conditions, in words. */
  readonly conditions: string;
  /** Where it comes from. */
  readonly citation: Citation;
}

const sx1276: Citation = {
  document: 'SX1276/77/78/79 datasheet, power consumption table',
  edition: 'rev 7',
  status: 'memory',
};
const sx126x: Citation = {
  document: 'SX1261/2 datasheet, power consumption tables',
  edition: 'rev 1.2',
  status: 'memory',
};
const sleepInDriver: Citation = {
  document: 'SX1261/2 sleep modes by the notes of the Mbed OS radio driver',
  edition: 'commit 25ea7be',
  status: 'quoted',
};

/**
 * Typical supply currents of LoRa radio chips, for `energyPerFrame`. Most are from memory: a module's own sheet or, better, a meter
 * says more, and the microcontroller comes on top.
 *
 * @source Each row's citation
 */
export const radioCurrents: readonly RadioCurrent[] = [
  {
    chip: 'SX1276',
    state: 'transmit',
    powerDbm: 20,
    currentA: 0.12,
    conditions: 'PA_BOOST',
    citation: sx1276,
  },
  {
    chip: 'SX1276',
    state: 'transmit',
    powerDbm: 17,
    currentA: 0.087,
    conditions: 'PA_BOOST',
    citation: sx1276,
  },
  { chip: 'SX1276', state: 'transmit', powerDbm: 13, currentA: 0.029, conditions: 'RFO', citation: sx1276 },
  { chip: 'SX1276', state: 'transmit', powerDbm: 7, currentA: 0.02, conditions: 'RFO', citation: sx1276 },
  {
    chip: 'SX1276',
    state: 'receive',
    currentA: 0.0108,
    conditions: 'without boost, upper band',
    citation: sx1276,
  },
  { chip: 'SX1276', state: 'sleep', currentA: 0.2e-6, conditions: '', citation: sx1276 },
  {
    chip: 'SX1262',
    state: 'transmit',
    powerDbm: 22,
    currentA: 0.118,
    conditions: '868 MHz, DC-DC',
    citation: sx126x,
  },
  {
    chip: 'SX1262',
    state: 'transmit',
    powerDbm: 14,
    currentA: 0.045,
    conditions: '868 MHz, DC-DC, optimal settings',
    citation: sx126x,
  },
  {
    chip: 'SX1261',
    state: 'transmit',
    powerDbm: 14,
    currentA: 0.0255,
    conditions: '868 MHz, DC-DC',
    citation: sx126x,
  },
  {
    chip: 'SX1262',
    state: 'receive',
    currentA: 0.0046,
    conditions: '125 kHz, DC-DC, without boost',
    citation: sx126x,
  },
  {
    chip: 'SX1262',
    state: 'receive',
    currentA: 0.0053,
    conditions: '125 kHz, DC-DC, boosted',
    citation: sx126x,
  },
  {
    chip: 'SX1262',
    state: 'sleep',
    currentA: 0.6e-6,
    conditions: 'warm start, configuration kept',
    citation: sleepInDriver,
  },
  { chip: 'SX1262', state: 'sleep', currentA: 0.16e-6, conditions: 'cold start', citation: sleepInDriver },
];
