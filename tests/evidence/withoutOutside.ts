import type { Reason, Reasons } from './Reason.js';

const handsOver = (...parts: readonly string[]): Reason => ({
  because: 'hands over to the functions named here, which are checked',
  parts,
});
const composed = (because: string, ...parts: readonly string[]): Reason => ({ because, parts });
const because = (text: string): Reason => ({ because: text });

const refusal = because('takes or refuses a value: there is no figure');
const words = because('puts into words or rows what is there: there is no figure');
const byHand = 'no published figure was found; held against cases worked by hand';

/** Functions without a figure from outside the project, and why. */
export const withoutOutside: Reasons = {
  antenna: {
    elevationPattern: composed('a table of far-field gains', 'farFieldGainDbi'),
    gainTowardsDbi: because('interpolates the table that it is given: the table is its measure'),
    deembedFeedline: composed('the inverse of embedFeedline, held against it', 'embedFeedline'),
    deembedTwoPort: composed('the inverse of embedTwoPort, held against it', 'embedTwoPort'),
    insertionLossDb: because(byHand),
    formatTouchstone: composed('what it writes is read back by the checked reader', 'parseTouchstone'),
    convergence: composed('solves again with finer segments', 'solveWires'),
    farFieldGain: composed('the same field, split by polarisation', 'farFieldGainDbi'),
    azimuthCut: composed('a table of far-field gains', 'farFieldGainDbi'),
    elevationCut: composed('a table of far-field gains', 'farFieldGainDbi'),
  },
  dossier: {
    planJsonSchema: words,
    toGeoJson: because(
      'no published figure; the file of the demo is judged by an independent GeoJSON checker in tests/demo/exports.test.ts',
    ),
  },
  feedline: {
    mismatchedLineLoss: because(`${byHand}, and against voltage and current at the ends of the line`),
    checkCatalogue: refusal,
    mergeCatalogues: words,
    adaptersBetween: composed('a search through the rows of the catalogue', 'mates'),
    endName: words,
    improveRun: because('no published rule; held against the proportion of loss and length, by hand'),
    weatherFindings: because('common practice without a source: there is no figure'),
  },
  lora: {
    batteryLife: because(`${byHand}, and against stepping through the charge balance`),
    citationText: words,
    gatewayCapacity: composed(
      'no published figure for the whole; held against seeded simulations',
      'alohaDelivery',
      'erlangBlockingRatio',
    ),
    onChannelPlan: composed('picks one channel plan of a region', 'channelFrequenciesHz'),
  },
  propagation: {
    'hata.model': handsOver('hata.okumuraHata'),
    'itm.model': handsOver('itm.pointToPoint'),
    'p526.bullington': handsOver('deltaBullingtonOf'),
    'p526.deltaBullington': handsOver('deltaBullingtonOf'),
    'p526.model': handsOver('deltaBullingtonOf', 'p525.freeSpace'),
    'p1812.model': handsOver('p1812.basicTransmissionLoss'),
    mergeSectors: because('puts rasters together: nothing is computed'),
    runSectorJob: because(
      'the models far away; held against the point-to-point functions on the same ground',
    ),
    sectorJobs: because('cuts the work into parts: nothing is computed'),
    sweepCoverage: because(
      'the models at every cell; held against the point-to-point functions on the same ground',
    ),
    compareSites: because('counts cells; held against areas of circles and lenses, a closed form'),
    latitudeLongitudeGrid: composed('places each cell', 'cellPosition'),
    receivedPowerDbm: because('a sum of decibels; no published figure, held against sums by hand'),
    answerSweeps: because('carries messages of a worker: nothing is computed'),
  },
  radio: { erpDbm: composed('EIRP less 2.15 dB', 'eirpDbm', 'eirpToErpDbm') },
  site: {
    backhaulChoices: composed('weighs ways by common practice', 'wifiBackhaul'),
    enclosureDay: composed(
      'hour after hour of the balance; held against it where the box has no mass',
      'enclosureBalance',
    ),
    sunOnFace: composed('geometry of the clear sky; no published figure was found', 'clearSky'),
    longestRunM: composed('the inverse of supplyDrop, held against it', 'supplyDrop', 'wireResistanceOhm'),
    ridgeClamp: because('no published rule is known; held against statics worked by hand'),
  },
  survey: {
    beaconDrift: composed(
      'alarms on invented logs whose faults are known',
      'cusumRunLength',
      'ewmaRunLength',
    ),
    readBeacon: because('reads a log: its rows are its measure'),
    calibratedLevel: composed('applies what calibrate found', 'calibrate'),
    nextSpots: composed('chooses by kriging variances', 'krige'),
    estimateClockOffset: because('no published figure; held against invented rides whose offset is known'),
    readSurveyStream: composed('the same rows as readSurvey, wherever the pieces are cut', 'readSurvey'),
    surveyCsv: composed('what it writes is read back by the checked reader', 'readSurvey'),
  },
  terrain: {
    clutterProfile: composed('looks codes up along a path', 'clutterHeightM'),
    sampleHeightsM: composed('the same heights as heightAtM', 'heightAtM'),
    heightSampler: composed('the same heights as heightAtM', 'heightAtM'),
    shadedRelief: because(
      "no published figure was found; held against planes under Lambert's cosine law, by hand",
    ),
    openElevationFiles: handsOver('openElevation'),
  },
  units: {
    checkFinite: refusal,
    checkInteger: refusal,
    checkList: refusal,
    checkNotNegative: refusal,
    checkObject: refusal,
    checkOneOf: refusal,
    checkPositive: refusal,
    checkRange: refusal,
    isInputError: refusal,
  },
};
