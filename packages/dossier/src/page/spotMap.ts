import type { Position } from '../position.js';
import type { SpotSummary } from '../walkPart.js';
import { gatewayMark, metresFrom, type Offset, ring, ringRadii, scaleBar } from './localMap.js';
import { type Markup, markup } from './markup.js';
import { at, label, picture, pictureWidth } from './svg.js';
import { percent } from './wording.js';

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

function dot(x: number, y: number, spot: SpotSummary): Markup {
  const words = `${spot.spot}: ${spot.received} of ${spot.sent} frames, ${percent(spot.ratio)}`;
  return markup`<circle class="spot share-${deliveryClass(spot.ratio)}" cx="${at(x)}" cy="${at(y)}" r="5.5"><title>${words}</title></circle>`;
}
