import type { DriftAlarm } from '@finial/survey';
import { scaleLinear, scaleUtc } from 'd3-scale';
import { line as curve } from 'd3-shape';
import type { BeaconPart } from '../beaconPart.js';
import type { BeaconPoint } from '../beaconPoints.js';
import { day, timeMark, years } from './calendar.js';
import { join, type Markup, markup } from './markup.js';
import { at, label, line, picture, pictureWidth } from './svg.js';
import { decibels, decimal } from './wording.js';

const left = 40;
const right = pictureWidth - 10;
const top = 22;
const levelBottom = 166;
const strip = 184;
const chartTop = 210;
const chartBottom = 286;

/** A chart above this many limits is cut; the sums are held at two. */
const mostLimits = 2.2;

/** A chart that a picture can show. */
export type ChartName = 'ewma' | 'cusum';

/** Room for a sign at the size of the marks. */
const glyph = 6;

type Scale = ((value: number) => number) & { ticks(count?: number): number[] };

/**
 * Level of the beacon over time with its reference band, a tick for each missed frame, silences shaded; below it the chart that
 * raised the gravest alarm, in units of its limit. Alarms are numbered: dashed where the change began, full where it was noticed.
 */
export function beaconPicture(beacon: BeaconPart): Markup {
  const { drift, points, missedSeconds } = beacon;
  const from = beacon.fromSeconds ?? 0;
  const until = Math.max(beacon.untilSeconds ?? from, from + 1);
  const time = scaleUtc()
    .domain([new Date(from * 1000), new Date(until * 1000)])
    .range([left, right]);
  const x = (timeSeconds: number) => at(time(new Date(timeSeconds * 1000)));
  const y = levelScale(beacon);
  const bottom = drift === undefined ? strip + 10 : chartBottom;
  const alarms = drift?.alarms ?? [];
  return picture(
    {
      id: 'beacon-level',
      height: bottom + 34,
      title: 'Level of the beacon over time',
      description: `${beacon.received} received and ${beacon.missed} missed frames from ${day(from)} to ${day(until)}; ${alarms.length} alarms, ${drift?.outages.length ?? 0} silences. The tables below list days and alarms.`,
    },
    [
      ...silences(beacon, x, until, bottom),
      ...levelGrid(y),
      ...dates(time.ticks(4), x, until - from, bottom),
      ...referenceBand(beacon, x, y),
      ...points.map(
        ({ timeSeconds, steadyLevelDbm }) =>
          markup`<circle class="frame" cx="${x(timeSeconds)}" cy="${at(y(steadyLevelDbm))}" r="1.5"/>`,
      ),
      ...missedTicks(missedSeconds, x),
      missedSeconds.length === 0 ? markup`` : label(left - 5, strip + 4, 'missed', 'mark', 'end'),
      ...(drift === undefined ? [] : chart(points, chartShown(alarms), x)),
      ...alarms.flatMap((alarm) => alarmLines(alarm, x, bottom)),
      ...alarmNumbers(alarms, x),
      label(right, bottom + 29, `${years(from, until)}, UTC`, 'mark', 'end'),
      label(left - 32, 12, 'dBm', 'mark'),
    ],
  );
}

/** The chart to show: the one that found the last loss that still lasts, or else the last alarm; sums find jumps, means find slopes. */
export function chartShown(alarms: readonly DriftAlarm[]): ChartName {
  const lasting = alarms.filter(
    ({ direction, endSeconds }) => direction === 'loss' && endSeconds === undefined,
  );
  const alarm = lasting.at(-1) ?? alarms.at(-1);
  if (alarm === undefined) return 'ewma';
  const apt = alarm.shape === 'step' ? 'cusum' : 'ewma';
  return alarm.charts.includes(apt) ? apt : (alarm.charts[0] ?? apt);
}

function levelScale({ points, drift }: BeaconPart): Scale {
  const levels = points.map(({ steadyLevelDbm }) => steadyLevelDbm);
  const { levelDbm, deviationDb } = drift?.reference ?? { levelDbm: levels[0] as number, deviationDb: 1 };
  return scaleLinear()
    .domain([
      Math.min(levelDbm - 3 * deviationDb, ...levels) - 1,
      Math.max(levelDbm + 3 * deviationDb, ...levels) + 1,
    ])
    .nice(5)
    .range([levelBottom, top]);
}

function levelGrid(y: Scale): Markup[] {
  return y
    .ticks(5)
    .map((level) =>
      join([
        line('grid', left, y(level), right, y(level)),
        label(left - 5, y(level) + 4, decimal(level, 0), 'mark', 'end'),
      ]),
    );
}

function dates(
  ticks: readonly Date[],
  x: (timeSeconds: number) => number,
  spanSeconds: number,
  bottom: number,
): Markup[] {
  let labelEnd = -Infinity;
  return ticks.map((date) => {
    const timeSeconds = date.getTime() / 1000;
    const place = x(timeSeconds);
    const words = timeMark(timeSeconds, spanSeconds);
    const half = (glyph * words.length) / 2;
    const middle = Math.min(right - half, Math.max(left + half, place));
    const fits = middle - half > labelEnd;
    if (fits) labelEnd = middle + half;
    return join([
      line('grid', place, top, place, bottom),
      fits ? label(middle, bottom + 15, words, 'mark', 'middle') : markup``,
    ]);
  });
}

