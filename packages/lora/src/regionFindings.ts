import type { Citation } from './Citation.js';
import { channelFrequenciesHz } from './channelFrequenciesHz.js';
import { dwellTableHolds, serves } from './checkedRegion.js';
import { citationOfRow } from './citationOf.js';
import { bytes, decibelSlack, decibels, kilohertz, megahertz, reductionDb } from './figures.js';
import { findingUnder } from './findingUnder.js';
import { edges } from './law/bandRemark.js';
import { type MaxPayload, maxPayload } from './maxPayload.js';
import type { ChannelGroup, LowerPowerPart, Region } from './Region.js';
import { framesThatCarry, type PlannedFrame } from './shorterFrames.js';
import type { TransmissionFinding } from './Transmission.js';

/** The radio side of a planned frame. */
export interface PlannedRadio {
  readonly frequencyHz: number;
  readonly conductedPowerDbm: number;
  readonly eirpDbm: number;
}

/** A centre typed in megahertz may miss the exact channel by rounding. */
const centreSlackHz = 1;

/** What the regional parameters say about a frame, apart from the law. The region must have been looked at before. */
export function regionFindings(frame: PlannedFrame, radio: PlannedRadio): TransmissionFinding[] {
  return [
    ...dataRateFindings(frame),
    ...payloadFindings(frame),
    ...channelFindings(frame, radio),
    ...powerFindings(frame, radio),
  ];
}

function dataRateFindings({ region, row, direction }: PlannedFrame): TransmissionFinding[] {
  const citation = citationOfRow(region, 'dataRates', row.dataRate);
  const findings: TransmissionFinding[] = [];
  if (!serves(row, direction)) {
    findings.push(
      findingUnder(citation, {
        rule: 'data-rate-direction',
        severity: 'stop',
        message: `DR${row.dataRate} of ${region.name} is for ${row.direction}s only`,
        measured: direction,
        limit: row.direction,
      }),
    );
  }
  if (citation.status === 'memory') {
    const message = `what DR${row.dataRate} of ${region.name} is was not confirmed, so that neither duration nor receivers of this frame are certain`;
    findings.push(findingUnder(citation, { rule: 'data-rate-unconfirmed', severity: 'note', message }));
  }
  return findings;
}

function payloadFindings(frame: PlannedFrame): TransmissionFinding[] {
  const { region, row, direction, dwellLimited } = frame;
  if (!serves(row, direction)) return [];
  const findings: TransmissionFinding[] = [];
  const knowsDwell = region.dwell !== undefined;
  const limited = dwellTableHolds(region, dwellLimited);
  const room = roomFor(frame, limited);
  if (frame.applicationBytes > room) findings.push(payloadFinding(frame, room, limited));
  if (dwellLimited === true && !knowsDwell) {
    const message = `${region.name} has no table for a limited dwell time, so the usual one was taken`;
    findings.push(
      findingUnder(citationOfRow(region, 'dwell'), { rule: 'no-dwell-table', severity: 'note', message }),
    );
  }
  const roomWhenLimited = roomFor(frame, true);
  if (dwellLimited === undefined && knowsDwell && !limited && frame.applicationBytes > roomWhenLimited) {
    findings.push(dwellNote(frame, roomWhenLimited));
  }
  return findings;
}

/** Bytes of the application that fit beside the MAC commands: below 0 where not even these do. */
function roomFor(frame: PlannedFrame, dwellLimited: boolean): number {
  const largest = largestPayload(frame, dwellLimited, frame.repeater ?? false);
  return largest.available ? largest.applicationBytes - frame.fOptsBytes : -1;
}

function largestPayload(
  { region, row, direction }: PlannedFrame,
  dwellLimited: boolean,
  repeater: boolean,
): MaxPayload {
  return maxPayload({ region, dataRate: row.dataRate, direction, dwellLimited, repeater });
}

function payloadFinding(frame: PlannedFrame, room: number, dwellLimited: boolean): TransmissionFinding {
  const { region, row, applicationBytes, fOptsBytes } = frame;
  const { advice, remedies } = framesThatCarry(frame, room);
  return findingUnder(payloadCitation(frame, dwellLimited), {
    rule: 'max-payload',
    severity: 'stop',
    message: `${fitting(room)} on DR${row.dataRate} of ${region.name}${beside(fOptsBytes)}${advice === '' ? '' : `: ${advice}`}`,
    measured: bytes(applicationBytes),
    limit: bytes(Math.max(0, room)),
    remedies,
  });
}

/** The repeater's table where it is the one that limits, else that of the row. */
function payloadCitation(frame: PlannedFrame, dwellLimited: boolean): Citation {
  const { region, row } = frame;
  const without = largestPayload(frame, dwellLimited, false);
  const limitsMore =
    frame.repeater === true && without.available && without.macPayloadBytes > region.repeaterMacPayloadBytes;
  return citationOfRow(region, limitsMore ? 'repeater' : 'payloads', row.dataRate);
}

