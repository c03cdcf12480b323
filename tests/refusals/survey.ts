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

const calibration = {
  pivotDbm: -100,
  levelDbm: -104,
  slopeRatio: 0.9,
  remainingSpreadDb: 6,
  predictedSpreadDb: 12,
  heardSpots: 12,
  lowestPredictedDbm: -130,
  highestPredictedDbm: -70,
};

/** Frames counted at three spots. */
const spots = [
  { received: 20, sent: 20 },
  { received: 15, sent: 20 },
  { received: 4, sent: 12 },
];

/** An hourly beacon that wanders a little and loses 5 dB near the end. */
const beaconSeries = Array.from({ length: 80 }, (_, hour) => ({
  timeSeconds: hour * 3600,
  levelDbm: -100 + ((hour * 7) % 5) - (hour < 65 ? 0 : 5),
  temperatureC: 10 + ((hour * 5) % 24),
}));

/** A map of three by three cells, one of them without data, and the walk that puts it right. */
const surveyed = {
  prediction: {
    columns: 3,
    rows: 3,
    cellM: 400,
    origin: gateway,
    powerDbm: Float32Array.of(-120, -121, -122, -118, Number.NaN, -119, -124, -126, -125),
  },
  spots: [
    { latitudeDeg: 49.203, longitudeDeg: 16.601, residualDb: 3, frames: 10 },
    { latitudeDeg: 49.201, longitudeDeg: 16.604, residualDb: -4, frames: 12 },
    { latitudeDeg: 49.197, longitudeDeg: 16.603, residualBelowDb: -6, frames: 8 },
    { latitudeDeg: 49.198, longitudeDeg: 16.597, residualDb: 1, frames: 9 },
  ],
  shadowing: { shadowingDb: 7, decorrelationM: 300, nuggetDb: 3 },
  trend: 'constant',
};

/** Residuals at twelve places on the plane around the gateway. */
const planeSamples = [-6, -5, -1, 3, 4, 8, 6, 2, -3, -4, 1, 5].map((levelDb, index) => ({
  eastM: 100 * index + 50,
  northM: 40 * (index % 3),
  levelDb,
  frames: 1 + (index % 4),
}));

/** A minute of a walk to the east, and what the gateway heard of it. */
const track = [0, 30, 59].map((second, index) => ({
  timeUtc: `2024-07-24T06:00:${String(second).padStart(2, '0')}Z`,
  latitudeDeg: 49.2,
  longitudeDeg: 16.61 + second / 50_000,
  elevationM: 230,
  segmentIndex: 0,
  line: index + 2,
}));
const uplinks = [1, 2, 4, 5].map((counter, index) => ({
  timeUtc: `2024-07-24T06:00:${counter}0Z`,
  counter,
  device: 'node',
  gateway: 'roof',
  spreadingFactor: 9,
  bandwidthHz: 125_000,
  frequencyHz: 868.1e6,
  rssiDbm: -110,
  snrDb: -3,
  line: index + 2,
}));
/** Twelve uplinks, which is enough to compare levels with distances. */
const manyUplinks = Array.from({ length: 12 }, (_, index) => ({
  timeUtc: `2024-07-24T06:00:${20 + index}Z`,
  rssiDbm: -90 - index,
  snrDb: 5,
}));

