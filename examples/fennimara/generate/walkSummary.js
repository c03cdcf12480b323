// @ts-check
// A table of the walk, spot by spot and nearest first, for whoever changes the island and must see what became of it.

/** @import { SentFrame } from './walk.js' */

/**
 * @typedef {object} SpotSummary
 * @property {string} spot
 * @property {boolean} hollow
 * @property {'ridge' | 'houses' | undefined} behind
 * @property {number} spreadingFactor
 * @property {number} distanceM
 * @property {number} sent
 * @property {number} received
 * @property {number} obstacleDb mean over the frames
 * @property {number} totalDb mean over the frames
 */

/**
 * @param {readonly SentFrame[]} frames
 * @returns {SpotSummary[]} one a spot and spreading factor, nearest first
 */
export function summarise(frames) {
  /** @type {Map<string, SentFrame[]>} */
  const rounds = new Map();
  for (const frame of frames) {
    const name = `${frame.spot} ${frame.spreadingFactor}`;
    rounds.set(name, [...(rounds.get(name) ?? []), frame]);
  }
  return [...rounds.values()]
    .flatMap((round) => {
      const [first] = round;
      if (!first) return [];
      const { spot, hollow, behind, spreadingFactor, path } = first;
      const received = round.filter(({ report }) => report).length;
      const obstacleDb = mean(round.map((frame) => frame.path.obstacleDb));
      const totalDb = mean(round.map((frame) => frame.path.totalDb));
      return {
        spot,
        hollow,
        behind,
        spreadingFactor,
        distanceM: path.distanceM,
        sent: round.length,
        received,
        obstacleDb,
        totalDb,
      };
    })
    .sort((one, other) => one.distanceM - other.distanceM);
}

/**
 * @param {readonly SentFrame[]} frames
 * @returns {string}
 */
export function summaryTable(frames) {
  const lines = summarise(frames).map(
    ({ spot, hollow, behind, spreadingFactor, distanceM, sent, received, obstacleDb, totalDb }) =>
      [
        spot.padEnd(22),
        (hollow ? 'wash' : (behind ?? '')).padEnd(6),
        `${distanceM.toFixed(0)} m`.padStart(7),
        `SF${spreadingFactor}`.padStart(5),
        `${received} of ${sent}`.padStart(9),
        `${((100 * received) / sent).toFixed(0)} %`.padStart(6),
        `${obstacleDb.toFixed(0)} dB`.padStart(6),
        `${totalDb.toFixed(0)} dB`.padStart(7),
      ].join(' '),
  );
  const received = frames.filter(({ report }) => report).length;
  return [
    `spot                          distance   SF  received  share  hills   total`,
    ...lines,
    `All: ${received} of ${frames.length} frames received, ${((100 * received) / frames.length).toFixed(1)} %`,
  ].join('\n');
}

/** @param {readonly number[]} values */
function mean(values) {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
