import type { BeaconOutage, DriftAlarm } from '@finial/survey';
import type { BeaconDay } from '../beaconDays.js';
import type { BeaconPart, BeaconWatch } from '../beaconPart.js';
import { beaconPicture, chartShown } from './beaconPicture.js';
import { day, moment } from './calendar.js';
import { type Markup, markup } from './markup.js';
import { foldedTable } from './parts.js';
import { decibels, decimal, duration } from './wording.js';

/** The fixed beacon: whether the gateway still hears as it did. */
export function beaconSection(beacon: BeaconPart): Markup {
  const { drift, days, skipped } = beacon;
  return markup`<section aria-labelledby="beacon">
<h2 id="beacon">The beacon</h2>
<p>${spanInWords(beacon)} ${skipped.length === 0 ? '' : `${skipped.length} of ${beacon.rows} rows could not be used.`}</p>
${drift === undefined ? markup`<p>${beacon.driftMissing}</p>` : watchInWords(drift)}
${beacon.warnings.map((warning) => markup`<p class="caution">${warning}</p>`)}
${beacon.points.length === 0 ? null : markup`<figure>${beaconPicture(beacon)}<figcaption>${captionOf(beacon)}</figcaption></figure>`}
${drift === undefined || drift.alarms.length + drift.outages.length === 0 ? null : changeTable(drift)}
${days.length === 0 ? null : dayTable(days)}
</section>`;
}

function spanInWords({ received, missed, fromSeconds, untilSeconds }: BeaconPart): string {
  if (fromSeconds === undefined || untilSeconds === undefined) return 'No frame of the log could be used.';
  const lost = missed === 0 ? '' : `, ${decimal(missed, 0)} missed`;
  return `${decimal(received, 0)} frames received${lost}, from ${day(fromSeconds)} to ${day(untilSeconds)} (${length(untilSeconds - fromSeconds)}).`;
}

function watchInWords(drift: BeaconWatch): Markup {
  const { reference, charts } = drift;
  const apart = charts.ewma.averageRunLengthCount * reference.heartbeatSeconds;
  return markup`<p>${changesInWords(drift)} Normal is ${decibels(reference.levelDbm, 'dBm')} with a spread of ${decibels(reference.deviationDb, 'dB')}, by the first ${reference.readingCount} readings, up to ${day(reference.untilSeconds)}. ${temperatureInWords(drift)}
Without any change each of the two charts would raise an alarm about once in ${length(apart)}.</p>`;
}

function changesInWords({ alarms, outages }: BeaconWatch): string {
  const lasting = alarms.filter(({ endSeconds }) => endSeconds === undefined);
  const last = lasting.at(-1);
  const silent = outages.some(({ heardAgainSeconds }) => heardAgainSeconds === undefined)
    ? ' It is silent now.'
    : '';
  if (alarms.length === 0) {
    return `The gateway hears the beacon as it did: no change of level${outages.length === 0 ? ' and no silence' : `, ${silencesInWords(outages.length)}`}.${silent}`;
  }
  const counts = `${alarms.length === 1 ? 'One change' : `${alarms.length} changes`} of level${outages.length === 0 ? '' : `, ${silencesInWords(outages.length)}`}.`;
  if (last === undefined) return `${counts} All are over.${silent}`;
  return `${counts} Since ${day(last.onsetSeconds)} the level has ${last.direction === 'loss' ? 'fallen' : 'risen'} ${last.shape === 'step' ? 'at once' : 'slowly'} by ${decibels(Math.abs(last.changeDb), 'dB')}; noticed on ${day(last.alarmSeconds)}.${silent}`;
}

function silencesInWords(count: number): string {
  return count === 1 ? 'one silence' : `${count} silences`;
}

function temperatureInWords({ reference }: BeaconWatch): string {
  const { temperatureSlopeDbPerK: slope, slopeStandardErrorDbPerK: error } = reference;
  if (slope === undefined || error === undefined) return '';
  return `Temperature moves it by ${decimal(slope, 3)} ± ${decimal(error, 3)} dB per kelvin, which is taken out.`;
}

function captionOf({ drift, received, missed, withoutSnrCount }: BeaconPart): string {
  const level = `${withoutSnrCount === received ? 'RSSI' : 'Effective signal power'} of each received frame`;
  const ticks = missed === 0 ? '' : '; ticks: missed frames';
  if (drift === undefined) return `${level}${ticks}.`;
  const steady = drift.reference.temperatureSlopeDbPerK === undefined ? '' : ', temperature taken out';
  const chart =
    chartShown(drift.alarms) === 'ewma'
      ? 'a weighted mean of what is new in each frame'
      : 'sums of what is new in each frame, gains above, losses below';
  const marks =
    drift.alarms.length === 0
      ? ''
      : ' Vertical lines: dashed where a change began by the best fit, full where it was noticed; faint if it is over.';
  const shade = drift.outages.length === 0 ? '' : ' Shaded: silences.';
  return `${level}${steady}; the band is normal within two deviations${ticks}. Below: ${chart}, against the limits of alarm.${marks}${shade}`;
}

function changeTable({ alarms, outages }: BeaconWatch): Markup {
  return foldedTable(
    'The changes',
    'Changes of level and silences of the beacon, in UTC',
    ['What', 'Began', 'Noticed', 'Over', 'Size', 'Chart'],
    [...alarms.map(alarmCells), ...outages.map(outageCells)],
  );
}

function alarmCells(alarm: DriftAlarm, index: number): string[] {
  const { shape, direction, onsetSeconds, alarmSeconds, endSeconds, changeDb, charts } = alarm;
  const names = { ewma: 'mean', cusum: 'sum' } as const;
  return [
    `${index + 1}: ${shape} ${direction}`,
    moment(onsetSeconds),
    moment(alarmSeconds),
    endSeconds === undefined ? 'lasts' : moment(endSeconds),
    decibels(changeDb, 'dB'),
    charts.map((chart) => names[chart]).join(', '),
  ];
}

function outageCells({ lastHeardSeconds, heardAgainSeconds, missedFrames }: BeaconOutage): string[] {
  return [
    'silence',
    moment(lastHeardSeconds),
    '–',
    heardAgainSeconds === undefined ? 'lasts' : moment(heardAgainSeconds),
    `${missedFrames} frames`,
    '–',
  ];
}

function dayTable(days: readonly BeaconDay[]): Markup {
  return foldedTable(
    'The days',
    'The beacon day by day, in UTC; median level as received',
    ['Day', 'Received', 'Missed', 'Median level', 'Temperature'],
    days.map(({ date, received, missed, medianLevelDbm, meanTemperatureC }) => [
      date,
      String(received),
      String(missed),
      medianLevelDbm === undefined ? '–' : decibels(medianLevelDbm, 'dBm'),
      meanTemperatureC === undefined ? '–' : `${decimal(meanTemperatureC, 1)}\u00a0°C`,
    ]),
  );
}

/** A length of time in days where it is some. */
function length(timeSeconds: number): string {
  if (timeSeconds < 2 * 86_400) return duration(timeSeconds);
  return `${decimal(timeSeconds / 86_400, timeSeconds < 10 * 86_400 ? 1 : 0)}\u00a0days`;
}
