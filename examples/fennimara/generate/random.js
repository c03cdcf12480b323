// @ts-check
// Seeded chance. Every part of the island draws from a stream of its own, named by a label, so that data added later
// (another candidate roof, weeks of a beacon) leave the files written so far byte for byte as they are.

/**
 * A source of seeded random numbers.
 *
 * @typedef {object} RandomStream
 * @property {() => number} uniform next number from 0 (included) to 1 (excluded)
 * @property {() => number} normal next number of the normal distribution with mean 0 and standard deviation 1
 */

/**
 * A 32-bit seed from a label (FNV-1a), so that streams are told apart by words rather than by counting.
 *
 * @param {number} seed
 * @param {string} label
 * @returns {number} unsigned 32-bit integer
 */
export function seedOf(seed, label) {
  let hash = (0x811c9dc5 ^ seed) >>> 0;
  for (const letter of label) {
    hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 0x01000193) >>> 0;
  }
  return hash;
}

/**
 * Opens the random stream of a label. Two streams of one seed share nothing but the seed.
 *
 * @param {number} seed
 * @param {string} label
 * @returns {RandomStream}
 */
export function openStream(seed, label) {
  let state = seedOf(seed, label);
  // The mulberry32 step: a 32-bit counter and two multiply-and-shift rounds. Plenty for scenery, nothing for secrets.
  const uniform = () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  // Box and Muller, the sine half thrown away: a kept spare would make a draw depend on the draws before it.
  const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return { uniform, normal };
}

/**
 * A random number fixed to a cell of an endless grid: the same cell gives the same number in any order of asking.
 *
 * @param {number} seed
 * @param {number} column whole number
 * @param {number} row whole number
 * @returns {number} from 0 to 1 (excluded)
 */
export function cellChance(seed, column, row) {
  let mixed = (seed ^ Math.imul(column, 0x9e3779b1) ^ Math.imul(row, 0x85ebca77)) | 0;
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x21f0aaad);
  mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
  return ((mixed ^ (mixed >>> 15)) >>> 0) / 4294967296;
}

/**
 * Value noise: chance at whole grid points, joined by a curve without kinks in its slope.
 *
 * @param {number} seed
 * @param {number} column in grid cells, any real number
 * @param {number} row in grid cells, any real number
 * @returns {number} from -1 to 1
 */
function valueNoise(seed, column, row) {
  const west = Math.floor(column);
  const south = Math.floor(row);
  const across = fade(column - west);
  const up = fade(row - south);
  const lower = mix(cellChance(seed, west, south), cellChance(seed, west + 1, south), across);
  const upper = mix(cellChance(seed, west, south + 1), cellChance(seed, west + 1, south + 1), across);
  return 2 * mix(lower, upper, up) - 1;
}

/**
 * Fractal noise: value noise summed over octaves, each with half the wavelength and half the height of the one before.
 *
 * @param {number} seed
 * @param {{ eastM: number, northM: number }} point
 * @param {{ wavelengthM: number, octaves: number }} shape wavelength of the longest octave
 * @returns {number} from -1 to 1, mostly within ±0.5
 */
export function fractalNoise(seed, point, { wavelengthM, octaves }) {
  let sum = 0;
  let height = 1;
  let heights = 0;
  let cellsPerM = 1 / wavelengthM;
  for (let octave = 0; octave < octaves; octave++) {
    sum += height * valueNoise(seed + octave * 7919, point.eastM * cellsPerM, point.northM * cellsPerM);
    heights += height;
    height /= 2;
    cellsPerM *= 2;
  }
  return sum / heights;
}

/** @param {number} share from 0 to 1 */
function fade(share) {
  return share * share * share * (share * (share * 6 - 15) + 10);
}

/**
 * @param {number} from
 * @param {number} to
 * @param {number} share
 */
function mix(from, to, share) {
  return from + (to - from) * share;
}
