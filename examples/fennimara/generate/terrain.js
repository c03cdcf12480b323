// @ts-check
// The ground of Fennimara: a height for any point, finer than the grid that is written out, so that the radio of this place
// sees detail that a reader of elevation.tif does not, as it is with real ground.
import { elevationGrid, middle, toLocal } from './place.js';
import { effectOf, resample } from './polyline.js';
import { fractalNoise, seedOf } from './random.js';

/** @import { LocalPoint } from './place.js' */
/** @import { Knot } from './polyline.js' */

/**
 * @typedef {object} Terrain
 * @property {(point: LocalPoint) => number} heightM metres above the sea, 0 on the sea
 */

/**
 * A line of hills: what is left of the rim of a volcano, highest in its middle.
 *
 * @typedef {object} Hills
 * @property {number} widthM distance from the crest at which the slope has fallen to about a third
 * @property {readonly Knot[]} crest
 */

/** @type {readonly Hills[]} */
const hills = [
  // The main ridge, an arc between the town's plain and the east coast.
  {
    widthM: 780,
    crest: [
      { eastM: 200, northM: 4100, valueM: 120 },
      { eastM: 1250, northM: 2700, valueM: 320 },
      { eastM: 1650, northM: 1000, valueM: 410 },
      { eastM: 1350, northM: -700, valueM: 350 },
      { eastM: 500, northM: -2400, valueM: 170 },
    ],
  },
  // The second hill, north of the town.
  {
    widthM: 520,
    crest: [
      { eastM: -1900, northM: 2350, valueM: 170 },
      { eastM: -1350, northM: 2750, valueM: 205 },
    ],
  },
];

/**
 * Dry washes from the foot of the hills to the sea; the value is the depth. They pass the town at 0.6 to 1.2 km.
 *
 * @type {readonly (readonly Knot[])[]}
 */
const washes = [
  [
    { eastM: 500, northM: 1500, valueM: 10 },
    { eastM: -900, northM: 800, valueM: 20 },
    { eastM: -1900, northM: 100, valueM: 24 },
    { eastM: -2700, northM: -150, valueM: 22 },
    { eastM: -3500, northM: 0, valueM: 17 },
    { eastM: -4900, northM: 500, valueM: 10 },
  ],
  [
    { eastM: 300, northM: -1200, valueM: 10 },
    { eastM: -700, northM: -1650, valueM: 20 },
    { eastM: -1700, northM: -2000, valueM: 25 },
    { eastM: -2700, northM: -2150, valueM: 22 },
    { eastM: -3600, northM: -2800, valueM: 15 },
    { eastM: -4400, northM: -3500, valueM: 10 },
  ],
  [
    { eastM: -600, northM: -300, valueM: 12 },
    { eastM: -1400, northM: -700, valueM: 20 },
    { eastM: -1900, northM: -1250, valueM: 23 },
    { eastM: -2050, northM: -1950, valueM: 24 },
  ],
  [
    { eastM: 2200, northM: 900, valueM: 12 },
    { eastM: 3200, northM: 1400, valueM: 18 },
    { eastM: 4900, northM: 1700, valueM: 12 },
  ],
];

/** Half the island from west to east and from south to north, before the coast is made ragged. */
const halfIsland = { eastM: 5150, northM: 5850 };

/** The plain the town stands on, and how far it reaches. */
const plain = { eastM: -2700, northM: -1150, radiusM: 2600 };

/** Flat bed of a wash and the foot-to-rim distance, from its middle line. */
const bed = { halfWidthM: 22, rimM: 62 };

/**
 * @param {number} seed
 * @returns {Terrain}
 */
