import type { Finding } from '@finial/units';
import type { BeaconOutage } from './beaconOutages.js';
import type { DriftAlarm } from './driftAlarms.js';

const chartSource =
  'Page, Biometrika 41 (1954) 100; Roberts, Technometrics 1 (1959) 239 (from memory); what to look for: common practice, no source';
const caution = 'Climb only in dry, calm weather, by the local rules or with licensed trades.';

/** Alarms and outages as sentences; what is over already is only good to know. */
export function driftFindings(
  alarms: readonly DriftAlarm[],
  outages: readonly BeaconOutage[],
  untilSeconds: number,
  heartbeatSeconds: number,
): readonly Finding[] {
  return [
    ...alarms.map((alarm) => alarmFinding(alarm, untilSeconds)),
    ...outages.map((outage) => outageFinding(outage, untilSeconds, heartbeatSeconds)),
  ];
}

function alarmFinding(alarm: DriftAlarm, untilSeconds: number): Finding {
  const { direction, shape, onsetSeconds, endSeconds, changeDb } = alarm;
  const isOver = endSeconds !== undefined;
  const size = `${Math.abs(changeDb).toFixed(1)} dB`;
  const way = direction === 'loss' ? 'lost' : 'gained';
  const how = shape === 'step' ? 'at once' : 'slowly';
  const since = `${duration(untilSeconds - onsetSeconds)} before the end of the watch`;
  const over = isOver ? `; it was back to normal after ${duration(endSeconds - onsetSeconds)}` : '';
  return {
    rule: direction === 'loss' ? `beacon-${shape}-loss` : 'beacon-rise',
    severity: direction === 'loss' && !isOver ? 'fix' : 'note',
    message: `The beacon ${way} ${size} ${how}, from ${since}${over}. ${advice(alarm)}`,
    measured: `${changeDb.toFixed(1)} dB`,
    source: chartSource,
  };
}

function advice({ direction, shape, endSeconds }: DriftAlarm): string {
  if (direction === 'rise')
    return 'Look for a change of power, antenna or surroundings; the reference no longer holds.';
  if (endSeconds !== undefined)
    return 'A loss that comes and goes is often water in a connector, or wet leaves.';
  return shape === 'step'
    ? `Look for a turned antenna, a loose or damaged cable, a new obstacle. ${caution}`
    : `Look for water in connectors, corrosion, growing trees. ${caution}`;
}

function outageFinding(outage: BeaconOutage, untilSeconds: number, heartbeatSeconds: number): Finding {
  const { lastHeardSeconds, heardAgainSeconds, missedFrames } = outage;
  const silence = duration((heardAgainSeconds ?? untilSeconds) - lastHeardSeconds);
  const state = heardAgainSeconds === undefined ? 'has been silent for' : 'was silent for';
  return {
    rule: 'beacon-outage',
    severity: heardAgainSeconds === undefined ? 'fix' : 'note',
    message:
      `The beacon ${state} ${silence}: ${missedFrames} frames did not come. Look at the supply and the network link of gateway and ` +
      'beacon first.',
    measured: `${missedFrames} frames`,
    limit: `one frame every ${heartbeatSeconds} s`,
    source: 'common practice, no source',
  };
}

/** A length of time as a person says it. */
function duration(timeSeconds: number): string {
  if (timeSeconds >= 2 * 86_400) return `${(timeSeconds / 86_400).toFixed(1)} days`;
  if (timeSeconds >= 2 * 3600) return `${(timeSeconds / 3600).toFixed(1)} hours`;
  return `${(timeSeconds / 60).toFixed(1)} minutes`;
}
