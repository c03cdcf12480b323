import { scaleLinear, scaleLog } from 'd3-scale';
import type { WalkPart } from '../walkPart.js';
import { join, type Markup, markup } from './markup.js';
import { at, label, line, picture, pictureWidth } from './svg.js';
import { decimal, distance } from './wording.js';

const left = 40;
const right = pictureWidth - 10;
const top = 12;
const bottom = 216;
const strip = 236;

/**
 * Measured level of every received frame over distance, the fitted line, and below them a strip with one tick for each frame
 * that was sent and not received: what the line does not know.
 */
export function levelOverDistance(walk: WalkPart): Markup {
  const distances = walk.frames.map(({ distanceM }) => distanceM).filter((distanceM) => distanceM > 0);
  const levels = walk.frames.flatMap(({ signalDbm }) => (signalDbm === undefined ? [] : [signalDbm]));
  const x = scaleLog()
    .domain([Math.max(1, Math.min(...distances) * 0.9), Math.max(...distances) * 1.1])
    .range([left, right])
    .clamp(true);
  const y = scaleLinear()
    .domain([Math.min(...levels) - 4, Math.max(...levels) + 4])
    .nice()
    .range([bottom, top]);
  return picture(
    {
      id: 'level-distance',
      height: strip + 40,
      title: 'Signal level of each received frame over distance, missed frames below',
      description: `${levels.length} received and ${walk.frames.length - levels.length} missed frames; the spot table holds the means.`,
    },
    [
      ...axes(x, y),
      ...walk.frames.map((frame) =>
        frame.signalDbm === undefined
          ? line('missed', x(frame.distanceM), strip - 7, x(frame.distanceM), strip + 7)
          : markup`<circle class="frame" cx="${at(x(frame.distanceM))}" cy="${at(y(frame.signalDbm))}" r="2.2"/>`,
      ),
      label(left - 5, strip + 4, 'missed', 'mark', 'end'),
      ...fitLine(walk, x, y),
    ],
  );
}

type Scale = ((value: number) => number) & { ticks(count?: number): number[]; domain(): number[] };

function axes(x: Scale, y: Scale): Markup[] {
  const levels = y.ticks(6).map((level) => {
    const grid = line('grid', left, y(level), right, y(level));
    return join([grid, label(left - 5, y(level) + 4, decimal(level, 0), 'mark', 'end')]);
  });
  const distances = x
    .ticks()
    .filter(isRound)
    .map((distanceM) => {
      const grid = line('grid', x(distanceM), top, x(distanceM), strip + 10);
      return join([grid, label(x(distanceM), strip + 24, distance(distanceM), 'mark', 'middle')]);
    });
  return [...levels, ...distances, label(left - 32, 9, 'dBm', 'mark')];
}

/** 1, 2 and 5 times a power of ten: a logarithmic axis labels no others. */
function isRound(value: number): boolean {
  return (
    ['1', '2', '5'].includes(value.toExponential(0).charAt(0)) && Number(value.toExponential(0)) === value
  );
}

function fitLine(walk: WalkPart, x: Scale, y: Scale): Markup[] {
  const { fit } = walk;
  if (fit === undefined) return [];
  const level = (distanceM: number) => fit.interceptDbm - fit.exponent * 10 * Math.log10(distanceM);
  const [from = 1, to = 1] = x.domain();
  const [lowest = 0, highest = 0] = y.domain();
  const reaches = (levelDbm: number) => 10 ** ((fit.interceptDbm - levelDbm) / (10 * fit.exponent));
  // Only the part inside the frame is drawn; outside it the line would run over the labels.
  const start = Math.max(from, fit.exponent > 0 ? reaches(highest) : from);
  const end = Math.min(to, fit.exponent > 0 ? reaches(lowest) : to);
  if (!(start < end)) return [];
  return [line('fit', x(start), y(level(start)), x(end), y(level(end)))];
}
