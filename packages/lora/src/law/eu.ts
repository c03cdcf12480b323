import type { Citation } from '../Citation.js';
import { bandDemands } from './bandDemands.js';
import type { BandPlan } from './bandPlan.js';
import type { Jurisdiction } from './Jurisdiction.js';

const quoted: Citation = {
  document: 'EN 300 220-2 table B.1; ERC/REC 70-03 annex 1',
  edition: 'EN 300 220-2 V3.x, date not recorded',
  status: 'quoted',
};

/** The rows that a national table note repeats with the same power and duty cycle. */
const readInNote: Citation = {
  document: 'Decision (EU) 2017/1483 by the Spanish national table note UN-39; EN 300 220-2 table B.1',
  edition: 'Decision of 2017',
  status: 'read',
};

const alarms: Citation = {
  document: 'ERC/REC 70-03, annex on alarms',
  edition: 'edition not recorded',
  status: 'read',
};

/** The hour over which a duty cycle counts. */
const anHour: Citation = {
  document: 'EN 300 220-1, observation time of the duty cycle',
  edition: 'edition not recorded',
  status: 'memory',
};

/** The alternative of 869.7 to 870 MHz: 5 mW without a duty cycle. */
const lowPowerAlternative: Citation = {
  document: 'EN 300 220-2 table B.1, 869.7 to 870 MHz',
  edition: 'edition not recorded',
  status: 'memory',
};

/** 10 mW e.r.p. and 10 %, which the plan's own document takes from the European rules. */
const lowBand: Citation = {
  document: 'European limits of 433.05 to 434.79 MHz as stated by RP001 section 2.5.2',
  edition: '1.0.3revA, 2018',
  status: 'quoted',
};

const unread: Citation = {
  document: 'EN 300 220-1 and EN 300 220-2',
  edition: 'V3.x, not read',
  status: 'memory',
};

const hour = { observationSeconds: 3600, sources: { observation: anHour } };

/**
 * The bands 433.05 to 434.79 MHz and 863 to 870 MHz under the European rules for short-range devices.
 *
 * 10 mW is written as 10 dBm, 25 mW as 14 dBm and 500 mW as 27 dBm, as the trade does (13.98 and 26.99 exactly). The letters of the
 * sub-bands differ between documents, so there are none here. Countries may deviate.
 *
 * @source EN 300 220-2 table B.1, ERC/REC 70-03; each row carries its own citation
 */
export const euBandPlan: BandPlan = {
  subBands: [
    { minHz: 433.05e6, maxHz: 434.79e6, maxErpDbm: 10, dutyCycleRatio: 0.1, ...hour, citation: lowBand },
    { minHz: 863e6, maxHz: 865e6, maxErpDbm: 14, dutyCycleRatio: 0.001, ...hour, citation: quoted },
    { minHz: 865e6, maxHz: 868e6, maxErpDbm: 14, dutyCycleRatio: 0.01, ...hour, citation: quoted },
    { minHz: 868e6, maxHz: 868.6e6, maxErpDbm: 14, dutyCycleRatio: 0.01, ...hour, citation: readInNote },
    { minHz: 868.7e6, maxHz: 869.2e6, maxErpDbm: 14, dutyCycleRatio: 0.001, ...hour, citation: readInNote },
    { minHz: 869.4e6, maxHz: 869.65e6, maxErpDbm: 27, dutyCycleRatio: 0.1, ...hour, citation: readInNote },
    {
      minHz: 869.7e6,
      maxHz: 870e6,
      maxErpDbm: 14,
      dutyCycleRatio: 0.01,
      ...hour,
      withoutDutyCycle: { maxErpDbm: 7, citation: lowPowerAlternative },
      citation: quoted,
    },
  ],
  reserved: [
    { minHz: 868.6e6, maxHz: 868.7e6, use: 'alarms', citation: alarms },
    { minHz: 869.2e6, maxHz: 869.25e6, use: 'social alarms', citation: alarms },
    { minHz: 869.25e6, maxHz: 869.3e6, use: 'alarms', citation: alarms },
    { minHz: 869.3e6, maxHz: 869.4e6, use: 'alarms', citation: alarms },
    { minHz: 869.65e6, maxHz: 869.7e6, use: 'alarms', citation: alarms },
  ],
};

/** The European rules as {@link Jurisdiction}. */
export const eu: Jurisdiction = {
  name: 'EU',
  plan: euBandPlan,
  demandsOn: (signal) => bandDemands('EU', euBandPlan, signal),
  otherRules: [
    {
      id: 'EU polite spectrum access',
      jurisdiction: 'EU',
      limits:
        'polite spectrum access (listen before talk) instead of the duty cycle: the alternative exists, its figures are not known here',
      unit: '',
      citation: readInNote,
      use: 'not covered',
    },
    {
      id: 'EU countries',
      jurisdiction: 'EU',
      limits: 'deviations of single countries from ERC/REC 70-03',
      unit: '',
      citation: unread,
      use: 'not covered',
    },
    {
      id: 'EU equipment',
      jurisdiction: 'EU',
      limits: 'unwanted emissions and the conformity of the equipment',
      unit: '',
      citation: unread,
      use: 'not covered',
    },
    {
      id: 'EU other frames',
      jurisdiction: 'EU',
      limits: 'other frames of the same station in the same sub-band',
      unit: '',
      citation: quoted,
      use: 'not covered',
    },
  ],
};
