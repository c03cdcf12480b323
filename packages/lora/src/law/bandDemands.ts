import { decibels, kilohertz, milliseconds } from '../figures.js';
import type { Access, JurisdictionName } from '../Transmission.js';
import { type BandPlan, placeInBandPlan, type SubBand, sourceOf } from './bandPlan.js';
import { bandRemark, edges } from './bandRemark.js';
import type { Demands, PowerLimit, Refusal, Remark, Signal, TimeLimit } from './Jurisdiction.js';
import { notCoveredHere } from './notCoveredHere.js';

/** What the sub-bands of a plan ask of a signal, for laws that need no more than that. */
export function bandDemands(
  jurisdiction: JurisdictionName,
  plan: BandPlan,
  signal: Signal,
): Demands | Refusal {
  const place = placeInBandPlan(plan, signal.frequencyHz, signal.bandwidthHz);
  if (place.kind !== 'inside') return { refusal: bandRemark(plan, place, signal) };
  const { subBand } = place;
  const access = signal.access ?? usualAccess(subBand);
  if (!waysKnown(subBand).includes(access)) return { refusal: accessNotCovered(subBand, access) };
  return {
    remarks: [...bandwidthRemarks(subBand, signal), ...listeningRemarks(subBand, access)],
    power: powerLimits(subBand, signal),
    time: timeLimits(jurisdiction, subBand, access),
  };
}

/** Listening is the usual way wherever it is known: in Japan it is a duty, in Korea it leaves more time. */
function usualAccess({ listening }: SubBand): Access {
  return listening === undefined ? 'duty-cycle' : 'listen-before-talk';
}

/** The ways to share a channel whose rules are known; where the law is not known to ask for any, both are. */
function waysKnown({ listening, dutyCycleRatio }: SubBand): readonly Access[] {
  if (listening === undefined) {
    return dutyCycleRatio === undefined ? ['duty-cycle', 'listen-before-talk'] : ['duty-cycle'];
  }
  return listening.sparesDutyCycle ? ['duty-cycle', 'listen-before-talk'] : ['listen-before-talk'];
}

function accessNotCovered(subBand: SubBand, access: Access): Remark {
  const [known] = waysKnown(subBand);
  const wanted =
    access === 'duty-cycle' ? 'a duty cycle without listening' : 'listening instead of a duty cycle';
  const instead = known === 'duty-cycle' ? 'keep the duty cycle' : 'listen before talking';
  return {
    rule: 'access-not-covered',
    severity: 'stop',
    message: `${wanted} may be lawful in ${edges(subBand)}, but its figures are not known here, so it is not permitted: ${instead}`,
    measured: access,
    limit: known,
    remedies: known === undefined ? [] : [{ access: known }],
    citation: notCoveredHere,
  };
}

function bandwidthRemarks(subBand: SubBand, { bandwidthHz }: Signal): Remark[] {
  const { maxBandwidthHz } = subBand;
  if (maxBandwidthHz === undefined || bandwidthHz <= maxBandwidthHz) return [];
  return [
    {
      rule: 'bandwidth',
      severity: 'stop',
      message: `${kilohertz(bandwidthHz)} is ${kilohertz(bandwidthHz - maxBandwidthHz)} wider than the rules known here let it be in ${edges(subBand)}: use a data rate of ${kilohertz(maxBandwidthHz)} or less`,
      measured: kilohertz(bandwidthHz),
      limit: kilohertz(maxBandwidthHz),
      citation: sourceOf(subBand, 'bandwidth'),
    },
  ];
}

function listeningRemarks(subBand: SubBand, access: Access): Remark[] {
  const { listening } = subBand;
  if (listening === undefined || access === 'duty-cycle') return [];
  return [
    {
      rule: 'listen-before-talk',
      severity: 'note',
      message: `listen for ${milliseconds(listening.listenSeconds)} before each frame, and send only if nothing reaches ${decibels(listening.thresholdDbm)} dBm; whether the station does is not checked here`,
      limit: `${decibels(listening.thresholdDbm)} dBm for ${milliseconds(listening.listenSeconds)}`,
      citation: sourceOf(subBand, 'listening'),
    },
  ];
}

function powerLimits(subBand: SubBand, { direction }: Signal): PowerLimit[] {
  const { maxErpDbm, maxEirpDbm, maxGatewayEirpDbm, maxConductedPowerDbm } = subBand;
  const radiated = (excess: string) => `radiates ${excess} dB too much for ${edges(subBand)}`;
  const ofGateway = direction === 'downlink' && maxGatewayEirpDbm !== undefined;
  const limits: PowerLimit[] = [];
  if (maxErpDbm !== undefined) {
    const citation = sourceOf(subBand, 'erp');
    limits.push({ rule: 'erp-limit', quantity: 'ERP', limitDbm: maxErpDbm, wrong: radiated, citation });
  }
  const eirpDbm = ofGateway ? maxGatewayEirpDbm : maxEirpDbm;
  if (eirpDbm !== undefined) {
    const citation = sourceOf(subBand, ofGateway ? 'gatewayEirp' : 'eirp');
    limits.push({ rule: 'eirp-limit', quantity: 'EIRP', limitDbm: eirpDbm, wrong: radiated, citation });
  }
  if (maxConductedPowerDbm !== undefined) {
    limits.push({
      rule: 'conducted-power',
      quantity: 'conducted',
      limitDbm: maxConductedPowerDbm,
      wrong: (excess) => `${excess} dB too much at the transmitter's port`,
      citation: sourceOf(subBand, 'conductedPower'),
    });
  }
  return limits;
}

/** A shorter observation time than this is a window that slides over single frames. */
const longObservationSeconds = 600;

function timeLimits(jurisdiction: JurisdictionName, subBand: SubBand, access: Access): TimeLimit[] {
  const { dutyCycleRatio, observationSeconds, longestSeconds, pauseSeconds, listening } = subBand;
  const where = edges(subBand);
  const common = { book: `${jurisdiction} ${where}`, scope: 'sub-band' as const, where };
  const limits: TimeLimit[] = [];
  const listens = listening !== undefined && access === 'listen-before-talk';
  if (
    dutyCycleRatio !== undefined &&
    observationSeconds !== undefined &&
    !(listens && listening.sparesDutyCycle)
  ) {
    const budgetSeconds = dutyCycleRatio * observationSeconds;
    limits.push({
      ...common,
      kind: observationSeconds < longObservationSeconds ? 'window' : 'share',
      budgetSeconds,
      windowSeconds: observationSeconds,
      longestSeconds: budgetSeconds,
      free: subBand.withoutDutyCycle,
      citation: sourceOf(subBand, 'dutyCycle'),
      windowCitation: sourceOf(subBand, 'observation'),
    });
  }
  if (listening !== undefined && !listens) return limits;
  if (longestSeconds !== undefined) {
    limits.push({
      ...common,
      kind: 'burst',
      // Transmissions of full length fill this budget without ever exceeding it: length and pause are what binds.
      budgetSeconds: longestSeconds,
      windowSeconds: longestSeconds + (pauseSeconds ?? 0),
      longestSeconds,
      pauseSeconds,
      citation: sourceOf(subBand, 'burst'),
    });
  }
  return limits;
}