export function createTerrain(seed) {
  const coastSeed = seedOf(seed, 'coast');
  const reliefSeed = seedOf(seed, 'relief');
  const crests = hills.map(({ widthM, crest }) =>
    effectOf(crest, 10 * widthM, (awayM, crestM) => slopeM(awayM / widthM, crestM)),
  );
  const beds = washes.map((knots, index) =>
    effectOf(bend(knots, seedOf(seed, `wash ${index}`)), bed.rimM, cutM),
  );

  /** @param {LocalPoint} point */
  const uncutHeightM = (point) => {
    const inlandM = metresInland(coastSeed, point);
    if (inlandM <= 0) return 0;
    const rise = crests.reduce((sum, riseAt) => sum + riseAt(point), 0);
    const flatness = flatnessOfPlain(point);
    const gentleM =
      14 + 0.011 * inlandM + 2.5 * fractalNoise(reliefSeed, point, { wavelengthM: 420, octaves: 3 });
    const roughM = (12 + 0.5 * rise) * fractalNoise(reliefSeed + 1, point, { wavelengthM: 1500, octaves: 6 });
    const heightM = gentleM + (1 - flatness) * (rise + roughM);
    // Low cliffs and beaches: the ground reaches its own height some 300 m inland, and land never lies below 1 m.
    return Math.max(1, heightM * (1 - Math.exp(-inlandM / 160)));
  };

  return {
    heightM(point) {
      const groundM = uncutHeightM(point);
      if (groundM === 0) return 0;
      const depthM = Math.max(...beds.map((depthAt) => depthAt(point)));
      return depthM > 0 ? Math.max(1, groundM - depthM) : groundM;
    },
  };
}

/**
 * Heights of the cells of elevation.tif, row by row from the north-west corner: the ground at each cell's middle, in
 * whole metres.
 *
 * @param {Terrain} terrain
 * @returns {Int16Array}
 */
export function rasterise(terrain) {
  const { columns, rows, cellArcSeconds } = elevationGrid;
  const corner = northWestCorner();
  const heights = new Int16Array(columns * rows);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const point = toLocal({
        latitudeDeg: corner.latitudeDeg - ((row + 0.5) * cellArcSeconds) / 3600,
        longitudeDeg: corner.longitudeDeg + ((column + 0.5) * cellArcSeconds) / 3600,
      });
      heights[row * columns + column] = Math.round(terrain.heightM(point));
    }
  }
  return heights;
}

/** Outer corner of the grid's first cell. */
export function northWestCorner() {
  const { columns, rows, cellArcSeconds } = elevationGrid;
  return {
    latitudeDeg: middle.latitudeDeg + (rows / 2) * (cellArcSeconds / 3600),
    longitudeDeg: middle.longitudeDeg - (columns / 2) * (cellArcSeconds / 3600),
  };
}

/**
 * How far inland a point lies, roughly; negative out at sea.
 *
 * @param {number} seed
 * @param {LocalPoint} point
 */
function metresInland(seed, point) {
  const reach = Math.hypot(point.eastM / halfIsland.eastM, point.northM / halfIsland.northM);
  const ragged = 1 + 0.22 * fractalNoise(seed, point, { wavelengthM: 2400, octaves: 6 });
  return (ragged - reach) * 5500;
}

/**
 * Height of a hillside above the land around it: steep near the crest, drawn out at the foot, as lava leaves it.
 *
 * @param {number} far distance from the crest in widths of the hill
 * @param {number} crestM
 */
function slopeM(far, crestM) {
  return crestM / (1 + far * far) ** 1.6;
}

/**
 * @param {LocalPoint} point
 * @returns {number} 1 in the middle of the plain, 0 outside it
 */
function flatnessOfPlain({ eastM, northM }) {
  const share = Math.min(1, Math.hypot(eastM - plain.eastM, northM - plain.northM) / plain.radiusM);
  return 1 - share * share * share * (10 - 15 * share + 6 * share * share);
}

/**
 * How deep a wash cuts: a flat bed between banks.
 *
 * @param {number} awayM distance from the middle of the bed
 * @param {number} depthM
 */
function cutM(awayM, depthM) {
  const share = Math.min(1, Math.max(0, (awayM - bed.halfWidthM) / (bed.rimM - bed.halfWidthM)));
  return depthM * (1 - share * share * (3 - 2 * share));
}

/**
 * Makes a wash wind: its line is pushed sideways by noise, and its depth varies a little.
 *
 * @param {readonly Knot[]} knots
 * @param {number} seed
 * @returns {Knot[]}
 */
function bend(knots, seed) {
  return resample(knots, 40).map(({ eastM, northM, valueM, alongM, acrossEast, acrossNorth }) => {
    const here = { eastM: alongM, northM: 0.5 };
    const sidewaysM = 190 * fractalNoise(seed, here, { wavelengthM: 420, octaves: 2 });
    return {
      eastM: eastM + sidewaysM * acrossEast,
      northM: northM + sidewaysM * acrossNorth,
      valueM: valueM * (1 + 0.15 * fractalNoise(seed + 1, here, { wavelengthM: 300, octaves: 2 })),
    };
  });
}
