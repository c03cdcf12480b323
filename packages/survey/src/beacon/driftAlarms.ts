import type { ChartPoint } from './driftCharts.js';

/** A change of the beacon's level that the charts did not take for chance. */
export interface DriftAlarm {
  /** Which way the level went. */
  readonly direction: 'loss' | 'rise';
  /** `'step'` if a jump fits the readings better, `'slow'` if a slope does. */
  readonly shape: 'step' | 'slow';
  /** When the change began in seconds, as the better fit has it. */
  readonly onsetSeconds: number;
  /** Time of the reading that raised the alarm, in seconds. */
  readonly alarmSeconds: number;
  /** Time of the first reading after it, as the fit has it, in seconds, once the charts are calm again; absent while the change lasts. */
  readonly endSeconds?: number | undefined;
  /** Change of level in dB: of the jump, or of the slope up to the last reading of the alarm. Negative is a loss. */
  readonly changeDb: number;
  /** Fall or rise in dB per second, where the change is slow. */
  readonly slopeDbPerSecond?: number | undefined;
  /** Charts that raised it. */
  readonly charts: readonly ('ewma' | 'cusum')[];
}

interface Excursion {
  readonly chart: 'ewma' | 'cusum';
  readonly direction: 'loss' | 'rise';
  /** Last point at which the chart stood at or across zero. */
  readonly zero: number;
  readonly alarm: number;
  /** First point at which it was calm again; the number of points while it is not. */
  readonly end: number;
}

/** Alarms of both charts, those of one change put together, in order of time; unchecked. */
export function driftAlarms(points: readonly ChartPoint[]): readonly DriftAlarm[] {
  return (['loss', 'rise'] as const)
    .flatMap((direction) => {
      const sign = direction === 'loss' ? -1 : 1;
      return joined([
        ...excursions(points, 'ewma', direction, ({ ewmaRatio }) => sign * ewmaRatio),
        ...excursions(points, 'cusum', direction, ({ lossRatio, riseRatio }) =>
          direction === 'loss' ? lossRatio : riseRatio,
        ),
      ]);
    })
    .map((group) => alarmOf(points, group))
    .sort((one, other) => one.alarmSeconds - other.alarmSeconds);
}

/** Stretches from where a chart passes its limit to where it is back below half of it. */
function excursions(
  points: readonly ChartPoint[],
  chart: Excursion['chart'],
  direction: Excursion['direction'],
  heightOf: (point: ChartPoint) => number,
): readonly Excursion[] {
  const found: Excursion[] = [];
  let zero = 0;
  let open: { readonly zero: number; readonly alarm: number } | undefined;
  points.forEach((point, index) => {
    const height = heightOf(point);
    if (open === undefined && height > 1) open = { zero, alarm: index };
    if (open !== undefined && height < 0.5) {
      found.push({ chart, direction, ...open, end: index });
      open = undefined;
    }
    if (height <= 0) zero = index;
  });
  if (open !== undefined) found.push({ chart, direction, ...open, end: points.length });
  return found;
}

/** Excursions of one direction that overlap are one change. */
function joined(excursions: readonly Excursion[]): readonly (readonly Excursion[])[] {
  const groups: { readonly members: Excursion[]; end: number }[] = [];
  for (const each of [...excursions].sort((one, other) => one.alarm - other.alarm)) {
    const group = groups.at(-1);
    if (group === undefined || each.alarm > group.end) groups.push({ members: [each], end: each.end });
    else {
      group.members.push(each);
      group.end = Math.max(group.end, each.end);
    }
  }
  return groups.map(({ members }) => members);
}

/** Calm readings before the change that the fits see, so that they can tell where it begins. */
const calmBefore = 50;

