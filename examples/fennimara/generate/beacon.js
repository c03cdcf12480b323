// @ts-check
// Four weeks of a beacon: a node that stands still and sends every half hour, so that what changes in its level is the weather,
// chance, or the gateway's own feedline. From the third week on water is in a connector of that feedline.
import { toLocal } from './place.js';
import { openStream } from './random.js';
import { createReceiver } from './reception.js';

/** @import { AntennaSite, LocalPoint } from './place.js' */
/** @import { PathLoss } from './radioPath.js' */
/** @import { RandomStream } from './random.js' */
/** @import { Report } from './reception.js' */

/**
 * One frame of the beacon.
 *
 * @typedef {object} BeaconFrame
 * @property {number} timeMs since 1970, UTC
 * @property {number} counter
 * @property {number} temperatureC of the air, as a thermometer at the gateway has it
 * @property {number} waterDb what nature knows and no log says: loss by water in the connector
 * @property {Report | undefined} report
 */

/** The beacon: under the eaves of the threshing floor south of the town, in the open. */
export const beaconNode = {
  name: 'Threshing Floor',
  latitudeDeg: 41.1701,
  longitudeDeg: -37.4291,
  antennaHeightAboveGroundM: 3,
  /** Little power, for a small battery, into an antenna flat against the wall: the margin is small. */
  conductedPowerDbm: 0,
  antennaGainDbi: -4.5,
  /** Steady part of its signal over what scatters on things that move. */
  steadyDb: 16,
  spreadingFactor: 9,
  frequencyHz: 868.1e6,
};

const firstUtc = '2026-05-02T00:10:00Z';
const intervalSeconds = 1800;
const frameCount = 28 * 48;

/**
 * The rains of these weeks. The seal of the connector at the antenna still holds in the first ones; in that of 16 May it
 * fails.
 */
const rains = [
  { startUtc: '2026-05-05T13:00:00Z', hours: 4 },
  { startUtc: '2026-05-11T20:00:00Z', hours: 7 },
  { startUtc: '2026-05-16T22:00:00Z', hours: 5 },
  { startUtc: '2026-05-19T14:00:00Z', hours: 6 },
  { startUtc: '2026-05-23T03:00:00Z', hours: 8 },
  { startUtc: '2026-05-26T18:00:00Z', hours: 9 },
];

/** When the first water gets into the connector: with the third rain. */
export const waterEntersUtc = '2026-05-16T22:00:00Z';

/**
 * Water in the connector. Rain fills the room behind the failed seal within hours, and dry days empty it. From there the
 * screen of the cable draws water up within days, and what it has drawn up does not dry.
 */
const water = { room: { fullDb: 3, fillHours: 7, dryHours: 30 }, screen: { fullDb: 11, drawHours: 130 } };

/**
 * Level of the sender and the receiver in warm air: both lose a little gain.
 */
const gainDbPerK = -0.07;

/** Slow wander by leaves, dew and layers of air, and how fast it forgets itself. */
const wander = { sdDb: 0.3, forgetHours: 1 };

/**
 * @param {object} world
 * @param {number} world.seed
 * @param {AntennaSite} world.site
 * @param {(from: LocalPoint & { antennaHeightAboveGroundM: number }, frequencyHz: number) => PathLoss} world.pathLoss
 * @returns {BeaconFrame[]}
 */
export function beacon({ seed, site, pathLoss }) {
  const weather = openStream(seed, 'beacon: weather');
  const slow = openStream(seed, 'beacon: slow wander');
  const receive = createReceiver({ site, chance: openStream(seed, `beacon: reception at ${site.name}`) });
  const { frequencyHz, spreadingFactor, steadyDb, antennaHeightAboveGroundM } = beaconNode;
  const path = pathLoss({ ...toLocal(beaconNode), antennaHeightAboveGroundM }, frequencyHz);
  const airC = airTemperatures(weather);
  const keep = Math.exp(-intervalSeconds / 3600 / wander.forgetHours);
  let wanderDb = 0;
  const waterDb = waterLosses();
  return airC.map((temperatureC, index) => {
    wanderDb = keep * wanderDb + wander.sdDb * Math.sqrt(1 - keep * keep) * slow.normal();
    const lostDb = (waterDb[index] ?? 0) + wanderDb - gainDbPerK * (temperatureC - 18);
    const now = { ...path, totalDb: path.totalDb + lostDb };
    const report = receive({ transmitter: beaconNode, path: now, spreadingFactor, steadyDb });
    return {
      timeMs: timeMsOf(index),
      counter: index + 1,
      temperatureC: Math.round(10 * temperatureC) / 10,
      waterDb: waterDb[index] ?? 0,
      report,
    };
  });
}

