import type { Citation } from '../Citation.js';
import { minimumIntervalSeconds } from '../dutyCycle.js';
import {
  decibelSlack,
  decibels,
  percent,
  reductionDb,
  seconds,
  secondsSlack,
  waitSeconds,
} from '../figures.js';
import { findingUnder } from '../findingUnder.js';
import type { TransmissionFinding } from '../Transmission.js';
import { bandFinding, edges } from './bandFinding.js';
import { type BandPlan, placeInBandPlan, type SubBand } from './bandPlan.js';
import type { FrameOnAir, Judgement, Jurisdiction } from './Judgement.js';

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

/** The alternative of 869.7 to 870 MHz: 5 mW without a duty cycle. */
const lowPowerAlternative: Citation = {
  document: 'EN 300 220-2 table B.1, 869.7 to 870 MHz',
  edition: 'edition not recorded',
  status: 'memory',
};

/**
 * The 863 to 870 MHz band under the European rules for short-range devices.
 *
 * 25 mW is written as 14 dBm and 500 mW as 27 dBm, as the trade does (13.98 and 26.99 exactly). The letters of the sub-bands differ
 * between documents, so there are none here. Countries may deviate.
 *
 * @source EN 300 220-2 table B.1, ERC/REC 70-03; each row carries its own citation
 */
export const euBandPlan: BandPlan = {
  subBands: [
    { minHz: 863e6, maxHz: 865e6, maxErpDbm: 14, dutyCycleRatio: 0.001, citation: quoted },
    { minHz: 865e6, maxHz: 868e6, maxErpDbm: 14, dutyCycleRatio: 0.01, citation: quoted },
    { minHz: 868e6, maxHz: 868.6e6, maxErpDbm: 14, dutyCycleRatio: 0.01, citation: readInNote },
    { minHz: 868.7e6, maxHz: 869.2e6, maxErpDbm: 14, dutyCycleRatio: 0.001, citation: readInNote },
    { minHz: 869.4e6, maxHz: 869.65e6, maxErpDbm: 27, dutyCycleRatio: 0.1, citation: readInNote },
    {
      minHz: 869.7e6,
      maxHz: 870e6,
      maxErpDbm: 14,
      dutyCycleRatio: 0.01,
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
  judge,
  notCovered: [
    'deviations of single countries from ERC/REC 70-03',
    'polite spectrum access (listen before talk) instead of the duty cycle',
    'unwanted emissions and the conformity of the equipment',
    'other frames of the same station in the same sub-band',
  ],
};

function judge(frame: FrameOnAir): Judgement {
  const place = placeInBandPlan(euBandPlan, frame.frequencyHz, frame.bandwidthHz);
  if (place.kind !== 'inside') {
    const findings = [bandFinding(euBandPlan, place, frame, quoted)];
    return { findings, minimumIntervalSeconds: undefined, intervalScope: undefined };
  }
  const { subBand } = place;
  const interval = shortestInterval(frame, subBand);
  return {
    findings: [...powerFindings(frame, subBand), ...dutyFindings(frame, subBand, interval)],
    minimumIntervalSeconds: interval,
    intervalScope: interval === undefined ? undefined : 'sub-band',
  };
}

function shortestInterval(frame: FrameOnAir, { dutyCycleRatio }: SubBand): number | undefined {
  if (dutyCycleRatio === undefined) return undefined;
  return minimumIntervalSeconds({ timeOnAirSeconds: frame.timeOnAirSeconds, dutyCycleRatio });
}

function powerFindings(frame: FrameOnAir, subBand: SubBand): TransmissionFinding[] {
  const limitDbm = subBand.maxErpDbm;
  if (limitDbm === undefined) return [];
  const excessDb = frame.erpDbm - limitDbm;
  if (excessDb <= decibelSlack) return [];
  const reduction = reductionDb(excessDb);
  const conductedPowerDbm = frame.conductedPowerDbm - reduction;
  return [
    findingUnder(subBand.citation, {
      rule: 'erp-limit',
      severity: 'stop',
      message: `radiates ${decibels(excessDb)} dB too much for ${edges(subBand)}: lower the conducted power by ${reduction} dB, to ${decibels(conductedPowerDbm)} dBm`,
      measured: `${decibels(frame.erpDbm)} dBm ERP`,
      limit: `${limitDbm} dBm ERP`,
      remedies: [{ conductedPowerDbm }],
    }),
  ];
}

function dutyFindings(
  frame: FrameOnAir,
  subBand: SubBand,
  shortest: number | undefined,
): TransmissionFinding[] {
  const { dutyCycleRatio } = subBand;
  if (dutyCycleRatio === undefined || shortest === undefined) return [];
  const planned = frame.intervalSeconds;
  const tooOften = planned !== undefined && planned < shortest - secondsSlack;
  const finding = tooOften
    ? sentTooOften(frame, subBand, { planned, shortest, dutyCycleRatio })
    : dutyNote(frame, subBand, { shortest, dutyCycleRatio });
  return [finding, ...alternativeNotes(frame, subBand)];
}

function sentTooOften(
  frame: FrameOnAir,
  subBand: SubBand,
  pace: { readonly planned: number; readonly shortest: number; readonly dutyCycleRatio: number },
): TransmissionFinding {
  const every = waitSeconds(pace.shortest);
  const shorter = frame.shorterThan(pace.planned * pace.dutyCycleRatio);
  const or = shorter.advice === '' ? '' : `, or ${shorter.advice}`;
  return findingUnder(subBand.citation, {
    rule: 'duty-cycle',
    severity: 'stop',
    message: `${seconds(frame.timeOnAirSeconds)} on air every ${seconds(pace.planned)} is too much: wait ${seconds(every)} between starts${or}`,
    measured: percent(frame.timeOnAirSeconds / pace.planned),
    limit: `${percent(pace.dutyCycleRatio)} in ${edges(subBand)}`,
    remedies: [{ intervalSeconds: every }, ...shorter.remedies],
  });
}

function dutyNote(
  frame: FrameOnAir,
  subBand: SubBand,
  pace: { readonly shortest: number; readonly dutyCycleRatio: number },
): TransmissionFinding {
  const sharing = frame.direction === 'downlink' ? "all the gateway's downlinks" : 'all frames of the node';
  return findingUnder(subBand.citation, {
    rule: 'duty-cycle',
    severity: 'note',
    message: `${seconds(frame.timeOnAirSeconds)} on air needs ${seconds(waitSeconds(pace.shortest))} between starts; ${sharing} in this sub-band share the duty cycle`,
    limit: `${percent(pace.dutyCycleRatio)} in ${edges(subBand)}`,
  });
}

function alternativeNotes(frame: FrameOnAir, { withoutDutyCycle }: SubBand): TransmissionFinding[] {
  if (withoutDutyCycle === undefined || frame.erpDbm > withoutDutyCycle.maxErpDbm + decibelSlack) return [];
  return [
    findingUnder(withoutDutyCycle.citation, {
      rule: 'duty-cycle-alternative',
      severity: 'note',
      message: 'at so little power this sub-band may have no duty cycle',
      measured: `${decibels(frame.erpDbm)} dBm ERP`,
      limit: `${withoutDutyCycle.maxErpDbm} dBm ERP`,
    }),
  ];
}
