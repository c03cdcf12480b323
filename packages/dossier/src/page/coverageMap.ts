import type { CoveragePart } from '../coveragePart.js';
import type { Position } from '../position.js';
import type { TerrainPart } from '../terrainPart.js';
import type { SpotSummary } from '../walkPart.js';
import { circleMap, isOnMap, type Placing } from './circleMap.js';
import { areaPath } from './localMap.js';
import { type Markup, markup } from './markup.js';
import { pathAddress } from './placePathFigures.js';
import { at } from './svg.js';
import { decimal, percent } from './wording.js';

/** Areas by the fastest data rate that a median place gets, over the relief, with the spots of the walk on them; a spot leads to its ground. */
export function coverageMap(
  gateway: Position,
  { radiusM, bands, knownPolygons }: CoveragePart,
  { relief, places }: Pick<TerrainPart, 'relief' | 'places'>,
  spots: readonly SpotSummary[],
): Markup {
  return circleMap({
    id: 'coverage-map',
    title: 'Predicted coverage by data rate, and the spots of the walk',
    description: `Areas within ${decimal(radiusM / 1000, 1)} km, in the table below with their sizes.`,
    hasLinks: true,
    gateway,
    radiusM,
    knownPolygons,
    relief,
    areas: (place) =>
      bands.map(({ name, polygons }, index) =>
        areaPath(name, polygons, `cover cover-${bandClass(index, bands.length)}`, place),
      ),
    marks: (place) => spots.map((spot) => spotMark(spot, place, pathAddress(places, spot.spot))),
  });
}

/** Spots in black and white, since the colours are those of the prediction. */
export const heardClasses: readonly {
  readonly least: number;
  readonly name: string;
  readonly mark: string;
}[] = [
  { least: 0.9, name: '90 % or more heard', mark: 'heard' },
  { least: 0.1, name: '10 to 90 %', mark: 'partly' },
  { least: 0, name: 'below 10 %', mark: 'unheard' },
];

function spotMark(spot: SpotSummary, place: Placing, address: string | undefined): Markup {
  const [x, y] = place(spot);
  if (!isOnMap([x, y])) return markup``;
  const { mark = '' } = heardClasses.find(({ least }) => spot.ratio >= least) ?? {};
  const words = `${spot.spot}: ${spot.received} of ${spot.sent} frames, ${percent(spot.ratio)}`;
  const dot = markup`<circle class="heard-spot ${mark}" cx="${at(x)}" cy="${at(y)}" r="4.5"><title>${words}</title></circle>`;
  return address === undefined ? dot : markup`<a href="${address}" aria-label="${words}">${dot}</a>`;
}

/** Class of a band for the style sheet; the fastest rate is 0. */
export function bandClass(index: number, count: number): number {
  return Math.min(5, count - 1 - index);
}