/** Two deviations about the reference level, over the whole time, and a rule under the period that gave it. */
function referenceBand(
  { drift, untilSeconds = 0 }: BeaconPart,
  x: (timeSeconds: number) => number,
  y: Scale,
): Markup[] {
  if (drift === undefined) return [];
  const { levelDbm, deviationDb, fromSeconds, untilSeconds: referenceUntil } = drift.reference;
  const high = at(y(levelDbm + 2 * deviationDb));
  const low = at(y(levelDbm - 2 * deviationDb));
  const start = x(fromSeconds);
  return [
    markup`<rect class="band" x="${start}" y="${high}" width="${at(x(untilSeconds) - start)}" height="${at(low - high)}"/>`,
    line('frame-line', start, levelBottom, x(referenceUntil), levelBottom),
    label(start, levelBottom - 5, 'reference', 'mark'),
  ];
}

function silences(
  { drift }: BeaconPart,
  x: (timeSeconds: number) => number,
  until: number,
  bottom: number,
): Markup[] {
  return (drift?.outages ?? []).map(({ lastHeardSeconds, heardAgainSeconds = until }) => {
    const start = x(lastHeardSeconds);
    const width = Math.max(1.5, at(x(heardAgainSeconds) - start));
    return markup`<rect class="silence" x="${start}" y="${top}" width="${width}" height="${bottom - top}"/>`;
  });
}

/** Ticks that would fall on one another are drawn once. */
function missedTicks(missedSeconds: readonly number[], x: (timeSeconds: number) => number): Markup[] {
  const places = new Set(missedSeconds.map((timeSeconds) => Math.round(2 * x(timeSeconds)) / 2));
  return [...places].map((place) => line('missed', place, strip - 7, place, strip + 7));
}

function chart(
  points: readonly BeaconPoint[],
  name: ChartName,
  x: (timeSeconds: number) => number,
): Markup[] {
  const y = scaleLinear().domain([-mostLimits, mostLimits]).range([chartBottom, chartTop]).clamp(true);
  const curveOf = (height: (point: BeaconPoint) => number) =>
    curve<BeaconPoint>(
      ({ timeSeconds }) => x(timeSeconds),
      (point) => at(y(height(point))),
    )(points) ?? '';
  const curves =
    name === 'ewma'
      ? [curveOf(({ ewmaRatio = 0 }) => ewmaRatio)]
      : [curveOf(({ riseRatio = 0 }) => riseRatio), curveOf(({ lossRatio = 0 }) => -lossRatio)];
  return [
    line('grid', left, y(0), right, y(0)),
    ...[-1, 1].map((limit) => line('limit', left, y(limit), right, y(limit))),
    label(left - 5, y(1) + 4, 'limit', 'mark', 'end'),
    label(left - 5, y(0) + 4, '0', 'mark', 'end'),
    label(left - 5, y(-1) + 4, 'limit', 'mark', 'end'),
    label(left, chartTop - 6, name === 'ewma' ? 'weighted mean' : 'cumulative sums', 'mark'),
    ...curves.map((path) => markup`<path class="frame-line" d="${path}"/>`),
  ];
}

function alarmLines(
  { onsetSeconds, alarmSeconds, endSeconds }: DriftAlarm,
  x: (timeSeconds: number) => number,
  bottom: number,
): Markup[] {
  const state = endSeconds === undefined ? 'lasting' : 'over';
  return [
    line(`alarm onset ${state}`, x(onsetSeconds), top, x(onsetSeconds), bottom),
    line(`alarm ${state}`, x(alarmSeconds), top, x(alarmSeconds), bottom),
  ];
}

/** Numbers of the alarms over their lines; where they would stand on one another, those that last come first. */
function alarmNumbers(alarms: readonly DriftAlarm[], x: (timeSeconds: number) => number): Markup[] {
  const taken: { readonly start: number; readonly end: number }[] = [];
  const isLasting = ({ endSeconds }: DriftAlarm) => endSeconds === undefined;
  const inOrder = [...alarms.filter(isLasting), ...alarms.filter((alarm) => !isLasting(alarm))];
  return inOrder.flatMap((alarm) => {
    const { alarmSeconds, changeDb } = alarm;
    const words = `${alarms.indexOf(alarm) + 1}: ${changeDb > 0 ? '+' : ''}${decibels(changeDb, 'dB')}`;
    const width = glyph * words.length;
    const start = Math.min(right - width, x(alarmSeconds));
    const end = start + width;
    if (taken.some((other) => start < other.end && other.start < end)) return [];
    taken.push({ start, end });
    return [label(start, top - 6, words, 'alarm-number')];
  });
}
