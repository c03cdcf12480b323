import { scaleLinear } from 'd3-scale';
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

const middle = pictureWidth / 2;
const height = 316;
const centre = height / 2 + 2;
const rim = 132;
/** Room in the middle, so that the highest ground does not run together there. */
const hub = 40;
const winds = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'];

type Point = readonly [number, number];

/**
 * The skyline as a rose: looking up from the antenna, the ground stands in from the rim, and the sky is the middle. The angle of a
 * ring is drawn larger than it is.
 */
export function skylinePicture({ azimuthDeg, elevationDeg, description }: DrawnSkyline): Markup {
  const radius = scaleLinear()
    .domain([Math.min(-1, ...elevationDeg), Math.max(2, ...elevationDeg)])
    .nice(4)
    .range([rim, hub]);
  const place = (azimuth: number, fromCentre: number): Point => {
    const angle = (azimuth * Math.PI) / 180;
    return [at(middle + fromCentre * Math.sin(angle)), at(centre - fromCentre * Math.cos(angle))];
  };
  const edge = azimuthDeg.map((azimuth, index) => place(azimuth, radius(elevationDeg[index] as number)));
  const ticks = radius.ticks(4).filter((angle) => radius(angle) < rim - 6);
  return picture({ id: 'skyline', height, title: 'Skyline seen from the antenna', description }, [
    markup`<path class="hill" fill-rule="evenodd" d="${circlePath(rim)}${closed(edge)}"/>`,
    ...ticks.map((angle) => angleRing(angle, radius(angle))),
    ...winds.map((wind, index) => {
      const [x, y] = place(index * 45, rim + 12);
      const [x1, y1] = place(index * 45, rim);
      const [x2, y2] = place(index * 45, rim - 5);
      return join([line('rule', x1, y1, x2, y2), label(x, y + 4, wind, 'mark', 'middle')]);
    }),
    markup`<circle class="gateway" cx="${middle}" cy="${at(centre)}" r="4"/>`,
  ]);
}

function angleRing(angle: number, fromCentre: number): Markup {
  const words = `${decimal(angle, Number.isInteger(angle) ? 0 : 1)}°`;
  return join([
    markup`<circle class="${angle === 0 ? 'level' : 'ring'}" cx="${middle}" cy="${at(centre)}" r="${at(fromCentre)}"/>`,
    label(middle + 3, centre - fromCentre + 4, words),
  ]);
}

function circlePath(r: number): string {
  return `M${middle} ${at(centre - r)}a${r} ${r} 0 1 1 -0.01 0z`;
}

function closed(points: readonly Point[]): string {
  return `M${points.map(([x, y]) => `${x} ${y}`).join('L')}Z`;
}