export const calls: Calls = {
  estimateClockOffset: [track, manyUplinks, { method: 'levels', gateway, startSeconds: 0, reachSeconds: 5 }],
  joinTrack: [
    track,
    uplinks,
    {
      device: 'node',
      gatewayName: 'roof',
      gateway,
      clockOffsetSeconds: 0,
      periodSeconds: 10,
      counterBits: 16,
      firstCounter: 0,
      lastCounter: 5,
      node: { spreadingFactor: 9, bandwidthHz: 125_000, frequencyHz: 868.1e6, conductedPowerDbm: 14 },
      maximumGapSeconds: 30,
      maximumMissedFrames: 100,
    },
  ],
  'joinTrack with a list': [
    track,
    uplinks,
    { sent: [{ counter: 1 }, { counter: 2 }, { counter: 4 }, { counter: 5 }] },
  ],
  beaconDrift: [
    beaconSeries,
    {
      referenceCount: 50,
      averageRunLengthCount: 500,
      weightRatio: 0.1,
      stepDb: 3,
      resolutionDb: 1,
      temperature: 'regress',
      heartbeatSeconds: 3600,
      outageFrames: 3,
      untilSeconds: 80 * 3600,
    },
  ],
  coverageStatement: [
    {
      spots: [
        { spot: 'bridge', received: 60, sent: 60, distanceM: 1200 },
        { spot: 'mill', received: 12, sent: 20, distanceM: 2400 },
      ],
      node: { heightM: 1.5, spreadingFactor: 9, eirpDbm: 14 },
      targetRatio: 0.9,
      confidence: 0.95,
      claim: 'together',
      spotChoice: 'random',
      fit: {
        interceptDbm: -20,
        exponent: 2.9,
        shadowingDb: 6,
        nearestDistanceM: 200,
        farthestDistanceM: 3200,
        excluded: { missedFrames: 0, tooNearFrames: 1, noSignalFrames: 2 },
      },
      thresholdDbm: -129,
      calibration: { verdict: 'optimistic by 4 ± 2 dB' },
      pace: {
        possible: true,
        timeOnAirSeconds: 0.185,
        minimumIntervalSeconds: 18.5,
        framesPerHour: 194,
        book: 'EU 868 to 868.6 MHz',
      },
      applicationBytes: 12,
    },
  ],
  areaFromEdge: [{ edgeMarginDb: 5, exponent: 3.5, shadowingDb: 8 }],
  deliveryAcrossSpots: [spots, { confidence: 0.9, correlation: 0.1 }],
  deliveryClaim: [{ received: 18, sent: 20 }, { confidence: 0.95 }],
  designEffect: [{ spotFrames: 20, correlation: 0.1 }],
  edgeFromArea: [{ areaProbability: 0.9, exponent: 3.5, shadowingDb: 8 }],
  exponentStandardError: [{ shadowingDb: 8, spotCount: 40, nearestDistanceM: 100, farthestDistanceM: 5000 }],
  fitBetaBinomial: [spots],
  framesForWidth: [{ expectedRatio: 0.9, halfWidthRatio: 0.05, confidence: 0.95 }],
  framesToProve: [{ atLeastRatio: 0.9, missedFrames: 1, confidence: 0.95 }],
  gatewayNoise: [observations, { noiseFigureDb: 6, highestSnrDb: 5, loudNoiseDb: 3, bandwidthHz: 125e3 }],
  logNormalMarginDb: [{ probability: 0.9, shadowingDb: 8 }],
  overdispersion: [spots],
  predictionMarginDb: [{ probability: 0.9, sampleDeviationDb: 8, spotCount: 12 }],
  rayleighFadeDb: [0.1],
  spotTable: [observations, { interval: 'wilson', confidence: 0.9, by: 'spot', gateway, spreadingFactor: 9 }],
  spotsForMean: [{ shadowingDb: 8, halfWidthDb: 2, confidence: 0.95 }],
  surveySize: [
    { expectedRatio: 0.9, halfWidthRatio: 0.05, spotFrames: 20, correlation: 0.1, confidence: 0.95 },
  ],
  suzukiFadeDb: [{ probability: 0.1, shadowingDb: 6 }],
  toleranceMarginDb: [{ probability: 0.9, confidence: 0.95, sampleDeviationDb: 8, spotCount: 20 }],
  bootstrapBySpot: {
    args: [
      [0.4, 0.9, 0.7],
      (drawn: readonly number[]) =>
        drawn.reduce((sum, ratio) => sum + (typeof ratio === 'number' ? ratio : Number.NaN), 0) /
        drawn.length,
      { confidence: 0.9, interval: 'corrected', drawCount: 100, seed: 3 },
    ],
    // Spots are whatever the caller's own figure takes.
    constants: ['spots[0]', 'spots[1]', 'spots[2]'],
  },
  calibrate: [
    [-75, -84, -99, -110, -112],
    observations,
    {
      by: 'spot',
      signal: 'effective',
      gateway,
      thresholdDbm: -120,
      confidence: 0.9,
      withinM: [1000, 5000],
      terms: { clutter: [0, 3, 5, 4, 9] },
    },
  ],
  calibratedLevel: [{ calibration, predictedDbm: -110, confidence: 0.9, outsideValidity: 'refuse' }],
  conformalMargin: [
    [-75, -84, -99, -110, -112],
    observations,
    {
      by: 'position',
      signal: 'effective',
      gateway,
      thresholdDbm: -120,
      confidence: 0.6,
      side: 'both',
      offsetSpotRatio: 0.2,
      seed: 2,
    },
  ],
  conformalQuantile: [{ scoresDb: [3, 1, 2], unboundedSpots: 1, confidence: 0.6 }],
  deliveryBySpot: [observations, { interval: 'wilson', confidence: 0.9, by: 'spot', gateway }],
  'deliveryRatio of a count': [
    { received: 81, sent: 263 },
    { interval: 'jeffreys', confidence: 0.9 },
  ],
  'deliveryRatio of observations': [observations, { interval: 'clopper-pearson', confidence: 0.95 }],
  effectiveSignalPowerDbm: [{ rssiDbm: -110, snrDb: -5 }],
  fitPathLoss: [observations, { gateway, minimumDistanceM: 100, signal: 'effective', censored: false }],
  'fitPathLoss with missed frames': [
    observations,
    {
      gateway,
      minimumDistanceM: 100,
      signal: 'effective',
      censored: true,
      thresholdDbm: { 9: -129 },
      referencePowerDbm: 14,
      slopeCount: 1,
      constantLoss: true,
      confidence: 0.9,
      statedDistancesM: [1000, 2000],
    },
  ],
  groundDistanceM: [gateway, { latitudeDeg: 49.21, longitudeDeg: 16.5 }],
  noisePowerDbm: [{ rssiDbm: -110, snrDb: -5 }],
  predictLevel: [{ fit, distanceM: 1000, outsideValidity: 'refuse' }],
  readSurvey: [
    'latitudeDeg,longitudeDeg,received\n49.2,16.6,1\n',
    { file: 'walk.csv', format: 'csv', receivedOnly: false, onBadRow: 'skip', maximumCharacters: 1000 },
  ],
  readBeacon: [
    'timeUtc,received,rssiDbm\n2024-07-24T06:00:00Z,1,-100\n',
    { file: 'beacon.csv', onBadRow: 'skip', maximumCharacters: 1000 },
  ],
  readTrack: [
    'timeUtc,latitudeDeg,longitudeDeg\n2024-07-24T06:00:00Z,49.2,16.6\n',
    { file: 'walk.csv', format: 'csv', onBadRow: 'skip', maximumCharacters: 1000 },
  ],
  readUplinks: [
    'timeUtc,counter\n2024-07-24T06:00:00Z,1\n',
    { file: 'log.csv', format: 'csv', onBadRow: 'skip', maximumCharacters: 1000 },
  ],
  surveyCsv: [observations, { separator: ';' }],
  decorrelationM: [{ correlationRatio: 0.82, distanceM: 100 }],
  empiricalVariogram: [planeSamples, { cutoffM: 600, classCount: 4 }],
  fitShadowing: [planeSamples, { likelihood: 'full', trend: 'log-distance', decorrelationM: 300 }],
  fitVariogram: [
    [50, 150, 300, 600].map((distanceM) => ({
      pairCount: 40,
      distanceM,
      semivarianceDb2: 4 + 64 * (1 - Math.exp(-distanceM / 300)),
    })),
  ],
  krige: [
    planeSamples,
    { shadowing: surveyed.shadowing, targets: [{ eastM: 320, northM: 70 }], trend: 'log-distance' },
  ],
  mapReception: {
    args: [{ ...surveyed, dataRates: [{ name: 'SF9', requiredPowerDbm: -129 }] }],
    noData: ['question.prediction.powerDbm'],
  },
  'nextSpots of candidates': {
    args: [
      {
        ...surveyed,
        requiredPowerDbm: -125,
        candidates: [
          { latitudeDeg: 49.202, longitudeDeg: 16.598 },
          { latitudeDeg: 49.199, longitudeDeg: 16.605 },
        ],
        stepM: 100,
        spotCount: 2,
        frames: 10,
      },
    ],
    noData: ['question.prediction.powerDbm'],
  },
  'nextSpots along streets': {
    args: [
      {
        ...surveyed,
        streets: [
          [
            { latitudeDeg: 49.202, longitudeDeg: 16.598 },
            { latitudeDeg: 49.199, longitudeDeg: 16.605 },
          ],
        ],
        stepM: 100,
        spotCount: 2,
        frames: 10,
      },
    ],
    noData: ['question.prediction.powerDbm'],
  },
  planeOffset: [{ origin: gateway, position: { latitudeDeg: 49.21, longitudeDeg: 16.5 } }],
  planePosition: [{ origin: gateway, place: { eastM: 1500, northM: -300 } }],
};