function alarmOf(points: readonly ChartPoint[], group: readonly Excursion[]): DriftAlarm {
  const direction = group[0]?.direction ?? 'loss';
  const alarm = group.reduce((first, each) => Math.min(first, each.alarm), points.length - 1);
  const end = group.reduce((last, each) => Math.max(last, each.end), 0);
  const zero = group.reduce((first, each) => Math.min(first, each.zero), alarm);
  const from = Math.max(0, zero - calmBefore);
  // What comes after the alarm may go the other way: then only the readings up to it tell what it was.
  const fit = (until: number) => betterChange(points.slice(from, until), direction, alarm - from);
  const first = fit(Math.max(end, alarm + 1)) ?? fit(alarm + 1) ?? noChange(points, alarm);
  // The charts lag: what is already over by the time they are calm would make the change look small.
  const over = end < points.length ? Math.max(alarm + 1, recovery(points, from, end, first)) : end;
  const change = over < end ? (fit(over) ?? first) : first;
  return {
    direction,
    shape: change.shape,
    onsetSeconds: change.onsetSeconds,
    alarmSeconds: (points[alarm] as ChartPoint).timeSeconds,
    ...(end < points.length ? { endSeconds: (points[over] as ChartPoint).timeSeconds } : {}),
    changeDb: change.changeDb,
    ...(change.shape === 'slow' ? { slopeDbPerSecond: change.slopeDbPerSecond } : {}),
    charts: [...new Set(group.map(({ chart }) => chart))].sort(),
  };
}

/** First point that is nearer to the reference than to the changed level for good: where the sum of the halves' differences peaks. */
function recovery(points: readonly ChartPoint[], from: number, end: number, change: Change): number {
  const half = change.changeDb / 2;
  let sum = 0;
  let most = -Infinity;
  let over = end;
  for (let index = from; index < end; index += 1) {
    const { timeSeconds, deviationDb } = points[index] as ChartPoint;
    if (timeSeconds < change.onsetSeconds) continue;
    sum += (deviationDb - half) * Math.sign(half);
    if (sum > most) {
      most = sum;
      over = index + 1;
    }
  }
  return over;
}

interface Change {
  readonly shape: 'step' | 'slow';
  readonly onsetSeconds: number;
  readonly changeDb: number;
  readonly slopeDbPerSecond: number;
}

/** An alarm that no change of its direction explains. */
function noChange(points: readonly ChartPoint[], alarm: number): Change {
  const { timeSeconds, deviationDb } = points[alarm] as ChartPoint;
  return { shape: 'step', onsetSeconds: timeSeconds, changeDb: deviationDb, slopeDbPerSecond: 0 };
}

/**
 * Jump or slope, whichever leaves less of the squares: both start from the reference level and have the same two unknowns, when and
 * how much. Sums run from the end, so that every place for the onset is tried in one pass. Nothing where no change of the direction
 * begins by the reading `latest`.
 */
function betterChange(
  points: readonly ChartPoint[],
  direction: DriftAlarm['direction'],
  latest: number,
): Change | undefined {
  const sign = direction === 'loss' ? -1 : 1;
  const origin = points[0]?.timeSeconds ?? 0;
  const last = (points.at(-1)?.timeSeconds ?? 0) - origin;
  let best = { explained: 0, shape: 'step' as Change['shape'], onset: last, changeDb: 0, slope: 0 };
  let count = 0;
  let sumT = 0;
  let sumTt = 0;
  let sumY = 0;
  let sumTy = 0;
  for (let index = points.length - 1; index >= 0; index -= 1) {
    const { timeSeconds, deviationDb: y } = points[index] as ChartPoint;
    const t = timeSeconds - origin;
    // The slope starts at this reading, which itself still stands at the reference level.
    const squares = sumTt - 2 * t * sumT + count * t * t;
    const products = sumTy - t * sumY;
    const mayBegin = index <= latest;
    if (mayBegin && sign * products > 0 && count > 1 && products ** 2 / squares > best.explained) {
      const slope = products / squares;
      best = {
        explained: products ** 2 / squares,
        shape: 'slow',
        onset: t,
        changeDb: slope * (last - t),
        slope,
      };
    }
    count += 1;
    sumT += t;
    sumTt += t * t;
    sumY += y;
    sumTy += t * y;
    if (mayBegin && sign * sumY > 0 && sumY ** 2 / count > best.explained) {
      best = { explained: sumY ** 2 / count, shape: 'step', onset: t, changeDb: sumY / count, slope: 0 };
    }
  }
  const { explained, shape, onset, changeDb, slope } = best;
  if (explained === 0) return undefined;
  return { shape, onsetSeconds: origin + onset, changeDb, slopeDbPerSecond: slope };
}