/**
 * The beacon's log as comma-separated values.
 *
 * @param {readonly BeaconFrame[]} frames
 * @returns {string}
 */
export function beaconCsv(frames) {
  const header = 'time_utc,counter,received,rssi_dbm,snr_db,temperature_c';
  const rows = frames.map(({ timeMs, counter, report, temperatureC }) =>
    [
      new Date(timeMs).toISOString().replace('.000', ''),
      counter,
      report ? 1 : 0,
      report ? report.rssiDbm : '',
      report ? report.snrDb.toFixed(2) : '',
      temperatureC.toFixed(1),
    ].join(','),
  );
  return `${[header, ...rows].join('\n')}\n`;
}

/**
 * A line a week, for whoever changes the beacon.
 *
 * @param {readonly BeaconFrame[]} frames
 * @returns {string}
 */
export function beaconTable(frames) {
  const perWeek = 7 * 24 * (3600 / intervalSeconds);
  const weeks = [0, 1, 2, 3].map((week) => {
    const sent = frames.slice(week * perWeek, (week + 1) * perWeek);
    const heard = sent.flatMap(({ report }) => report ?? []);
    const meanSnrDb = heard.reduce((sum, { snrDb }) => sum + snrDb, 0) / heard.length;
    const mostWaterDb = Math.max(...sent.map(({ waterDb }) => waterDb));
    return `Beacon, week ${week + 1}: ${heard.length} of ${sent.length} received, mean SNR ${meanSnrDb.toFixed(1)} dB, water up to ${mostWaterDb.toFixed(1)} dB`;
  });
  return weeks.join('\n');
}

/** @param {number} index */
function timeMsOf(index) {
  return Date.parse(firstUtc) + 1000 * intervalSeconds * index;
}

/**
 * Air temperature: warmest in the middle of the afternoon, each day with a mean and a swing of its own, joined without a jump.
 *
 * @param {RandomStream} chance
 * @returns {number[]} degrees C, frame by frame
 */
function airTemperatures(chance) {
  const days = Array.from({ length: 30 }, () => ({
    meanC: 17.5 + 1.8 * chance.normal(),
    swingC: 5 + 1.2 * chance.normal(),
  }));
  return Array.from({ length: frameCount }, (_, index) => {
    const day = timeMsOf(index) / 86_400_000 - Date.parse('2026-05-02T00:00:00Z') / 86_400_000;
    const [today, tomorrow] = [days[Math.floor(day)], days[Math.floor(day) + 1]];
    const share = day - Math.floor(day);
    const meanC = (today?.meanC ?? 0) * (1 - share) + (tomorrow?.meanC ?? 0) * share;
    const swingC = (today?.swingC ?? 0) * (1 - share) + (tomorrow?.swingC ?? 0) * share;
    // The island's sun stands highest about 14:30 UTC; the air is warmest two hours later.
    return meanC + swingC * Math.cos(2 * Math.PI * (day - 16.5 / 24)) + 0.3 * chance.normal();
  });
}

/**
 * Loss by water, frame by frame.
 *
 * @returns {number[]} dB
 */
function waterLosses() {
  const { room, screen } = water;
  const stepHours = intervalSeconds / 3600;
  /** @param {number} hours */
  const shareIn = (hours) => 1 - Math.exp(-stepHours / hours);
  const entersMs = Date.parse(waterEntersUtc);
  let inRoom = 0;
  let inScreen = 0;
  return Array.from({ length: frameCount }, (_, index) => {
    const timeMs = timeMsOf(index);
    if (timeMs >= entersMs && isRaining(timeMs)) inRoom += (1 - inRoom) * shareIn(room.fillHours);
    else inRoom -= inRoom * shareIn(room.dryHours);
    inScreen += inRoom * (1 - inScreen) * shareIn(screen.drawHours);
    return room.fullDb * inRoom + screen.fullDb * inScreen;
  });
}

/** @param {number} timeMs */
function isRaining(timeMs) {
  return rains.some(({ startUtc, hours }) => {
    const startMs = Date.parse(startUtc);
    return timeMs >= startMs && timeMs < startMs + hours * 3_600_000;
  });
}
