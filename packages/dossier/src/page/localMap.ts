import type { AreaPolygons } from '../contourAreas.js';
import type { Position } from '../position.js';
import { join, type Markup, markup } from './markup.js';
import { at, label, line } from './svg.js';
import { distance } from './wording.js';

const metresPerDegree = 111_195;

/** A place in metres east and north of the gateway; a local flat map, true to a per mille within 30 km. */
export interface Offset {
  readonly east: number;
  readonly north: number;
}

/** A place as metres from the gateway. */
export function metresFrom(gateway: Position, place: Position): Offset {
  const north = (place.latitudeDeg - gateway.latitudeDeg) * metresPerDegree;
  // The shorter way round, so that a walk across the dateline stays one map.
  const degreesEast = ((place.longitudeDeg - gateway.longitudeDeg + 540) % 360) - 180;
  return { north, east: degreesEast * metresPerDegree * Math.cos((gateway.latitudeDeg * Math.PI) / 180) };
}

/** Two or three round radii that fit into an extent. */
export function ringRadii(extentM: number): number[] {
  const step = roundLength(extentM / 4);
  return [step, 2 * step, 3 * step].filter((radiusM) => radiusM < extentM);
}

/** A circle of distance with its length. */
export function ring(x: number, y: number, radiusM: number, scale: number): Markup {
  return join([
    markup`<circle class="ring" cx="${at(x)}" cy="${at(y)}" r="${at(radiusM * scale)}"/>`,
    label(x, y - radiusM * scale - 3, distance(radiusM), 'mark', 'middle'),
  ]);
}

/** The gateway, as a finial. */
export function gatewayMark(x: number, y: number): Markup {
  const path = `M${at(x)} ${at(y - 15)}l6.5 8.5-4.4 4.4V${at(y + 11)}h-4.2V${at(y - 2.1)}L${at(x - 6.5)} ${at(y - 6.5)}z`;
  return markup`<path class="gateway" d="${path}"><title>Gateway</title></path>`;
}

/** A bar of round length in the lower left corner; `scale` is picture units per metre. */
export function scaleBar(scale: number, height: number): Markup[] {
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

/** Polygons in degrees as one path of a local map. */
export function areaPath(
  name: string,
  polygons: AreaPolygons,
  className: string,
  place: (position: Position) => readonly [number, number],
): Markup {
  const rings = polygons
    .flat()
    .map((corners) =>
      outline(corners.map(([longitudeDeg, latitudeDeg]) => place({ latitudeDeg, longitudeDeg }))),
    );
  return markup`<path class="${className}" d="${rings.join('')}"><title>${name}</title></path>`;
}

/** A ring to half a unit of the picture: finer is not seen, and pages stay small. */
function outline(points: readonly (readonly [number, number])[]): string {
  const rounded = points.map(([x, y]) => `${Math.round(x * 2) / 2} ${Math.round(y * 2) / 2}`);
  const kept = rounded.filter((point, index) => point !== rounded[index - 1]);
  return kept.length < 4 ? '' : `M${kept.join('L')}Z`;
}
