import type { Reason, Reasons } from './Reason.js';

const because = (text: string): Reason => ({ because: text });
const composed = (text: string, ...parts: readonly string[]): Reason => ({ because: text, parts });

const table = because('looks a row up: the tests go through the rows');
const words = because('puts into words or rows what is there: nothing to vary');
const whole = because('a shell around the other packages, tried on whole plans and on the demo');
const slow = 'a moment-method solution takes too long for many random runs';
const sameFile = 'formats are tried case by case, written and read back';

/** Functions without a property test, and why. */
export const withoutProperty: Reasons = {
  antenna: {
    elevationPattern: composed('a table of far-field gains', 'farFieldGainDbi'),
    fiveEighths: composed(slow, 'solveWires'),
    jPole: composed(slow, 'solveWires'),
    knowsPhase: because('tells two kinds of sweep apart: both are tried'),
  },
  dossier: {
    assembleDossier: whole,
    parsePlan: whole,
    planJsonSchema: words,
    renderHtml: whole,
    toGeoJson: whole,
  },
  feedline: { connectorOf: table, mergeCatalogues: words },
  lora: {
    citationText: words,
    citationOf: table,
    firstWindowDataRate: table,
    onChannelPlan: table,
  },
  propagation: {
    'itm.model': composed('hands over to the function named here', 'itm.pointToPoint'),
    'p1812.climateOf': table,
    compareSites: composed('a sweep takes too long for many random runs', 'sweepCoverage'),
    latitudeLongitudeGrid: composed('every cell of some rasters is compared instead', 'cellPosition'),
    coverageContours: because('shapes with known areas and holes are tried case by case'),
    coverageGeotiff: because(sameFile),
    answerSweeps: because('carries messages of a worker; tried with real workers in tests/workers'),
  },
  site: {
    backhaulChoices: composed('weighs ways by common practice, case by case', 'wifiBackhaul'),
    enclosureDay: composed('a whole day takes too long for many random runs', 'enclosureBalance'),
  },
  survey: {
    calibratedLevel: composed(
      'applies what calibrate found; simulated walks count how often it holds',
      'calibrate',
    ),
    conformalMargin: composed('simulated and measured rides count how often it holds', 'conformalQuantile'),
    spotTable: composed('rows of the functions named here', 'deliveryBySpot'),
    fitShadowing: because('a search takes too long for many random runs; seeded fields are tried instead'),
    fitVariogram: composed('a search takes too long for many random runs', 'empiricalVariogram'),
    nextSpots: composed(
      'a search takes too long for many random runs; seeded fields are tried instead',
      'krige',
    ),
    readUplinks: because('cut into pieces of several lengths instead, row by row'),
  },
  terrain: {
    clutterHeightM: table,
    openElevation: because(sameFile),
    openElevationFiles: because(sameFile),
  },
};
