// @ts-check
// The coverage walk: every frame the node sent, missed ones included, as the node's own log and the gateway's tell it together.
import { distanceM, node, toGeographic } from './place.js';
import { openStream } from './random.js';
import { createReceiver } from './reception.js';
import { usualRounds, walks } from './walkRoute.js';

/** @import { AntennaSite, LocalPoint } from './place.js' */
/** @import { PathLoss } from './radioPath.js' */
/** @import { Report } from './reception.js' */
/** @import { Terrain } from './terrain.js' */
/** @import { Outing, Spot } from './walkRoute.js' */

/**
 * One frame sent.
 *
 * @typedef {object} SentFrame
 * @property {number} timeMs since 1970, UTC
 * @property {string} spot
 * @property {boolean} hollow
 * @property {'ridge' | 'houses' | undefined} behind
 * @property {number} latitudeDeg as the node's satellite receiver had it
 * @property {number} longitudeDeg
 * @property {number} counter
 * @property {number} spreadingFactor
 * @property {PathLoss} path what nature knows and no log says
 * @property {Report | undefined} report
 */

/**
 * Seconds from one frame to the next: a hundred times the time on air of a 17-byte frame in 125 kHz (51, 165 and
 * 1319 ms), rounded up, which keeps the 1 % duty cycle of the sub-band frame by frame.
 */
const frameIntervalSeconds = new Map([
  [7, 6],
  [9, 17],
  [12, 132],
]);

/** Streets and paths are longer than the straight line. */
const detour = 1.3;

/**
 * @param {object} world
 * @param {number} world.seed
 * @param {Terrain} world.terrain
 * @param {AntennaSite} world.site
 * @param {(from: LocalPoint & { antennaHeightAboveGroundM: number }, frequencyHz: number) => PathLoss} world.pathLoss
 * @returns {SentFrame[]}
 */
export function walk({ seed, terrain, site, pathLoss }) {
  const steps = openStream(seed, 'walk: steps and clock');
  const satellites = openStream(seed, 'walk: satellite receiver');
  const receive = createReceiver({ site, chance: openStream(seed, `walk: reception at ${site.name}`) });
  /** @type {SentFrame[]} */
  const sent = [];
  /** @param {PlannedFrame} planned */
  const send = (planned) => {
    const { spot, fixErrorM, spreadingFactor, timeMs } = planned;
    const counter = sent.length + 1;
    const here = stepAside(planned.at, steps, 1.2);
    const channel = Math.floor(steps.uniform() * node.channelsHz.length);
    const antenna = { ...here, antennaHeightAboveGroundM: node.antennaHeightAboveGroundM };
    const path = pathLoss(antenna, node.channelsHz[channel] ?? Number.NaN);
    const fix = stepAside(
      { eastM: here.eastM + fixErrorM.eastM, northM: here.northM + fixErrorM.northM },
      satellites,
      0.8,
    );
    const report = receive({ transmitter: node, path, spreadingFactor });
    const { spot: name, hollow = false, behind } = spot;
    const place = { spot: name, hollow, behind, ...toGeographic(fix) };
    sent.push({ timeMs, ...place, counter, spreadingFactor, path, report });
  };
  for (const outings of walks) planFrames(outings, terrain, steps).forEach(send);
  return sent;
}

/**
 * The walk as comma-separated values, RFC 4180 but for its line ends.
 *
 * @param {readonly SentFrame[]} frames
 * @returns {string}
 */
export function toCsv(frames) {
  const header = 'time_utc,spot,latitude_deg,longitude_deg,counter,spreading_factor,received,rssi_dbm,snr_db';
  const rows = frames.map(({ timeMs, spot, latitudeDeg, longitudeDeg, counter, spreadingFactor, report }) =>
    [
      new Date(timeMs).toISOString().replace('.000', ''),
      spot,
      latitudeDeg.toFixed(6),
      longitudeDeg.toFixed(6),
      counter,
      spreadingFactor,
      report ? 1 : 0,
      report ? report.rssiDbm : '',
      report ? report.snrDb.toFixed(2) : '',
    ].join(','),
  );
  return `${[header, ...rows].join('\n')}\n`;
}

/**
 * @typedef {{ spot: Spot, at: LocalPoint, fixErrorM: LocalPoint, spreadingFactor: number, timeMs: number }} PlannedFrame
 */

/**
 * Who sends when and where: outing after outing, spot after spot, round after round.
 *
 * @param {readonly Outing[]} outings
 * @param {Terrain} terrain
 * @param {import('./random.js').RandomStream} chance
 * @returns {PlannedFrame[]}
 */
function planFrames(outings, terrain, chance) {
  /** @type {PlannedFrame[]} */
  const frames = [];
  for (const { startUtc, speedMps, spots } of outings) {
    let timeMs = Date.parse(startUtc);
    /** @type {LocalPoint | undefined} */
    let before;
    for (const spot of spots) {
      const at = spot.hollow ? lowestNear(terrain, spot.at) : spot.at;
      const onTheWayM = before ? detour * distanceM(before, at) : 0;
      timeMs += 1000 * Math.round(onTheWayM / speedMps + 40 + 30 * chance.uniform());
      before = at;
      // One error a visit: a standing receiver keeps its error for minutes.
      const fixErrorM = { eastM: 3 * chance.normal(), northM: 3 * chance.normal() };
      for (const { spreadingFactor, frames: count } of spot.rounds ?? usualRounds) {
        for (let frame = 0; frame < count; frame++) {
          frames.push({ spot, at, fixErrorM, spreadingFactor, timeMs });
          const waitSeconds =
            (frameIntervalSeconds.get(spreadingFactor) ?? 0) + Math.floor(2 * chance.uniform());
          timeMs += 1000 * waitSeconds;
        }
      }
    }
  }
  return frames;
}

/**
 * Way down to the bed of a wash: the lowest ground within 110 m.
 *
 * @param {Terrain} terrain
 * @param {LocalPoint} near
 * @returns {LocalPoint}
 */
function lowestNear(terrain, near) {
  let lowest = near;
  for (let eastM = -110; eastM <= 110; eastM += 5) {
    for (let northM = -110; northM <= 110; northM += 5) {
      const point = { eastM: near.eastM + eastM, northM: near.northM + northM };
      if (terrain.heightM(point) < terrain.heightM(lowest)) lowest = point;
    }
  }
  return lowest;
}

/**
 * @param {LocalPoint} point
 * @param {import('./random.js').RandomStream} chance
 * @param {number} sdM
 * @returns {LocalPoint}
 */
function stepAside({ eastM, northM }, chance, sdM) {
  return { eastM: eastM + sdM * chance.normal(), northM: northM + sdM * chance.normal() };
}
