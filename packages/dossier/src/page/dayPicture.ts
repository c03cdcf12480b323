import type { EnclosureDay } from '@finial/site';
import { scaleLinear } from 'd3-scale';
import { line as curve } from 'd3-shape';
import { join, type Markup, markup } from './markup.js';
import { at, label, line, picture, pictureWidth } from './svg.js';
import { decimal } from './wording.js';

const left = 34;
const right = pictureWidth - 40;
const top = 14;
const bottom = 190;

/** Air outside, wall and inside of the box through the day, and the limit of its electronics. */
export function dayPicture({ hours, electronicsLimitC, hottestInsideC }: EnclosureDay): Markup {
  const temperatures = hours.flatMap(({ airC, skinC, insideC }) => [airC, skinC, insideC]);
  const x = scaleLinear().domain([0, 24]).range([left, right]);
  const y = scaleLinear()
    .domain([Math.min(...temperatures), Math.max(electronicsLimitC, ...temperatures)])
    .nice(5)
    .range([bottom, top]);
  const path = (of: (hour: EnclosureDay['hours'][number]) => number) =>
    curve<EnclosureDay['hours'][number]>(
      ({ timeOfDaySeconds }) => at(x(timeOfDaySeconds / 3600)),
      (hour) => at(y(of(hour))),
    )(hours) ?? '';
  const last = hours.at(-1);
  const ticks = y
    .ticks(5)
    .map((each) =>
      join([
        line('grid', left, y(each), right, y(each)),
        label(left - 4, y(each) + 4, decimal(each, 0), 'mark', 'end'),
      ]),
    );
  const times = [0, 6, 12, 18, 24].map((hour) => label(x(hour), bottom + 15, String(hour), 'mark', 'middle'));
  const names = [
    ['air', last?.airC],
    ['inside', last?.insideC],
  ] as const;
  return picture(
    {
      id: 'day',
      height: bottom + 34,
      title: 'Temperature of air and box through the day',
      description: `Hottest inside ${decimal(hottestInsideC, 1)} degrees C, limit ${decimal(electronicsLimitC, 0)} degrees C; the table below lists each hour.`,
    },
    [
      ...ticks,
      line('limit', left, y(electronicsLimitC), right, y(electronicsLimitC)),
      markup`<path class="frame-line dashed" d="${path(({ airC }) => airC)}"/>`,
      markup`<path class="noise" fill="none" d="${path(({ skinC }) => skinC)}"/>`,
      markup`<path class="frame-line" d="${path(({ insideC }) => insideC)}"/>`,
      ...names.map(([name, value]) => label(right + 4, y(value ?? 0) + 4, name, 'mark')),
      ...times,
      label(right, bottom + 29, 'hour, sun time', 'mark', 'end'),
      label(left - 30, 10, '°C', 'mark'),
    ],
  );
}
