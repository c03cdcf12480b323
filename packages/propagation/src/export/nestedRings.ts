import type { PlaneRing, PlaneRings } from './contourRings.js';

/** A ring with what finding the holes in it takes. */
interface Outline {
  readonly ring: PlaneRing;
  readonly area: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/**
 * Gives every hole to the smallest ring around it. An island in a lake has holes of its own, and the ring around the lake surrounds them
 * too: handed to that one, they would be filled on the island. Rings touch nowhere. Unchecked.
 */
export function nestedRings(outers: readonly PlaneRing[], holes: readonly PlaneRing[]): PlaneRings {
  const outlines = outers.map(outlineOf).sort((one, other) => one.area - other.area);
  const polygons = outlines.map(({ ring }) => [ring]);
  for (const hole of holes) {
    const [across, down] = hole[0] as readonly [number, number];
    const place = outlines.findIndex((outline) => surrounds(outline, across, down));
    polygons[place]?.push(hole);
  }
  return polygons;
}

function outlineOf(ring: PlaneRing): Outline {
  let [twiceArea, left, right, top, bottom] = [0, Infinity, -Infinity, Infinity, -Infinity];
  for (let place = 1; place < ring.length; place++) {
    const [x0, y0] = ring[place - 1] as readonly [number, number];
    const [x, y] = ring[place] as readonly [number, number];
    twiceArea += x0 * y - x * y0;
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  }
  return { ring, area: Math.abs(twiceArea) / 2, left, right, top, bottom };
}

/** Whether a point lies inside: a line from it to the west crosses the ring an odd number of times. */
function surrounds({ ring, left, right, top, bottom }: Outline, across: number, down: number): boolean {
  if (across < left || across > right || down < top || down > bottom) return false;
  let isInside = false;
  for (let place = 1; place < ring.length; place++) {
    const [x0, y0] = ring[place - 1] as readonly [number, number];
    const [x, y] = ring[place] as readonly [number, number];
    if (y0 > down !== y > down && across > x0 + ((down - y0) / (y - y0)) * (x - x0)) isInside = !isInside;
  }
  return isInside;
}
