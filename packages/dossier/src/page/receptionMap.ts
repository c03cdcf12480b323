import type { CalibrationPart } from '../calibrationPart.js';
import type { CoveragePart } from '../coveragePart.js';
import type { Position } from '../position.js';
import type { ReliefPart } from '../reliefPart.js';
import { circleMap } from './circleMap.js';
import { areaPath } from './localMap.js';
import { join, type Markup, markup } from './markup.js';
import { at, label } from './svg.js';

/** Where a frame gets through, by prediction and walk together, and the numbered places where one should walk next. */
export function receptionMap(
  gateway: Position,
  { radiusM, knownPolygons }: Pick<CoveragePart, 'radiusM' | 'knownPolygons'>,
  relief: ReliefPart | undefined,
  { bands, nextSpots, residuals }: CalibrationPart,
): Markup {
  return circleMap({
    id: 'reception-map',
    title: 'Probability that a frame gets through',
    description: `${bands.length} areas of probability and ${nextSpots.length} places to walk next; both are listed below.`,
    gateway,
    radiusM,
    knownPolygons,
    relief,
    areas: (place) =>
      bands.map(({ name, polygons }, index) => areaPath(name, polygons, `cover sure-${index}`, place)),
    marks: (place) => [
      ...residuals.map((spot) => {
        const [x, y] = place(spot);
        return markup`<circle class="walked" cx="${at(x)}" cy="${at(y)}" r="2"/>`;
      }),
      ...nextSpots.map((spot, index) => {
        const [x, y] = place(spot);
        return join([
          markup`<circle class="next-spot" cx="${at(x)}" cy="${at(y)}" r="8"/>`,
          label(x, y + 4, String(index + 1), 'next-number', 'middle'),
        ]);
      }),
    ],
  });
}
