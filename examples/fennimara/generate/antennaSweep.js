// @ts-check
// One-port sweeps of the gateway's ground-plane antenna, made too long, so that it resonates below the band it is meant for,
// and cut three times. What the instrument sees is the antenna through the lead to it.
import { inventedNotice } from './place.js';
import { openStream } from './random.js';

/** A complex number. @typedef {{ re: number, im: number }} Complex */

const span = { startHz: 800e6, stopHz: 930e6, points: 801 };

const impedanceOhm = 50;

/**
 * The whip at each sweep, as built and after each cut. Each has a file and a random stream of its own: another cut leaves
 * the sweeps before it as they are.
 */
export const sweeps = [
  { file: 'antenna.s1p', stream: 'antenna sweep', state: 'as cut', elementLengthM: 0.079 },
  { file: 'antenna-cut-1.s1p', stream: 'antenna sweep 1', state: 'after one cut', elementLengthM: 0.078 },
  { file: 'antenna-cut-2.s1p', stream: 'antenna sweep 2', state: 'after two cuts', elementLengthM: 0.0772 },
  { file: 'antenna-cut-3.s1p', stream: 'antenna sweep 3', state: 'after three cuts', elementLengthM: 0.0765 },
];

/** One of them. @typedef {(typeof sweeps)[number]} Sweep */

/**
 * Part of the resonant length that the saw does not reach: the foot of the whip and the radials, which keep theirs. Because
 * of it the resonance rises by less than the whip is shortened.
 */
const uncutLengthM = 0.022;

/**
 * The antenna as a series circuit about its resonance. Radiation resistance grows with the square of frequency; the feed's
 * inductance is the few millimetres from the socket to the foot of the whip.
 */
const antenna = {
  builtResonanceHz: 846e6,
  builtLengthM: 0.079,
  resistanceOhm: 38.5,
  capacitanceF: 0.48e-12,
  feedInductanceH: 2.2e-9,
};

/** The lead between instrument and antenna: thin solid-dielectric coax. */
const lead = { lengthM: 0.4, velocityRatio: 0.69, lossDbPerMetreAt1GHz: 0.75 };

/** Spread of the instrument's reading, of each part of S11. */
const noise = 2.5e-4;

/**
 * @param {number} elementLengthM
 * @returns {number} frequency at which the antenna is a pure resistance
 */
export function resonanceOf(elementLengthM) {
  const { builtResonanceHz, builtLengthM } = antenna;
  return (builtResonanceHz * (builtLengthM + uncutLengthM)) / (elementLengthM + uncutLengthM);
}

/**
 * @param {number} seed
 * @param {Sweep} taken
 * @returns {string} a Touchstone 1.1 file
 */
export function antennaSweep(seed, { stream, state, elementLengthM }) {
  const { normal } = openStream(seed, stream);
  const resonanceHz = resonanceOf(elementLengthM);
  const rows = Array.from({ length: span.points }, (_, point) => {
    const frequencyHz = span.startHz + ((span.stopHz - span.startHz) * point) / (span.points - 1);
    const seen = throughLead(reflection(antennaImpedance(frequencyHz, resonanceHz)), frequencyHz);
    const re = (seen.re + noise * normal()).toFixed(6);
    const im = (seen.im + noise * normal()).toFixed(6);
    return `${frequencyHz.toFixed(0)} ${re} ${im}`;
  });
  return `${[...header(state), ...rows].join('\n')}\n`;
}

/**
 * @param {string} state
 * @returns {string[]}
 */
function header(state) {
  return [
    `! ${inventedNotice}`,
    `! Gateway antenna before mounting: quarter-wave ground plane for 868 MHz, four drooping radials, ${state}.`,
    `! Calibrated at the instrument; measured through ${lead.lengthM} m of thin 50 ohm cable, velocity ratio ${lead.velocityRatio}.`,
    '! Columns: frequency, real part of S11, imaginary part of S11.',
    `# HZ S RI R ${impedanceOhm}`,
  ];
}

/**
 * @param {number} frequencyHz
 * @param {number} resonanceHz
 * @returns {Complex} ohms
 */
function antennaImpedance(frequencyHz, resonanceHz) {
  const { resistanceOhm, capacitanceF, feedInductanceH } = antenna;
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
