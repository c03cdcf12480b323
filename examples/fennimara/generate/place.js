// @ts-check
// The facts of Fennimara. The island is invented: where these coordinates point there is nothing but the Atlantic.
// Other examples read their positions from here.

/**
 * A point of the island in metres east and north of its middle.
 *
 * @typedef {object} LocalPoint
 * @property {number} eastM
 * @property {number} northM
 */

/**
 * A point in degrees, WGS 84.
 *
 * @typedef {object} GeographicPoint
 * @property {number} latitudeDeg positive to the north
 * @property {number} longitudeDeg positive to the east
 */

/**
 * An antenna at a place of its own.
 *
 * @typedef {object} AntennaSite
 * @property {string} name also names the random stream of its shadowing, so a renamed site sees other shadows
 * @property {number} latitudeDeg
 * @property {number} longitudeDeg
 * @property {number} antennaHeightAboveGroundM
 * @property {number} antennaGainDbi
 * @property {number} feedlineLossDb
 */

/** The one seed of everything here. Another seed is another island. */
export const seed = 20260314;

/** Said wherever a file has room for it. */
export const inventedNotice =
  'Invented data: the island Fennimara does not exist; these coordinates are open water.';

/**
 * Middle of the island and of the elevation grid.
 *
 * @type {GeographicPoint}
 */
export const middle = { latitudeDeg: 41.2, longitudeDeg: -37.4 };

/**
 * The gateway: on a house roof in the town, on a short mast beside the chimney.
 *
 * @type {AntennaSite}
 */
export const gateway = {
  name: 'Lantern House',
  latitudeDeg: 41.1901,
  longitudeDeg: -37.4322,
  antennaHeightAboveGroundM: 8,
  antennaGainDbi: 2,
  feedlineLossDb: 1.2,
};

/** The node of the walk, as it was carried. */
export const node = {
  antennaHeightAboveGroundM: 1.5,
  conductedPowerDbm: 14,
  /** A short helix in a closed hand, the hand counted in. */
  antennaGainDbi: -2,
  /** LoRaWAN frame on the air, MAC header to integrity code: 13 bytes of LoRaWAN and a 4-byte counter. */
  frameBytes: 17,
  /** The three channels that every EU868 device knows. */
  channelsHz: [868.1e6, 868.3e6, 868.5e6],
};

/** Cells of the elevation grid: one arc-second each way, its edges on whole arc-seconds. */
export const elevationGrid = { columns: 520, rows: 440, cellArcSeconds: 1 };

// Metres of one degree at the middle, on the WGS 84 ellipsoid. Over 14 km a flat map is good to a few metres.
const semiMajorM = 6378137;
const eccentricitySquared = 0.00669437999014;
const sineSquared = Math.sin((middle.latitudeDeg * Math.PI) / 180) ** 2;
const curvature = 1 - eccentricitySquared * sineSquared;
const metresPerDegreeNorth = ((Math.PI / 180) * semiMajorM * (1 - eccentricitySquared)) / curvature ** 1.5;
const metresPerDegreeEast =
  (((Math.PI / 180) * semiMajorM) / Math.sqrt(curvature)) * Math.cos((middle.latitudeDeg * Math.PI) / 180);

/**
 * @param {GeographicPoint} point
 * @returns {LocalPoint}
 */
export function toLocal({ latitudeDeg, longitudeDeg }) {
  return {
    eastM: (longitudeDeg - middle.longitudeDeg) * metresPerDegreeEast,
    northM: (latitudeDeg - middle.latitudeDeg) * metresPerDegreeNorth,
  };
}

/**
 * @param {LocalPoint} point
 * @returns {GeographicPoint}
 */
export function toGeographic({ eastM, northM }) {
  return {
    latitudeDeg: middle.latitudeDeg + northM / metresPerDegreeNorth,
    longitudeDeg: middle.longitudeDeg + eastM / metresPerDegreeEast,
  };
}

/**
 * @param {LocalPoint} from
 * @param {LocalPoint} to
 * @returns {number} metres along the ground
 */
export function distanceM(from, to) {
  return Math.hypot(to.eastM - from.eastM, to.northM - from.northM);
}
