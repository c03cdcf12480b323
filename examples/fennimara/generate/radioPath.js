// @ts-check
// What the ground, the houses and chance take from a signal on Fennimara. This stands in for nature, so it shares no code and
// no formula with the packages that are later held against its data: whoever fits a law to the walk must find it wrong
// in the ways in which real ground proves laws wrong.
import { distanceM, toLocal } from './place.js';
import { openStream } from './random.js';

/** @import { AntennaSite, LocalPoint } from './place.js' */
/** @import { Terrain } from './terrain.js' */
/** @import { Houses } from './houses.js' */

/**
 * What a signal loses on its way from a node to an antenna site, slowly varying parts only.
 *
 * @typedef {object} PathLoss
 * @property {number} distanceM along the ground
 * @property {number} freeSpaceDb
 * @property {number} groundDb what the ground's reflection takes
 * @property {number} obstacleDb what hills and banks take
 * @property {number} houseDb what houses take
 * @property {number} shadowDb what nobody has mapped takes; may be negative
 * @property {number} totalDb
 */

/**
 * A cut through the ground from the node (first) to the site (last), heights with the Earth's bulge.
 *
 * @typedef {object} Profile
 * @property {number} stepM
 * @property {number} wavelengthM
 * @property {number[]} groundM
 * @property {number} nodeM height of the node's antenna
 * @property {number} siteM height of the site's antenna
 */

const speedOfLight = 299792458;

/** The bending of rays in ordinary air, put into the Earth: 4/3 of its radius. */
const bentEarthRadiusM = (4 / 3) * 6371000;

const profileStepM = 10;

/** Shadowing: spread, and the distance over which it forgets itself (correlation 1/e). */
const shadowing = { sdDb: 3.8, forgetM: 80, waves: 240 };

/**
 * @param {{ seed: number, terrain: Terrain, houses: Houses, site: AntennaSite }} world
 * @returns {(from: LocalPoint & { antennaHeightAboveGroundM: number }, frequencyHz: number) => PathLoss}
 */
export function createRadioPath({ seed, terrain, houses, site }) {
  // The obstacles of one site's paths are not those of another's: each site has a shadow map of its own.
  const shadowAt = shadowMap(seed, `shadowing of ${site.name}`);
  const sitePoint = toLocal(site);
  return (from, frequencyHz) => {
    const lengthM = distanceM(from, sitePoint);
    const profile = cutProfile({ terrain, site, from, wavelengthM: speedOfLight / frequencyHz });
    const slantM = Math.hypot(lengthM, profile.siteM - profile.nodeM);
    const freeSpaceDb = 20 * Math.log10((4 * Math.PI * slantM) / profile.wavelengthM);
    const tips = [profile.nodeM, ...profile.groundM.slice(1, -1), profile.siteM];
    const obstacleDb = obstacleLossDb(tips, profile, { first: 0, last: tips.length - 1, depth: 2 });
    // Where an obstacle hides the middle of the path there is no reflecting ground in view either.
    const groundDb = reflectionLossDb(profile, lengthM) * Math.exp(-obstacleDb / 9);
    const houseDb = houseLossDb({ houses, from, sitePoint, profile, lengthM });
    const shadowDb = shadowAt(from);
    const totalDb = freeSpaceDb + groundDb + obstacleDb + houseDb + shadowDb;
    return { distanceM: lengthM, freeSpaceDb, groundDb, obstacleDb, houseDb, shadowDb, totalDb };
  };
}

/**
 * @param {{ terrain: Terrain, site: AntennaSite, from: LocalPoint & { antennaHeightAboveGroundM: number }, wavelengthM: number }} ends
 * @returns {Profile}
 */
function cutProfile({ terrain, site, from, wavelengthM }) {
  const to = toLocal(site);
  const lengthM = distanceM(from, to);
  const steps = Math.max(4, Math.round(lengthM / profileStepM));
  const groundM = Array.from({ length: steps + 1 }, (_, step) => {
    const share = step / steps;
    const bulgeM = (share * (1 - share) * lengthM * lengthM) / (2 * bentEarthRadiusM);
    const point = {
      eastM: from.eastM + share * (to.eastM - from.eastM),
      northM: from.northM + share * (to.northM - from.northM),
    };
    return terrain.heightM(point) + bulgeM;
  });
  return {
    stepM: lengthM / steps,
    wavelengthM,
    groundM,
    nodeM: terrain.heightM(from) + from.antennaHeightAboveGroundM,
    siteM: terrain.heightM(to) + site.antennaHeightAboveGroundM,
  };
}

/**
 * Loss over hills by the strongest obstacle first (Deygout's way): the edge that reaches deepest into the path counts
 * whole, then each side of it is looked at again with the edge's tip as its end.
 *
 * @param {readonly number[]} tips heights of the antennas (first and last) and of the ground between
 * @param {Profile} profile
 * @param {{ first: number, last: number, depth: number }} part
 * @returns {number} dB
 */
function obstacleLossDb(tips, profile, { first, last, depth }) {
  const main = strongestEdge(tips, profile, first, last);
  // A side edge must truly stand in the way, or the shoulders of one round hill would count as three hills.
  const isWhole = first === 0 && last === tips.length - 1;
  if (main.nu < (isWhole ? -0.8 : 0)) return 0;
  const ownDb = knifeEdgeLossDb(main.nu);
  if (depth === 0) return ownDb;
  const nodeSideDb = obstacleLossDb(tips, profile, { first, last: main.index, depth: depth - 1 });
  const siteSideDb = obstacleLossDb(tips, profile, { first: main.index, last, depth: depth - 1 });
  return ownDb + nodeSideDb + siteSideDb;
}

