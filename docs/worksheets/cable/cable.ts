import { checkChain } from '@finial/feedline';
import { defineSheet } from '../frame/sheet.js';
import { type CableValues, type Slot, slots } from './CableValues.js';
import { cableOutcome } from './cableOutcome.js';
import { chainOf } from './chainOf.js';
import { endChoices, slotGroups } from './slotFields.js';

/** A place with nothing in it, and what it offers first when something is put there. */
const emptySlot = {
  part: 'none',
  cable: 'low-loss 6 mm class',
  from: 'N plug',
  to: 'N plug',
  adapter: 'N jack to N jack',
  pigtail: 'SMA plug to N jack, 0.3 m of RG-316/U',
  arrestor: 'gas-discharge arrestor, N plug to N jack',
  filter: 'cavity filter 863 to 870 MHz, N jack to N jack',
  turned: false,
} as const;

function slotDefaults(slot: Slot): object {
  const words = Object.fromEntries(Object.entries(emptySlot).map(([key, value]) => [`${key}${slot}`, value]));
  return { ...words, [`length${slot}M`]: 4 };
}

const defaults = {
  ...Object.assign({}, ...slots.map(slotDefaults)),
  frequencyHz: 868.1e6,
  temperatureC: 20,
  gatewayEnd: 'SMA jack',
  antennaEnd: 'N jack',
  part1: 'pigtail',
  part2: 'arrestor',
  part3: 'cable',
  conductedPowerDbm: 14,
  antennaGainDbi: 2,
  receiverNoiseFigureDb: 4,
} as CableValues;

/** What a run of cable loses part by part, whether its parts join, and which adapter is missing. */
export const cable = defineSheet<CableValues>({
  runs: 'typing',
  defaults,
  groups: [
    {
      legend: 'The gateway',
      fields: [
        {
          kind: 'choice',
          key: 'gatewayEnd',
          label: 'Connector of the gateway',
          choices: endChoices,
          help: 'A plug has the inner thread, a jack the outer one. RP- means that pin and socket are exchanged: look for the pin.',
        },
      ],
    },
    ...slotGroups,
    {
      legend: 'The antenna',
      fields: [{ kind: 'choice', key: 'antennaEnd', label: 'Connector of the antenna', choices: endChoices }],
    },
    {
      legend: 'Conditions',
      fields: [
        { kind: 'number', key: 'frequencyHz', label: 'Frequency', unit: 'MHz', scale: 1e6, step: 0.1 },
        {
          kind: 'number',
          key: 'temperatureC',
          label: 'Temperature of the cable',
          unit: '°C',
          step: 5,
          help: 'A black jacket on a hot roof lies far above the air: 50 to 60.',
        },
      ],
    },
    {
      legend: 'The radio and the antenna',
      fields: [
        { kind: 'number', key: 'conductedPowerDbm', label: 'Power at the connector', unit: 'dBm', step: 0.5 },
        { kind: 'number', key: 'antennaGainDbi', label: 'Antenna gain', unit: 'dBi', step: 0.1 },
        {
          kind: 'number',
          key: 'receiverNoiseFigureDb',
          label: 'Noise figure of the receiver',
          unit: 'dB',
          step: 0.5,
        },
      ],
    },
  ],
  fieldOf: {
    // The gateway's port is the first part of the chain, so that places and parts count alike.
    ...Object.fromEntries(slots.map((slot) => [`parts[${slot}].lengthM`, `length${slot}M`])),
  },
  compute: (values) => {
    const parts = chainOf(values);
    const { frequencyHz, temperatureC, conductedPowerDbm, antennaGainDbi, receiverNoiseFigureDb } = values;
    const conditions = {
      frequencyHz,
      temperatureC,
      conductedPowerDbm,
      antennaGainDbi,
      receiverNoiseFigureDb,
    };
    const check = checkChain(parts, { ...conditions, outsideValidity: 'allow' });
    return cableOutcome(values, parts, check);
  },
});