/** Plans with UplinkDwellTime: the network says whether it is limited, and some start so. */
function dwellNote(frame: PlannedFrame, room: number): TransmissionFinding {
  const { region, row, applicationBytes, fOptsBytes } = frame;
  return findingUnder(payloadCitation(frame, true), {
    rule: 'dwell-limited-payload',
    severity: 'note',
    message: `while the network limits the dwell time of uplinks, ${fitting(room)} on DR${row.dataRate} of ${region.name}${beside(fOptsBytes)}`,
    measured: bytes(applicationBytes),
    limit: bytes(Math.max(0, room)),
  });
}

function fitting(room: number): string {
  return room < 0 ? 'nothing fits' : `${bytes(room)} fit`;
}

function beside(fOptsBytes: number): string {
  return fOptsBytes > 0 ? ` beside ${bytes(fOptsBytes)} of MAC commands` : '';
}

function channelFindings(frame: PlannedFrame, { frequencyHz }: PlannedRadio): TransmissionFinding[] {
  const { region, row, direction } = frame;
  const source = citationOfRow(region, 'channels');
  if (frequencyHz < region.minHz || frequencyHz > region.maxHz) {
    const message = `${megahertz(frequencyHz)} lies outside ${region.name}`;
    const figures = { measured: megahertz(frequencyHz), limit: edges(region) };
    return [findingUnder(source, { rule: 'region-band', severity: 'stop', message, ...figures })];
  }
  if (region.plan === 'dynamic' || !serves(row, direction)) return [];
  const nearest = nearestChannel(frame, frequencyHz);
  if (nearest === undefined) {
    const message = `no ${direction} channel of ${region.name} carries DR${row.dataRate}, so nobody may be listening`;
    return [findingUnder(source, { rule: 'no-channel', severity: 'fix', message })];
  }
  const { centreHz, group } = nearest;
  if (Math.abs(centreHz - frequencyHz) <= centreSlackHz) return [];
  return [
    findingUnder(group.citation ?? source, {
      rule: 'region-channel',
      severity: 'stop',
      message: `${megahertz(frequencyHz)} is no ${kilohertz(group.bandwidthHz)} ${direction} channel of ${region.name}, so nobody listens: the nearest is ${megahertz(centreHz)}`,
      measured: megahertz(frequencyHz),
      limit: megahertz(centreHz),
      remedies: [{ frequencyHz: centreHz }],
    }),
  ];
}

interface NearestChannel {
  readonly centreHz: number;
  readonly group: ChannelGroup;
}

function nearestChannel(
  { region, direction, row }: PlannedFrame,
  frequencyHz: number,
): NearestChannel | undefined {
  return region.channels
    .filter((group) => serves(group, direction))
    .filter((group) => row.dataRate >= group.minDataRate && row.dataRate <= group.maxDataRate)
    .flatMap((group) => channelFrequenciesHz(group).map((centreHz) => ({ centreHz, group })))
    .sort((a, b) => Math.abs(a.centreHz - frequencyHz) - Math.abs(b.centreHz - frequencyHz))[0];
}

/** The plan's maximum binds nodes; a gateway follows the law alone. */
function powerFindings({ region, direction }: PlannedFrame, radio: PlannedRadio): TransmissionFinding[] {
  const maximumDbm = maximumPowerDbm(region, radio.frequencyHz);
  if (direction === 'downlink' || maximumDbm === undefined) return [];
  const { quantity } = region.power;
  const measuredDbm = quantity === 'EIRP' ? radio.eirpDbm : radio.conductedPowerDbm;
  const excessDb = measuredDbm - maximumDbm;
  if (excessDb <= decibelSlack) return [];
  const reduction = reductionDb(excessDb);
  return [
    findingUnder(citationOfRow(region, 'power'), {
      rule: 'region-power',
      severity: 'fix',
      message: `${decibels(excessDb)} dB above the maximum of nodes ${placeInWords(region, radio.frequencyHz)}, whatever the law allows: lower the conducted power by ${reduction} dB`,
      measured: `${decibels(measuredDbm)} dBm ${quantity}`,
      limit: `${maximumDbm} dBm ${quantity}`,
      remedies: [{ conductedPowerDbm: radio.conductedPowerDbm - reduction }],
    }),
  ];
}

function maximumPowerDbm(region: Region, frequencyHz: number): number | undefined {
  const wholeDbm = region.power.txPowersDbm[0];
  const lower = lowerPart(region, frequencyHz);
  if (lower === undefined) return wholeDbm;
  return wholeDbm === undefined ? lower.maximumDbm : Math.min(wholeDbm, lower.maximumDbm);
}

function placeInWords(region: Region, frequencyHz: number): string {
  const lower = lowerPart(region, frequencyHz);
  return `in ${region.name}${lower === undefined ? '' : ` from ${edges(lower)}`}`;
}

function lowerPart({ power }: Region, frequencyHz: number): LowerPowerPart | undefined {
  return power.lowerParts?.find(({ minHz, maxHz }) => frequencyHz >= minHz && frequencyHz <= maxHz);
}
