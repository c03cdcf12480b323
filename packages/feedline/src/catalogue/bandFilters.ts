import { nJack, smaJack } from './commonEnds.js';
import type { Filter } from './parts.js';

/**
 * Band filters for gateways beside strong transmitters. The loss is that of the pass band.
 *
 * @source see the `source` of each row
 */
export const bandFilters: readonly Filter[] = [
  {
    kind: 'filter',
    designation: 'cavity filter 863 to 870 MHz, N jack to N jack',
    ends: [nJack, nJack],
    lossDb: 1,
    lossUncertaintyDb: 0.4,
    lowestFrequencyHz: 863e6,
    highestFrequencyHz: 870e6,
    source: 'typical of the kind, from memory',
    status: 'memory',
  },
  {
    kind: 'filter',
    designation: 'cavity filter 902 to 928 MHz, N jack to N jack',
    ends: [nJack, nJack],
    lossDb: 0.8,
    lossUncertaintyDb: 0.3,
    lowestFrequencyHz: 902e6,
    highestFrequencyHz: 928e6,
    source: 'typical of the kind, from memory',
    status: 'memory',
  },
  {
    kind: 'filter',
    designation: 'cavity filter 863 to 870 MHz, SMA jack to SMA jack',
    ends: [smaJack, smaJack],
    lossDb: 1.2,
    lossUncertaintyDb: 0.5,
    lowestFrequencyHz: 863e6,
    highestFrequencyHz: 870e6,
    source: 'typical of the kind, from memory',
    status: 'memory',
  },
  {
    kind: 'filter',
    designation: 'cavity filter 902 to 928 MHz, SMA jack to SMA jack',
    ends: [smaJack, smaJack],
    lossDb: 1,
    lossUncertaintyDb: 0.4,
    lowestFrequencyHz: 902e6,
    highestFrequencyHz: 928e6,
    source: 'typical of the kind, from memory',
    status: 'memory',
  },
  {
    kind: 'filter',
    designation: 'surface-wave filter 863 to 870 MHz, SMA jack to SMA jack',
    ends: [smaJack, smaJack],
    lossDb: 2.5,
    lossUncertaintyDb: 0.7,
    lowestFrequencyHz: 863e6,
    highestFrequencyHz: 870e6,
    source: 'typical of the kind, from memory',
    status: 'memory',
    note: 'Withstands little power: ask its sheet before it goes behind a transmitter.',
  },
  {
    kind: 'filter',
    designation: 'surface-wave filter 902 to 928 MHz, SMA jack to SMA jack',
    ends: [smaJack, smaJack],
    lossDb: 2.5,
    lossUncertaintyDb: 0.7,
    lowestFrequencyHz: 902e6,
    highestFrequencyHz: 928e6,
    source: 'typical of the kind, from memory',
    status: 'memory',
    note: 'Withstands little power: ask its sheet before it goes behind a transmitter.',
  },
];
