// @ts-check
// What a gateway's receiver makes of one frame: fading, noise, a demodulator with a soft limit, and a report in coarse steps.

/** @import { AntennaSite } from './place.js' */
/** @import { PathLoss } from './radioPath.js' */
/** @import { RandomStream } from './random.js' */

/**
 * @typedef {object} Report
 * @property {number} rssiDbm whole dBm: signal and noise together, as the receiver measures it
 * @property {number} snrDb in steps of 0.25 dB
 */

/**
 * @typedef {object} Transmitter
 * @property {number} conductedPowerDbm
 * @property {number} antennaGainDbi
 */

/**
 * Noise in 125 kHz: thermal noise (-123 dBm), a 6 dB receiver, and 3.5 dB of what a town's switched power supplies add.
 */
const meanNoiseDbm = -113.5;

/** SNR at which half of the frames are read, by spreading factor (semiconductor data sheets agree on these). */
const snrLimitDb = new Map([
  [7, -7.5],
  [8, -10],
  [9, -12.5],
  [10, -15],
  [11, -17.5],
  [12, -20],
]);

/** Share of frames lost to other people's frames, however strong they are. */
const collisionShare = 0.02;

/**
 * @param {{ site: AntennaSite, chance: RandomStream }} receiver
 * @returns {(frame: { transmitter: Transmitter, path: PathLoss, spreadingFactor: number, steadyDb?: number }) => Report | undefined}
 *   nothing when the frame is missed
 */
export function createReceiver({ site, chance }) {
  let noiseWanderDb = 0;
  return ({ transmitter, path, spreadingFactor, steadyDb = 9 - 0.8 * (path.obstacleDb + path.houseDb) }) => {
    // Town noise wanders over minutes rather than jumping from frame to frame.
    noiseWanderDb = 0.97 * noiseWanderDb + 0.2 * chance.normal();
    const noiseDbm = meanNoiseDbm + noiseWanderDb;
    const eirpDbm = transmitter.conductedPowerDbm + transmitter.antennaGainDbi;
    const meanSignalDbm = eirpDbm - path.totalDb + site.antennaGainDbi - site.feedlineLossDb;
    const signalDbm = meanSignalDbm + fadingDb(chance, steadyDb) + 0.8 * chance.normal();

    const collides = chance.uniform() < collisionShare;
    const limitDb = snrLimitDb.get(spreadingFactor) ?? Infinity;
    const readChance = 1 / (1 + Math.exp(-(signalDbm - noiseDbm - limitDb) / 0.45));
    const isRead = chance.uniform() < readChance;
    // Drawn even for a missed frame: every frame takes the same number of draws.
    const [rssiErrorDb, snrErrorDb] = [0.6 * chance.normal(), 0.5 * chance.normal()];
    if (collides || !isRead) return undefined;

    const togetherDbm = 10 * Math.log10(10 ** (signalDbm / 10) + 10 ** (noiseDbm / 10));
    return {
      rssiDbm: Math.round(togetherDbm + rssiErrorDb),
      snrDb: Math.round(4 * (saturated(signalDbm - noiseDbm) + snrErrorDb)) / 4,
    };
  };
}

/**
 * Fading of one frame against the mean of its place: a steady part and a scattered part (Rice). For a carried node the steady
 * part is the weaker the more stands in the way, until nothing of it is left (Rayleigh); round a fixed one little moves.
 *
 * @param {RandomStream} chance
 * @param {number} steadyDb the steady part over the scattered one
 * @returns {number} dB
 */
function fadingDb(chance, steadyDb) {
  const steadyOverScattered = steadyDb < -5.4 ? 0 : 10 ** (steadyDb / 10);
  const scatter = Math.sqrt(1 / (2 * (1 + steadyOverScattered)));
  const steady = Math.sqrt(steadyOverScattered / (1 + steadyOverScattered));
  const inPhase = steady + scatter * chance.normal();
  const across = scatter * chance.normal();
  return 10 * Math.log10(inPhase * inPhase + across * across);
}

/**
 * SNR as a LoRa receiver reports it: right for weak frames, stuck near 12 dB for strong ones.
 *
 * @param {number} snrDb
 */
function saturated(snrDb) {
  const kneeDb = 8;
  const roomDb = 4;
  return snrDb <= kneeDb ? snrDb : kneeDb + roomDb * (1 - Math.exp(-(snrDb - kneeDb) / roomDb));
}
