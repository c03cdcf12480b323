import type { Calls, Exempt } from './Call.js';

/** A hillside of nine cells around 50° N, 16° E. */
const tile = {
  name: 'hillside',
  columns: 3,
  rows: 3,
  heightsM: Float64Array.of(100, 110, 120, 130, 140, 150, 160, 170, 180),
  voidCount: 0,
  grid: { kind: 'geographic', northDeg: 50.1, westDeg: 15.9, rowStepDeg: 0.1, columnStepDeg: 0.1 },
};
const elevation = { tiles: [tile], voidCount: 0, filledCount: 0 };
// Cells are the caller's data: NaN and infinities in them are voids, which the functions meet only on their way.
const heights = ['elevation.tiles[0].heightsM'];
const from = { latitudeDeg: 50.01, longitudeDeg: 15.95 };
const to = { latitudeDeg: 49.99, longitudeDeg: 16.05 };
const ray = {
  position: from,
  antennaHeightM: 12,
  radiusM: 2000,
  stepM: 500,
  effectiveEarthRadiusFactor: 1.3,
};
const zoned = {
  ...elevation,
  tiles: [
    {
      ...tile,
      grid: {
        kind: 'utm',
        zone: 33,
        hemisphere: 'north',
        northM: 5.5e6,
        westM: 5e5,
        rowStepM: 100,
        columnStepM: 100,
      },
    },
  ],
};
const grid = new TextEncoder().encode('ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 10\n1 2 3 4');
const codes = { ...elevation, tiles: [{ ...tile, heightsM: new Float64Array(9).fill(10) }] };

export const calls: Calls = {
  clutterProfile: [
    'trees',
    { latitudesDeg: Float64Array.of(50.01, 49.99), longitudesDeg: Float64Array.of(16, 16.01) },
  ],
  'clutterProfile from a raster': {
    args: [
      { codes, classOfCode: { 10: 'suburban' } },
      { latitudesDeg: [50.01, 49.99], longitudesDeg: [16, 16.01] },
    ],
    constants: ['landCover.codes.tiles[0].heightsM'],
  },
  destination: [{ from, azimuthDeg: 30, distanceM: 5000 }],
  elevationBounds: { args: [elevation], constants: heights },
  'elevationBounds in a zone': { args: [zoned], constants: heights },
  finestStepM: { args: [elevation], constants: heights },
  geodesic: [{ from, to }],
  heightAtM: { args: [elevation, from], constants: heights },
  heightSampler: { args: [elevation], constants: heights },
  'horizon at azimuths': {
    args: [elevation, { ...ray, azimuthsDeg: [45, 90], missingHeights: 'skip' }],
    constants: heights,
  },
  'horizon all round': {
    args: [elevation, { ...ray, azimuthStepDeg: 60 }],
    constants: heights,
  },
  lineOfSight: [
    { distanceM: Float64Array.of(0, 500, 1000), heightM: Float64Array.of(100, 120, 90) },
    {
      fromHeightM: 20,
      toHeightM: 1.5,
      effectiveEarthRadiusFactor: 1.3,
      clutterHeightM: [0, 10, 0],
      wavelengthM: 0.345,
    },
  ],
  openElevation: [
    [{ name: 'hill.asc', bytes: grid }],
    { voids: 'fill', coordinates: { kind: 'utm', zone: 33, hemisphere: 'north' } },
  ],
  openElevationFiles: [
    ['examples/fennimara/elevation.tif'],
    { voids: 'fill', coordinates: { kind: 'utm', zone: 33, hemisphere: 'north' } },
  ],
  profile: { args: [elevation, from, to, { stepM: 500 }], constants: heights },
  // NaN in the result is 'no data', by contract.
  sampleHeightsM: {
    args: [elevation, [50.01, 49.99], Float64Array.of(15.95, 16.05)],
    constants: heights,
    noData: heights,
  },
  // NaN in the result is 'no data', by contract.
  shadedRelief: {
    args: [
      elevation,
      {
        bounds: { southDeg: 49.95, northDeg: 50.05, westDeg: 15.95, eastDeg: 16.05 },
        columns: 4,
        rows: 4,
        sunAzimuthDeg: 300,
        sunElevationDeg: 40,
        exaggerationRatio: 2,
      },
    ],
    constants: heights,
    noData: heights,
  },
};

export const exempt: Exempt = {};
