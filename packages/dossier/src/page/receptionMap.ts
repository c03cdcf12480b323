import type { CalibrationPart } from '../calibrationPart.js';
import type { CoveragePart } from '../coveragePart.js';
import type { Position } from '../position.js';
import { areaPath, gatewayMark, metresFrom, ring, ringRadii, scaleBar } from './localMap.js';
import { join, type Markup, markup } from './markup.js';
import { at, label, picture, pictureWidth } from './svg.js';

const margin = 8;

/** Where a frame gets through, by prediction and walk together, and the numbered places where one should walk next. */
export function receptionMap(
  gateway: Position,
  { radiusM, knownPolygons }: Pick<CoveragePart, 'radiusM' | 'knownPolygons'>,
  { bands, nextSpots, residuals }: CalibrationPart,
): Markup {
  const scale = (pictureWidth / 2 - margin) / radiusM;
  const middle = pictureWidth / 2;
  const height = pictureWidth + 22;
  const place = (position: Position) => {
    const { east, north } = metresFrom(gateway, position);
    return [middle + east * scale, middle - north * scale] as const;
  };
  const description = `${bands.length} areas of probability and ${nextSpots.length} places to walk next; both are listed below.`;
  return picture(
    { id: 'reception-map', height, title: 'Probability that a frame gets through', description },
    [
      markup`<circle class="unknown" cx="${middle}" cy="${middle}" r="${at(radiusM * scale)}"/>`,
      areaPath('no prediction', knownPolygons, 'ground', place),
      ...bands.map(({ name, polygons }, index) => areaPath(name, polygons, `cover sure-${index}`, place)),
      ...ringRadii(radiusM).map((each) => ring(middle, middle, each, scale)),
      ...residuals.map((spot) => {
        const [x, y] = place(spot);
        return markup`<circle class="walked" cx="${at(x)}" cy="${at(y)}" r="2"/>`;
      }),
      gatewayMark(middle, middle),
      ...nextSpots.map((spot, index) => {
        const [x, y] = place(spot);
        return join([
          markup`<circle class="next-spot" cx="${at(x)}" cy="${at(y)}" r="8"/>`,
          label(x, y + 4, String(index + 1), 'next-number', 'middle'),
        ]);
      }),
      ...scaleBar(scale, height),
      label(pictureWidth - 12, 16, 'N ↑', 'name', 'end'),
    ],
  );
}