/**
 * @param {readonly number[]} tips
 * @param {Profile} profile
 * @param {number} first
 * @param {number} last
 * @returns {{ index: number, nu: number }} the edge with the greatest Fresnel-Kirchhoff parameter
 */
function strongestEdge(tips, { stepM, wavelengthM }, first, last) {
  const [startM, endM] = [tips[first] ?? 0, tips[last] ?? 0];
  // Ground within some 60 m of an earlier edge belongs to that edge.
  const apart = Math.ceil(60 / stepM);
  const from = first + (first === 0 ? 1 : apart);
  const to = last - (last === tips.length - 1 ? 1 : apart);
  const strongest = { index: first, nu: -Infinity };
  for (let index = from; index <= to; index++) {
    const share = (index - first) / (last - first);
    const aboveM = (tips[index] ?? 0) - (startM + share * (endM - startM));
    const spanM = (last - first) * stepM;
    const nu = aboveM * Math.sqrt(2 / (wavelengthM * share * (1 - share) * spanM));
    if (nu > strongest.nu) Object.assign(strongest, { index, nu });
  }
  return strongest;
}

/**
 * Diffraction at one knife edge, from the Fresnel integral itself.
 *
 * @param {number} nu
 * @returns {number} dB, 6.02 at 0
 * @source Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 7.3.9, 7.3.10, 7.3.32, 7.3.33
 */
function knifeEdgeLossDb(nu) {
  const x = Math.abs(nu);
  const f = (1 + 0.926 * x) / (2 + 1.792 * x + 3.104 * x * x);
  const g = 1 / (2 + 4.142 * x + 3.492 * x * x + 6.67 * x * x * x);
  if (nu >= 0) return -10 * Math.log10((f * f + g * g) / 2);
  const phase = (Math.PI / 2) * x * x;
  const cosine = 1 + f * Math.sin(phase) - g * Math.cos(phase);
  const sine = 1 - f * Math.cos(phase) - g * Math.sin(phase);
  return -10 * Math.log10((cosine * cosine + sine * sine) / 2);
}

/**
 * Direct ray and ground reflection: nothing near by, the fourth-power law far off, the two summed as powers of loss so
 * that the break has no corner. Antenna heights count from the straight line that fits the ground best.
 *
 * @param {Profile} profile
 * @param {number} lengthM
 * @returns {number} dB beyond free space, 0 or more
 */
function reflectionLossDb(profile, lengthM) {
  const { groundM, nodeM, siteM, wavelengthM } = profile;
  const count = groundM.length;
  const meanM = groundM.reduce((sum, height) => sum + height, 0) / count;
  let tilt = 0;
  let spread = 0;
  groundM.forEach((height, index) => {
    const fromMiddle = index / (count - 1) - 0.5;
    tilt += fromMiddle * (height - meanM);
    spread += fromMiddle * fromMiddle;
  });
  const riseM = tilt / spread;
  const nodeHeightM = Math.max(nodeM - (groundM.at(0) ?? 0), nodeM - (meanM - riseM / 2));
  const siteHeightM = Math.max(siteM - (groundM.at(-1) ?? 0), siteM - (meanM + riseM / 2));
  const breakpointM = (4 * Math.PI * nodeHeightM * siteHeightM) / wavelengthM;
  return 10 * Math.log10(1 + (lengthM / breakpointM) ** 2);
}

/**
 * Houses between node and site: the more metres of the straight ray run through roofs, the more is lost, up to a limit,
 * because the signal then comes over the roofs and along the streets.
 *
 * @param {{ houses: Houses, from: LocalPoint, sitePoint: LocalPoint, profile: Profile, lengthM: number }} path
 * @returns {number} dB
 */
function houseLossDb({ houses, from, sitePoint, profile, lengthM }) {
  const { groundM, nodeM, siteM } = profile;
  const steps = Math.ceil(lengthM / 3);
  let throughM = 0;
  for (let step = 1; step < steps; step++) {
    const share = step / steps;
    const roofM = houses.roofM({
      eastM: from.eastM + share * (sitePoint.eastM - from.eastM),
      northM: from.northM + share * (sitePoint.northM - from.northM),
    });
    if (roofM === 0) continue;
    const standsM = groundM[Math.round(share * (groundM.length - 1))] ?? 0;
    const aboveRayM = standsM + roofM - (nodeM + share * (siteM - nodeM));
    throughM += (lengthM / steps) * Math.min(1, Math.max(0, aboveRayM / 3));
  }
  return 17 * (1 - Math.exp(-throughM / 45));
}

/**
 * A Gaussian field with correlation exp(-distance / forgetM), made of many plane waves. The share of waves up to a wave
 * number k is 1 - 1/sqrt(1 + (k forgetM)²), the spectrum that belongs to that correlation in the plane.
 *
 * @param {number} seed
 * @param {string} label
 * @returns {(point: LocalPoint) => number} dB
 */
function shadowMap(seed, label) {
  const { uniform } = openStream(seed, label);
  const { sdDb, forgetM, waves } = shadowing;
  const field = Array.from({ length: waves }, () => {
    const waveNumber = Math.sqrt(1 / (1 - uniform()) ** 2 - 1) / forgetM;
    const bearing = 2 * Math.PI * uniform();
    return {
      east: waveNumber * Math.cos(bearing),
      north: waveNumber * Math.sin(bearing),
      phase: 2 * Math.PI * uniform(),
    };
  });
  const heightDb = sdDb * Math.sqrt(2 / waves);
  return ({ eastM, northM }) =>
    heightDb *
    field.reduce((sum, { east, north, phase }) => sum + Math.cos(east * eastM + north * northM + phase), 0);
}
