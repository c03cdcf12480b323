import type { Calls } from './Call.js';

const frame = {
  kind: 'coverage',
  columns: 3,
  rows: 3,
  cellM: 100,
  radiusM: 100,
  origin: { latitudeDeg: 50, longitudeDeg: 16 },
  lossDb: Float32Array.of(Number.NaN, 120, Number.NaN, 130, Number.NaN, 140, Number.NaN, 150, Number.NaN),
};
const coverage = {
  ...frame,
  missingCount: 0,
  warnings: [],
  question: {
    gateway: { position: frame.origin, antennaHeightM: 12 },
    frequencyHz: 868.1e6,
    model: { kind: 'p526', deltaN: 40 },
    radiusM: 100,
    cellM: 100,
    receiverHeightM: 1.5,
  },
};
const ground = {
  tiles: [
    {
      name: 'plain',
      columns: 2,
      rows: 2,
      heightsM: new Float32Array(4),
      voidCount: 0,
      grid: { kind: 'geographic', northDeg: 51, westDeg: 15, rowStepDeg: 2, columnStepDeg: 2 },
    },
  ],
  voidCount: 0,
  filledCount: 0,
};
const dataRates = [{ dataRate: 0, requiredSnrDb: -20, bandwidthHz: 125e3 }];
const noise = { noiseFigureDb: 6, noiseRiseDb: 2 };
const places = { latitudeDeg: 50, longitudeDeg: 16 };

/** The calls of the views of a coverage, of `@finial/propagation`. */
export const coverageCalls: Calls = {
  cellPosition: { args: [{ raster: frame, rowIndex: 0, columnIndex: 1 }], constants: ['cell.raster'] },
  cellAt: { args: [{ raster: frame, position: places }], constants: ['place.raster'] },
  receivedPowerDbm: {
    args: [
      coverage,
      { conductedPowerDbm: 14, feedlineLossDb: 1, gatewayGainDbi: 3, nodeGainDbi: 1, otherLossDb: 2 },
    ],
    constants: ['raster'],
    noData: ['raster.lossDb'],
  },
  'receivedPowerDbm through a pattern': {
    args: [
      coverage,
      {
        conductedPowerDbm: 14,
        pattern: { elevationDeg: [-90, 90], gainDbi: [1, 2, 3, 4], azimuthDeg: [0, 180] },
        patternBearingDeg: 20,
        elevation: ground,
      },
    ],
    constants: ['raster', 'link.elevation'],
    noData: ['raster.lossDb'],
  },
  coverageMarginDb: {
    args: [frame, { powerDbm: frame.lossDb, ...noise, requiredSnrDb: -20, bandwidthHz: 125e3 }],
    constants: ['raster', 'settings.powerDbm'],
    noData: ['settings.powerDbm'],
  },
  bestDataRate: {
    args: [frame, { powerDbm: frame.lossDb, ...noise, rows: dataRates, wantedMarginDb: 3 }],
    constants: ['raster', 'settings.powerDbm'],
    noData: ['settings.powerDbm'],
  },
  receptionProbability: {
    args: [coverage, { marginDb: frame.lossDb, locationSigmaDb: 6, modelErrorDb: 8 }],
    constants: ['raster', 'settings.marginDb'],
    noData: ['settings.marginDb'],
  },
  areaByClass: {
    args: [{ raster: frame, figures: frame.lossDb, classes: [{ name: 'near', leastFigure: 130 }] }],
    constants: ['layer.raster', 'layer.figures'],
  },
  layerStatistics: {
    args: [{ raster: frame, figures: frame.lossDb, quantiles: [0.1, 0.9] }],
    constants: ['layer.raster', 'layer.figures'],
  },
  latitudeLongitudeGrid: {
    args: [{ raster: frame, figures: frame.lossDb, rowStepDeg: 0.001, columnStepDeg: 0.002 }],
    constants: ['layer.raster', 'layer.figures'],
    noData: ['layer.figures'],
  },
  compareSites: {
    args: [
      {
        sites: [{ name: 'barn', position: places, antennaHeightM: 9, link: { feedlineLossDb: 1 } }],
        elevation: ground,
        frequencyHz: 868.1e6,
        model: { kind: 'p526', deltaN: 40 },
        radiusM: 300,
        cellM: 100,
        receiverHeightM: 1.5,
        link: { conductedPowerDbm: 14, gatewayGainDbi: 2 },
        ...noise,
        rows: dataRates,
        wantedMarginDb: 3,
        points: [{ name: 'mill', position: places, weightRatio: 2 }],
      },
    ],
    constants: ['comparison.elevation'],
    noData: ['comparison.elevation'],
  },
  coverageContours: {
    args: [
      {
        raster: frame,
        figures: frame.lossDb,
        levels: [{ name: 'near', leastFigure: 130, colour: '#174' }],
        quantity: 'loss',
        unit: 'dB',
        thinningCount: 1,
      },
    ],
    constants: ['question.raster', 'question.figures'],
  },
  coverageGeotiff: {
    args: [
      {
        raster: frame,
        figures: frame.lossDb,
        rowStepDeg: 0.001,
        columnStepDeg: 0.002,
        description: 'loss in dB',
      },
    ],
    constants: ['question.raster', 'question.figures'],
  },
  'cellPosition of a whole raster': {
    args: [{ raster: frame, rowIndex: 0, columnIndex: 1 }],
    constants: ['cell.raster.lossDb'],
  },
};
