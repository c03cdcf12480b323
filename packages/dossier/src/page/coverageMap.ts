import type { CoveragePart } from '../coveragePart.js';
import type { Position } from '../position.js';
import type { SpotSummary } from '../walkPart.js';
import { areaPath, gatewayMark, metresFrom, ring, ringRadii, scaleBar } from './localMap.js';
import { type Markup, markup } from './markup.js';
import { at, label, picture, pictureWidth } from './svg.js';
import { decimal, percent } from './wording.js';

const margin = 8;

/** Areas by the fastest data rate that a median place gets, with the spots of the walk on them. */
export function coverageMap(
  gateway: Position,
  { radiusM, bands, knownPolygons }: CoveragePart,
  spots: readonly SpotSummary[],
): Markup {
  const scale = (pictureWidth / 2 - margin) / radiusM;
  const middle = pictureWidth / 2;
  const height = pictureWidth + 22;
  const place = (position: Position) => {
    const { east, north } = metresFrom(gateway, position);
    return [middle + east * scale, middle - north * scale] as const;
  };
  const isInside = ([x, y]: readonly [number, number]) =>
    Math.hypot(x - middle, y - middle) <= radiusM * scale;
  const dots = spots.flatMap((spot) => {
    const [x, y] = place(spot);
    return isInside([x, y]) ? [spotMark(x, y, spot)] : [];
  });
  return picture(
    {
      id: 'coverage-map',
      height,
      title: 'Predicted coverage by data rate, and the spots of the walk',
      description: `Areas within ${decimal(radiusM / 1000, 1)} km, in the table below with their sizes.`,
    },
    [
      markup`<circle class="unknown" cx="${middle}" cy="${middle}" r="${at(radiusM * scale)}"/>`,
      areaPath('no data rate', knownPolygons, 'ground', place),
      ...bands.map(({ name, polygons }, index) =>
        areaPath(name, polygons, `cover cover-${bandClass(index, bands.length)}`, place),
      ),
      ...ringRadii(radiusM).map((each) => ring(middle, middle, each, scale)),
      ...dots,
      gatewayMark(middle, middle),
      ...scaleBar(scale, height),
      label(pictureWidth - 12, 16, 'N ↑', 'name', 'end'),
    ],
  );
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

function spotMark(x: number, y: number, spot: SpotSummary): Markup {
  const { mark = '' } = heardClasses.find(({ least }) => spot.ratio >= least) ?? {};
  const words = `${spot.spot}: ${spot.received} of ${spot.sent} frames, ${percent(spot.ratio)}`;
  return markup`<circle class="heard-spot ${mark}" cx="${at(x)}" cy="${at(y)}" r="4.5"><title>${words}</title></circle>`;
}

/** Class of a band for the style sheet; the fastest rate is 0. */
export function bandClass(index: number, count: number): number {
  return Math.min(5, count - 1 - index);
}
