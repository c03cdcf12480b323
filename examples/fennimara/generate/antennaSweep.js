// @ts-check
// A one-port sweep of the gateway's ground-plane antenna, cut a little too long: it resonates below the band it is meant
// for. What the instrument sees is the antenna through the lead to it.
import { inventedNotice } from './place.js';
import { openStream } from './random.js';

/** A complex number. @typedef {{ re: number, im: number }} Complex */

const sweep = { startHz: 800e6, stopHz: 930e6, points: 801 };

const impedanceOhm = 50;

/**
 * The antenna as a series circuit about its resonance. Radiation resistance grows with the square of frequency; the feed's
 * inductance is the few millimetres from the socket to the foot of the whip.
 */
const antenna = { resonanceHz: 846e6, resistanceOhm: 38.5, capacitanceF: 0.48e-12, feedInductanceH: 2.2e-9 };

/** The lead between instrument and antenna: thin solid-dielectric coax. */
const lead = { lengthM: 0.4, velocityRatio: 0.69, lossDbPerMetreAt1GHz: 0.75 };

/** Spread of the instrument's reading, of each part of S11. */
const noise = 2.5e-4;

/**
 * @param {number} seed
 * @returns {string} a Touchstone 1.1 file
 */
export function antennaSweep(seed) {
  const { normal } = openStream(seed, 'antenna sweep');
  const rows = Array.from({ length: sweep.points }, (_, point) => {
    const frequencyHz = sweep.startHz + ((sweep.stopHz - sweep.startHz) * point) / (sweep.points - 1);
    const seen = throughLead(reflection(antennaImpedance(frequencyHz)), frequencyHz);
    const re = (seen.re + noise * normal()).toFixed(6);
    const im = (seen.im + noise * normal()).toFixed(6);
    return `${frequencyHz.toFixed(0)} ${re} ${im}`;
  });
  return `${[...header(), ...rows].join('\n')}\n`;
}

/** @returns {string[]} */
function header() {
  return [
    `! ${inventedNotice}`,
    '! Gateway antenna before mounting: quarter-wave ground plane for 868 MHz, four drooping radials, as cut.',
    `! Calibrated at the instrument; measured through ${lead.lengthM} m of thin 50 ohm cable, velocity ratio ${lead.velocityRatio}.`,
    '! Columns: frequency, real part of S11, imaginary part of S11.',
    `# HZ S RI R ${impedanceOhm}`,
  ];
}

/**
 * @param {number} frequencyHz
 * @returns {Complex} ohms
 */
function antennaImpedance(frequencyHz) {
  const { resonanceHz, resistanceOhm, capacitanceF, feedInductanceH } = antenna;
  const turns = 2 * Math.PI * frequencyHz;
  // The whip's own inductance is what, with the feed's, resonates with the capacitance at the stated frequency.
  const whipInductanceH = 1 / ((2 * Math.PI * resonanceHz) ** 2 * capacitanceF) - feedInductanceH;
  return {
    re: resistanceOhm * (frequencyHz / resonanceHz) ** 2,
    im: turns * (whipInductanceH + feedInductanceH) - 1 / (turns * capacitanceF),
  };
}

/**
 * Reflection coefficient (Z - R)/(Z + R).
 *
 * @param {Complex} impedance
 * @returns {Complex}
 */
function reflection({ re, im }) {
  const over = (re + impedanceOhm) ** 2 + im ** 2;
  return { re: (re ** 2 - impedanceOhm ** 2 + im ** 2) / over, im: (2 * impedanceOhm * im) / over };
}

/**
 * The reflection as seen at the near end of the lead: turned and weakened on the way there and back.
 *
 * @param {Complex} reflected
 * @param {number} frequencyHz
 * @returns {Complex}
 */
function throughLead({ re, im }, frequencyHz) {
  const { lengthM, velocityRatio, lossDbPerMetreAt1GHz } = lead;
  // Loss of the conductor's skin grows with the root of frequency.
  const roundTripDb = 2 * lengthM * lossDbPerMetreAt1GHz * Math.sqrt(frequencyHz / 1e9);
  const size = 10 ** (-roundTripDb / 20);
  const angle = (-4 * Math.PI * frequencyHz * lengthM) / (velocityRatio * 299792458);
  const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
  return { re: size * (re * cosine - im * sine), im: size * (re * sine + im * cosine) };
}
