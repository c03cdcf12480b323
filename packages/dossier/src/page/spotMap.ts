import type { Position } from '../plan.js';
import type { SpotSummary } from '../walkPart.js';
import { join, type Markup, markup } from './markup.js';
import { at, label, line, picture, pictureWidth } from './svg.js';
import { distance, percent } from './wording.js';

const metresPerDegree = 111_195;
const margin = 26;

/** Classes of delivery ratio, from nothing to nearly everything; each has its own colour and, for print, its own outline. */
export const deliveryClasses: readonly { readonly least: number; readonly name: string }[] = [
  { least: 0.9, name: '90 % or more' },
  { least: 0.7, name: '70 to 90 %' },
  { least: 0.4, name: '40 to 70 %' },
  { least: 0.1, name: '10 to 40 %' },
  { least: 0, name: 'below 10 %' },
];

/** Index in {@link deliveryClasses} of a delivery ratio. */
export function deliveryClass(ratio: number): number {
  return deliveryClasses.findIndex(({ least }) => ratio >= least);
}

/** The spots of a walk around the gateway, coloured by delivery; a local flat map, true to a per mille within 30 km. */
export function spotMap(gateway: Position, spots: readonly SpotSummary[]): Markup {
  const places = spots.map((spot) => ({ spot, ...metresFrom(gateway, spot) }));
  const bounds = boundsOf([{ east: 0, north: 0 }, ...places]);
  const scale = (pictureWidth - 2 * margin) / Math.max(bounds.width, bounds.height, 200);
  const height = Math.max(140, bounds.height * scale + 2 * margin) + 22;
  const x = (east: number) =>
    margin + (pictureWidth - 2 * margin - bounds.width * scale) / 2 + (east - bounds.west) * scale;
  const y = (north: number) => height - 22 - margin - (north - bounds.south) * scale;
  const rings = ringRadii(Math.max(bounds.width, bounds.height)).map((radiusM) =>
    ring(x(0), y(0), radiusM, scale),
  );
  return picture(
    {
      id: 'spot-map',
      height,
      title: 'Map of the spots, coloured by the share of frames received',
      description: `${spots.length} spots around the gateway; the table below lists each with its numbers.`,
    },
    [
      markup`<rect class="ground" x="0" y="0" width="${pictureWidth}" height="${at(height)}" rx="4"/>`,
      ...rings,
      ...places.map((place) => dot(x(place.east), y(place.north), place.spot)),
      gatewayMark(x(0), y(0)),
      ...scaleBar(scale, height),
      label(pictureWidth - 12, 16, 'N ↑', 'name', 'end'),
    ],
  );
}

interface Offset {
  readonly east: number;
  readonly north: number;
}

function metresFrom(gateway: Position, place: Position): Offset {
  const north = (place.latitudeDeg - gateway.latitudeDeg) * metresPerDegree;
  // The shorter way round, so that a walk across the dateline stays one map.
  const degreesEast = ((place.longitudeDeg - gateway.longitudeDeg + 540) % 360) - 180;
  return { north, east: degreesEast * metresPerDegree * Math.cos((gateway.latitudeDeg * Math.PI) / 180) };
}

function boundsOf(offsets: readonly Offset[]): {
  west: number;
  south: number;
  width: number;
  height: number;
} {
  const east = offsets.map((offset) => offset.east);
  const north = offsets.map((offset) => offset.north);
  const west = Math.min(...east);
  const south = Math.min(...north);
  return { west, south, width: Math.max(...east) - west, height: Math.max(...north) - south };
}

function ringRadii(extentM: number): number[] {
  const step = roundLength(extentM / 4);
  return [step, 2 * step, 3 * step].filter((radiusM) => radiusM < extentM);
}

function ring(x: number, y: number, radiusM: number, scale: number): Markup {
  return join([
    markup`<circle class="ring" cx="${at(x)}" cy="${at(y)}" r="${at(radiusM * scale)}"/>`,
    label(x, y - radiusM * scale - 3, distance(radiusM), 'mark', 'middle'),
  ]);
}

function dot(x: number, y: number, spot: SpotSummary): Markup {
  const words = `${spot.spot}: ${spot.received} of ${spot.sent} frames, ${percent(spot.ratio)}`;
  return markup`<circle class="spot share-${deliveryClass(spot.ratio)}" cx="${at(x)}" cy="${at(y)}" r="5.5"><title>${words}</title></circle>`;
}

function gatewayMark(x: number, y: number): Markup {
  const path = `M${at(x)} ${at(y - 15)}l6.5 8.5-4.4 4.4V${at(y + 11)}h-4.2V${at(y - 2.1)}L${at(x - 6.5)} ${at(y - 6.5)}z`;
  return markup`<path class="gateway" d="${path}"><title>Gateway</title></path>`;
}

function scaleBar(scale: number, height: number): Markup[] {
  const lengthM = roundLength(90 / scale);
  const y = height - 14;
  return [
    line('rule', 12, y, 12 + lengthM * scale, y),
    label(16 + lengthM * scale, y + 4, distance(lengthM)),
  ];
}

/** The largest of 1, 2 or 5 times a power of ten that is not above a length. */
function roundLength(lengthM: number): number {
  const power = 10 ** Math.floor(Math.log10(lengthM));
  return ([5, 2, 1].find((digit) => digit * power <= lengthM) ?? 1) * power;
}
