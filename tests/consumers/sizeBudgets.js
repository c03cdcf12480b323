// @ts-check
/**
 * What one function may cost a page: bytes after minifying and gzip, of the entry and what it imports statically.
 *
 * Each budget is the measured size, which stands behind it, with some 10 % head room. The floor under all of them is
 * `InputError` with its checks, about 0.8 kB. `brings` names the packages that may be in the bundle: one more means
 * that something stopped being tree-shaken.
 *
 * @typedef {object} SizeBudget
 * @property {string} name
 * @property {string} from
 * @property {number} budgetBytes
 * @property {readonly string[]} brings
 *
 * @type {readonly SizeBudget[]}
 */
export const sizeBudgets = [
  // 842: a line of arithmetic on the floor.
  { name: 'dbmToWatt', from: '@finial/units', budgetBytes: 930, brings: ['@finial/units'] },
  // 995: as above, with the bounds of frequency and distance. Less head room, to stay below 1 KiB.
  {
    name: 'freeSpaceLossDb',
    from: '@finial/radio',
    budgetBytes: 1023,
    brings: ['@finial/radio', '@finial/units'],
  },
  // 1528: the formula with its refusals, and no table of a region.
  { name: 'timeOnAir', from: '@finial/lora', budgetBytes: 1680, brings: ['@finial/lora', '@finial/units'] },
  // 11.7 kB: it solves the antenna's wires, so the whole moment method comes along.
  {
    name: 'groundPlane',
    from: '@finial/antenna',
    budgetBytes: 12_800,
    brings: ['@finial/antenna', '@finial/radio', '@finial/units'],
  },
  // 5.0 kB: three quarters of it are the catalogue of coaxial cables, which a name of a cable needs.
  {
    name: 'attenuationDb',
    from: '@finial/feedline',
    budgetBytes: 5500,
    brings: ['@finial/feedline', '@finial/units'],
  },
  // 2.5 kB: one model with its check of validity and the normal quantile; neither elevation files nor projections.
  {
    name: 'buildingEntryLossDb',
    from: '@finial/propagation/p2109',
    budgetBytes: 2700,
    brings: ['@finial/propagation', '@finial/units'],
  },
  // 3.0 kB: the same model as a namespace of the package, whose names are all kept.
  {
    name: 'p2109',
    from: '@finial/propagation',
    budgetBytes: 3250,
    brings: ['@finial/propagation', '@finial/units'],
  },
  // 76 kB: the sweep brings terrain with its geodesics and projections.
  {
    name: 'sweepCoverage',
    from: '@finial/propagation',
    budgetBytes: 83_000,
    brings: [
      '@finial/propagation',
      '@finial/radio',
      '@finial/terrain',
      '@finial/units',
      'geographiclib-geodesic',
      'mgrs',
      'proj4',
      'wkt-parser',
    ],
  },
  // 979: a line of arithmetic; no reader of walk logs.
  {
    name: 'effectiveSignalPowerDbm',
    from: '@finial/survey',
    budgetBytes: 1080,
    brings: ['@finial/lora', '@finial/survey', '@finial/units'],
  },
  // 52 kB: nearly all of it is the projection library, for tiles in metres; the reader of GeoTIFF is loaded when
  // a file asks for it.
  {
    name: 'openElevation',
    from: '@finial/terrain',
    budgetBytes: 56_000,
    brings: ['@finial/terrain', '@finial/units', 'mgrs', 'proj4', 'wkt-parser'],
  },
  // 5.1 kB: loads of wind, drag of tubes and what there is to say about them.
  { name: 'mastLoad', from: '@finial/site', budgetBytes: 5700, brings: ['@finial/site', '@finial/units'] },
  // 41 kB: most of it is the part of the schema library that the check of a plan is made of.
  {
    name: 'parsePlan',
    from: '@finial/dossier',
    budgetBytes: 45_000,
    brings: ['@finial/dossier', '@finial/units', 'jsonc-parser', 'zod'],
  },
];
