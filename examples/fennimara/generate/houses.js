// @ts-check
// The houses of Fennimara: blocks between straight streets in the town and in the village on the east coast.
import { gateway, toLocal } from './place.js';
import { cellChance, seedOf } from './random.js';

/** @import { LocalPoint } from './place.js' */

/**
 * A built-up place: an oval of blocks around a middle.
 *
 * @typedef {object} Settlement
 * @property {string} name
 * @property {LocalPoint} middle middle of the block at column 0, row 0
 * @property {number} halfEastM
 * @property {number} halfNorthM
 */

/** Distance from one street to the next. */
const block = { eastM: 84, northM: 64, streetM: 12 };

/** Side of a plot: a house or a yard. */
const plotM = 12;

/** @type {Settlement} */
export const town = { name: 'town', middle: toLocal(gateway), halfEastM: 640, halfNorthM: 520 };

/** @type {Settlement} */
export const village = {
  name: 'village',
  middle: { eastM: 3700, northM: 300 },
  halfEastM: 260,
  halfNorthM: 200,
};

/**
 * @typedef {object} Houses
 * @property {(point: LocalPoint) => number} roofM height of the roof above the ground, 0 where there is no house
 */

/**
 * @param {number} seed
 * @returns {Houses}
 */
export function buildHouses(seed) {
  const plots = seedOf(seed, 'plots');
  const roofs = seedOf(seed, 'roofs');
  return {
    roofM(point) {
      const settlement = [town, village].find((candidate) => outwards(candidate, point) < 1);
      if (!settlement || onStreet(settlement, point)) return 0;
      const column = Math.floor((point.eastM - settlement.middle.eastM) / plotM);
      const row = Math.floor((point.northM - settlement.middle.northM) / plotM);
      // Dense in the middle, gardens at the edge.
      const builtShare = 0.75 - 0.5 * outwards(settlement, point);
      if (cellChance(plots, column, row) > builtShare) return 0;
      return 4 + 5 * cellChance(roofs, column, row);
    },
  };
}

/**
 * A street corner, for whoever walks there.
 *
 * @param {Settlement} settlement
 * @param {number} column streets east of the middle block: 0.5 is its eastern street, -0.5 its western
 * @param {number} row streets north of the middle block, likewise
 * @returns {LocalPoint}
 */
export function corner(settlement, column, row) {
  return {
    eastM: settlement.middle.eastM + column * block.eastM,
    northM: settlement.middle.northM + row * block.northM,
  };
}

/**
 * @param {Settlement} settlement
 * @param {LocalPoint} point
 * @returns {number} 0 in the middle, 1 at the edge
 */
function outwards(settlement, point) {
  return Math.hypot(
    (point.eastM - settlement.middle.eastM) / settlement.halfEastM,
    (point.northM - settlement.middle.northM) / settlement.halfNorthM,
  );
}

/**
 * @param {Settlement} settlement
 * @param {LocalPoint} point
 */
function onStreet(settlement, point) {
  const east = (point.eastM - settlement.middle.eastM) / block.eastM - 0.5;
  const north = (point.northM - settlement.middle.northM) / block.northM - 0.5;
  const eastAwayM = Math.abs(east - Math.round(east)) * block.eastM;
  const northAwayM = Math.abs(north - Math.round(north)) * block.northM;
  return Math.min(eastAwayM, northAwayM) < block.streetM / 2;
}
