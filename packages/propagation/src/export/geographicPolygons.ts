import { beside, positionAt } from '../raster/placement.js';
import type { RasterFrame } from '../raster/RasterFrame.js';
import type { PlaneRing, PlaneRings } from './contourRings.js';

/** A ring of [longitude, latitude] in degrees. */
type GeographicRing = readonly (readonly [longitudeDeg: number, latitudeDeg: number])[];

/** Polygons of a grid as degrees, outer rings counter-clockwise and holes clockwise, as RFC 7946 (section 3.1.6) wants them. Unchecked. */
export function geographicPolygons(
  polygons: PlaneRings,
  raster: RasterFrame,
  cellsPerStep: number,
): readonly (readonly GeographicRing[])[] {
  return polygons.map((rings) =>
    rings.map((ring, place) => {
      const turned = turnsLeft(ring) === (place === 0) ? ring : ring.toReversed();
      return geographicRing(turned, raster, cellsPerStep);
    }),
  );
}

function geographicRing(
  ring: PlaneRing,
  { origin, columns, cellM }: RasterFrame,
  cellsPerStep: number,
): GeographicRing {
  return ring.map(([across, down]) => {
    const eastM = (across * cellsPerStep - columns / 2) * cellM;
    const northM = (columns / 2 - down * cellsPerStep) * cellM;
    const { latitudeDeg, longitudeDeg } = positionAt(origin, { eastM, northM });
    return [rounded(beside(longitudeDeg, origin.longitudeDeg)), rounded(latitudeDeg)];
  });
}

/** Whether a ring runs counter-clockwise as seen on a map, north up. */
function turnsLeft(ring: PlaneRing): boolean {
  let twiceArea = 0;
  for (let place = 1; place < ring.length; place++) {
    const [x0, y0] = ring[place - 1] as readonly [number, number];
    const [x1, y1] = ring[place] as readonly [number, number];
    twiceArea += x0 * y1 - x1 * y0;
  }
  // Rows run south, so the sign is that of a mirror image.
  return twiceArea < 0;
}

function rounded(angleDeg: number): number {
  return Math.round(angleDeg * 1e7) / 1e7;
}
