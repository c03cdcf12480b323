import type { Citation } from '../Citation.js';
import { bandDemands } from './bandDemands.js';
import type { BandPlan } from './bandPlan.js';
import type { Demands, Jurisdiction, Refusal, Remark, Signal } from './Jurisdiction.js';

const classLicence: Citation = {
  document: 'Radiocommunications (Low Interference Potential Devices) Class Licence 2015, schedule 1',
  edition: '2015 with variations; may have been remade since 2025; table not read',
  status: 'memory',
};

const minHoppingChannels = 20;
const minDigitalBandwidthHz = 500e3;

/**
 * The 915 to 928 MHz band of Australia under the class licence for devices of low interference potential. All of it is from memory, so
 * that it makes notes only.
 *
 * @source Radiocommunications (Low Interference Potential Devices) Class Licence 2015, from memory
 */
export const auBandPlan: BandPlan = {
  subBands: [{ minHz: 915e6, maxHz: 928e6, maxEirpDbm: 30, citation: classLicence }],
  reserved: [],
};

/** The Australian rules as {@link Jurisdiction}. */
export const au: Jurisdiction = {
  name: 'AU',
  plan: auBandPlan,
  demandsOn,
  otherRules: [
    {
      id: 'AU hopping channels',
      jurisdiction: 'AU',
      limits: 'least frequencies of a hopping transmitter of 1 W EIRP',
      figure: minHoppingChannels,
      unit: 'frequencies',
      citation: classLicence,
      use: 'noted',
    },
    {
      id: 'AU digital bandwidth',
      jurisdiction: 'AU',
      limits: 'least 6 dB bandwidth of digital modulation of 1 W EIRP',
      figure: minDigitalBandwidthHz,
      unit: 'Hz',
      citation: classLicence,
      use: 'noted',
    },
    {
      id: 'AU density',
      jurisdiction: 'AU',
      limits: 'radiated power of digital modulation in 3 kHz',
      figure: 0.025,
      unit: 'W EIRP in 3 kHz',
      citation: classLicence,
      use: 'not covered',
    },
    {
      id: 'AU licence',
      jurisdiction: 'AU',
      limits: 'the licence itself: everything known here of Australian law is from memory',
      unit: '',
      citation: classLicence,
      use: 'not covered',
    },
  ],
};

function demandsOn(signal: Signal): Demands | Refusal {
  const demands = bandDemands('AU', auBandPlan, signal);
  if ('refusal' in demands) return demands;
  return { ...demands, remarks: [fromMemory, ...classRemarks(signal), ...demands.remarks] };
}

const fromMemory: Remark = {
  rule: 'law-from-memory',
  severity: 'note',
  message:
    'all that is known here of Australian law is from memory: read the class licence before you transmit',
  citation: classLicence,
};

/** LR-FHSS hops by itself; half a megahertz is digital modulation; all else must hop. */
function classRemarks({ modulation, bandwidthHz, channelUse }: Signal): Remark[] {
  if (modulation === 'LR-FHSS' || bandwidthHz >= minDigitalBandwidthHz) return [];
  if (channelUse === undefined) {
    return [
      {
        rule: 'channel-use-assumed',
        severity: 'note',
        message: `assumed to hop over ${minHoppingChannels} channels or more`,
        citation: classLicence,
      },
    ];
  }
  if (channelUse.channelCount >= minHoppingChannels) return [];
  return [
    {
      rule: 'hopping-channels',
      severity: 'stop',
      message: `a hopping transmitter takes ${minHoppingChannels} channels or more, not ${channelUse.channelCount}`,
      measured: `${channelUse.channelCount} channels`,
      limit: `${minHoppingChannels} channels`,
      remedies: [{ channelUse: 'hopping-64' }],
      citation: classLicence,
    },
  ];
}
