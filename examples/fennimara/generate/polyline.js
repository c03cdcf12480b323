// @ts-check
// Lines drawn on the island: crests of hills and beds of washes.
import { distanceM } from './place.js';

/** @import { LocalPoint } from './place.js' */

/**
 * A corner of a line with the one value the line carries there (a crest height, a depth).
 *
 * @typedef {LocalPoint & { valueM: number }} Knot
 */

/**
 * What a line does to a point: the strongest effect over the line's segments. Taking the greatest effect instead of the
 * effect of the nearest segment keeps the ground free of steps inside a bend, where two segments are equally near.
 *
 * @param {readonly Knot[]} knots
 * @param {number} reachM beyond the line's bounding box by this much the effect is taken as 0, which keeps the grid quick
 * @param {(awayM: number, valueM: number) => number} effectM of a segment's nearest place: distance, value there
 * @returns {(point: LocalPoint) => number}
 */
export function effectOf(knots, reachM, effectM) {
  const segments = pairs(knots);
  const east = knots.map((knot) => knot.eastM);
  const north = knots.map((knot) => knot.northM);
  const box = {
    west: Math.min(...east) - reachM,
    east: Math.max(...east) + reachM,
    south: Math.min(...north) - reachM,
    north: Math.max(...north) + reachM,
  };
  return (point) => {
    const inside =
      point.eastM > box.west &&
      point.eastM < box.east &&
      point.northM > box.south &&
      point.northM < box.north;
    if (!inside) return 0;
    let strongestM = 0;
    for (const [from, to] of segments) {
      const share = shareAlong(from, to, point);
      const awayM = Math.hypot(
        from.eastM + share * (to.eastM - from.eastM) - point.eastM,
        from.northM + share * (to.northM - from.northM) - point.northM,
      );
      strongestM = Math.max(strongestM, effectM(awayM, from.valueM + share * (to.valueM - from.valueM)));
    }
    return strongestM;
  };
}

/**
 * Breaks a line into steps of about `stepM`, so that it can be bent.
 *
 * @param {readonly Knot[]} knots
 * @param {number} stepM
 * @returns {(Knot & { alongM: number, acrossEast: number, acrossNorth: number })[]} with the distance walked so far and the
 *   unit vector across the line
 */
export function resample(knots, stepM) {
  const steps = [];
  let walkedM = 0;
  for (const [from, to] of pairs(knots)) {
    const lengthM = distanceM(from, to);
    const count = Math.max(1, Math.round(lengthM / stepM));
    for (let step = 0; step < count; step++) {
      const share = step / count;
      steps.push({
        eastM: from.eastM + share * (to.eastM - from.eastM),
        northM: from.northM + share * (to.northM - from.northM),
        valueM: from.valueM + share * (to.valueM - from.valueM),
        alongM: walkedM + share * lengthM,
        acrossEast: (from.northM - to.northM) / lengthM,
        acrossNorth: (to.eastM - from.eastM) / lengthM,
      });
    }
    walkedM += lengthM;
  }
  return steps;
}

/**
 * @param {readonly Knot[]} knots
 * @returns {[Knot, Knot][]}
 */
function pairs(knots) {
  /** @type {[Knot, Knot][]} */
  const segments = [];
  let before;
  for (const knot of knots) {
    if (before) segments.push([before, knot]);
    before = knot;
  }
  return segments;
}

/**
 * @param {LocalPoint} from
 * @param {LocalPoint} to
 * @param {LocalPoint} point
 * @returns {number} 0 at `from`, 1 at `to`, never beyond
 */
function shareAlong(from, to, point) {
  const east = to.eastM - from.eastM;
  const north = to.northM - from.northM;
  const share =
    ((point.eastM - from.eastM) * east + (point.northM - from.northM) * north) /
    (east * east + north * north);
  return Math.min(1, Math.max(0, share));
}
