import { scaleLinear } from 'd3-scale';
import { area } from 'd3-shape';
import { join, type Markup, markup } from './markup.js';
import { at, label, line, picture, pictureWidth } from './svg.js';
import { decimal } from './wording.js';

/** The skyline all around, as angles. */
export interface DrawnSkyline {
  /** Azimuths in degrees from north, rising. */
  readonly azimuthDeg: readonly number[];
  /** Elevation of the highest ground at each in degrees above the horizontal. */
  readonly elevationDeg: readonly number[];
  readonly description: string;
}

const left = 34;
const right = pictureWidth - 8;
const top = 12;
const bottom = 112;
const winds = ['N', 'E', 'S', 'W', 'N'];

/** What an eye at the antenna sees: the edge of the ground against the sky, from north over east round to north. */
export function skylinePicture({ azimuthDeg, elevationDeg, description }: DrawnSkyline): Markup {
  const x = scaleLinear().domain([0, 360]).range([left, right]);
  const y = scaleLinear()
    .domain([Math.min(-1, ...elevationDeg), Math.max(1, ...elevationDeg)])
    .nice(4)
    .range([bottom, top]);
  const first = elevationDeg[0] ?? 0;
  const points = [
    ...azimuthDeg.map((each, index) => [each, elevationDeg[index] ?? 0] as const),
    [360, first] as const,
  ];
  const ground = area<readonly [number, number]>(
    ([each]) => at(x(each)),
    bottom,
    ([, angle]) => at(y(angle)),
  );
  return picture(
    { id: 'skyline', height: bottom + 26, title: 'Skyline seen from the antenna', description },
    [
      ...y
        .ticks(4)
        .map((angle) =>
          join([
            line('grid', left, y(angle), right, y(angle)),
            label(
              left - 4,
              y(angle) + 4,
              `${decimal(angle, Number.isInteger(angle) ? 0 : 1)}°`,
              'mark',
              'end',
            ),
          ]),
        ),
      markup`<path class="hill" d="${ground(points) ?? ''}"/>`,
      line('rule', left, y(0), right, y(0)),
      ...winds.map((wind, index) => label(x(index * 90), bottom + 16, wind, 'mark', 'middle')),
    ],
  );
}
