import type { Citation } from './Citation.js';
import { channelFrequenciesHz } from './channelFrequenciesHz.js';
import { serves } from './checkedRegion.js';
import { bytes, decibelSlack, decibels, kilohertz, megahertz, reductionDb } from './figures.js';
import { findingUnder } from './findingUnder.js';
import { edges } from './law/bandFinding.js';
import { maxPayload } from './maxPayload.js';
import type { Region, RegionGroup } from './Region.js';
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

/** What the regional parameters say about a frame, apart from the law. */
export function regionFindings(frame: PlannedFrame, radio: PlannedRadio): TransmissionFinding[] {
  return [
    ...directionFindings(frame),
    ...payloadFindings(frame),
    ...channelFindings(frame, radio),
    ...powerFindings(frame, radio),
  ];
}

function sourceOf(region: Region, group: RegionGroup): Citation {
  // A region without a source for a group of its rows cannot be trusted to stop anything.
  return (
    region.sources[group][0] ?? { document: region.name, edition: 'edition not recorded', status: 'memory' }
  );
}

function directionFindings({ region, row, direction }: PlannedFrame): TransmissionFinding[] {
  if (serves(row, direction)) return [];
  return [
    findingUnder(sourceOf(region, 'dataRates'), {
      rule: 'data-rate-direction',
      severity: 'stop',
      message: `DR${row.dataRate} of ${region.name} is for ${row.direction}s only`,
      measured: direction,
      limit: row.direction,
    }),
  ];
}

function payloadFindings(frame: PlannedFrame): TransmissionFinding[] {
  const { region, row, direction, applicationBytes, fOptsBytes } = frame;
  if (!serves(row, direction)) return [];
  const dwellLimited = region.dwell?.when === 'always';
  const largest = maxPayload({ region, dataRate: row.dataRate, direction, dwellLimited });
  const room = largest.available ? largest.applicationBytes - fOptsBytes : -1;
  if (applicationBytes <= room) return [];
  const { advice, remedies } = framesThatCarry(frame, room);
  const beside = fOptsBytes > 0 ? ` beside ${bytes(fOptsBytes)} of MAC commands` : '';
  const fits = room < 0 ? 'nothing fits' : `${bytes(room)} fit`;
  return [
    findingUnder(sourceOf(region, 'payloads'), {
      rule: 'max-payload',
      severity: 'stop',
      message: `${fits} on DR${row.dataRate} of ${region.name}${beside}${advice === '' ? '' : `: ${advice}`}`,
      measured: bytes(applicationBytes),
      limit: bytes(Math.max(0, room)),
      remedies,
    }),
  ];
}

function channelFindings(frame: PlannedFrame, { frequencyHz }: PlannedRadio): TransmissionFinding[] {
  const { region } = frame;
  const source = sourceOf(region, 'channels');
  if (frequencyHz < region.minHz || frequencyHz > region.maxHz) {
    const message = `${megahertz(frequencyHz)} lies outside ${region.name}`;
    const figures = { measured: megahertz(frequencyHz), limit: edges(region) };
    return [findingUnder(source, { rule: 'region-band', severity: 'stop', message, ...figures })];
  }
  if (region.plan === 'dynamic') return [];
  const nearestHz = nearestChannelHz(frame, frequencyHz);
  if (nearestHz === undefined || Math.abs(nearestHz - frequencyHz) <= centreSlackHz) return [];
  return [
    findingUnder(source, {
      rule: 'region-channel',
      severity: 'stop',
      message: `${megahertz(frequencyHz)} is no ${kilohertz(frame.row.bandwidthHz)} ${frame.direction} channel of ${region.name}, so nobody listens: the nearest is ${megahertz(nearestHz)}`,
      measured: megahertz(frequencyHz),
      limit: megahertz(nearestHz),
      remedies: [{ frequencyHz: nearestHz }],
    }),
  ];
}

/** Nothing where the direction has no channels for the data rate; then another finding has said so. */
function nearestChannelHz({ region, direction, row }: PlannedFrame, frequencyHz: number): number | undefined {
  return region.channels
    .filter((group) => serves(group, direction))
    .filter((group) => row.dataRate >= group.minDataRate && row.dataRate <= group.maxDataRate)
    .flatMap((group) => channelFrequenciesHz(group))
    .sort((a, b) => Math.abs(a - frequencyHz) - Math.abs(b - frequencyHz))[0];
}

/** The plan's maximum binds nodes; a gateway follows the law alone. */
function powerFindings({ region, direction }: PlannedFrame, radio: PlannedRadio): TransmissionFinding[] {
  const maximumDbm = region.power.txPowersDbm[0];
  if (direction === 'downlink' || maximumDbm === undefined) return [];
  const { quantity } = region.power;
  const measuredDbm = quantity === 'EIRP' ? radio.eirpDbm : radio.conductedPowerDbm;
  const excessDb = measuredDbm - maximumDbm;
  if (excessDb <= decibelSlack) return [];
  const reduction = reductionDb(excessDb);
  return [
    findingUnder(sourceOf(region, 'power'), {
      rule: 'region-power',
      severity: 'fix',
      message: `${decibels(excessDb)} dB above the maximum of nodes in ${region.name}, whatever the law allows: lower the conducted power by ${reduction} dB`,
      measured: `${decibels(measuredDbm)} dBm ${quantity}`,
      limit: `${maximumDbm} dBm ${quantity}`,
      remedies: [{ conductedPowerDbm: radio.conductedPowerDbm - reduction }],
    }),
  ];
}
