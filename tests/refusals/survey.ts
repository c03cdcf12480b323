import type { Calls } from './Call.js';

const gateway = { latitudeDeg: 49.2, longitudeDeg: 16.6 };

/** Five frames on the way out of town, one of them missed. */
const observations = [
  [200, -80, 9],
  [400, -90, 8],
  [800, -101, 4],
  [1600, undefined, undefined],
  [3200, -118, -6],
].map(([distanceM, rssiDbm, snrDb], index) => ({
  latitudeDeg: 49.2,
  longitudeDeg: 16.6 + (distanceM ?? 0) / 72_800,
  received: rssiDbm !== undefined,
  timeUtc: `2024-07-24T05:4${index}:00Z`,
  spot: index < 3 ? 'near' : 'far',
  counter: index,
  spreadingFactor: 9,
  bandwidthHz: 125_000,
  frequencyHz: 868.1e6,
  ...(rssiDbm === undefined ? {} : { rssiDbm, snrDb }),
  conductedPowerDbm: 14,
  distanceM,
  line: index + 2,
}));

const fit = {
  interceptDbm: -20,
  exponent: 2.9,
  shadowingDb: 6,
  nearestDistanceM: 200,
  farthestDistanceM: 3200,
  warnings: ['few frames'],
};

export const calls: Calls = {
  deliveryBySpot: [observations, { interval: 'wilson', confidence: 0.9, by: 'spot', gateway }],
  'deliveryRatio of a count': [
    { received: 81, sent: 263 },
    { interval: 'jeffreys', confidence: 0.9 },
  ],
  'deliveryRatio of observations': [observations, { interval: 'clopper-pearson', confidence: 0.95 }],
  effectiveSignalPowerDbm: [{ rssiDbm: -110, snrDb: -5 }],
  fitPathLoss: [observations, { gateway, minimumDistanceM: 100, signal: 'effective', censored: false }],
  groundDistanceM: [gateway, { latitudeDeg: 49.21, longitudeDeg: 16.5 }],
  noisePowerDbm: [{ rssiDbm: -110, snrDb: -5 }],
  predictLevel: [{ fit, distanceM: 1000, outsideValidity: 'refuse' }],
  readSurvey: [
    'latitudeDeg,longitudeDeg,received\n49.2,16.6,1\n',
    { file: 'walk.csv', format: 'csv', receivedOnly: false, onBadRow: 'skip', maximumCharacters: 1000 },
  ],
  surveyCsv: [observations, { separator: ';' }],
};
