import { type CoverageRaster, receivedPowerDbm, type SweptModel, sweepCoverage } from '@finial/propagation';
import { coverageContours, coverageGeotiff } from '@finial/propagation/export';
import type { Elevation } from '@finial/terrain';
import { checkRange, type Finding, isInputError } from '@finial/units';
import type { BuiltPlan } from '../../../packages/dossier/src/builtPlan.js';
import { type ContourArea, contourAreas } from '../../../packages/dossier/src/contourAreas.js';
import type { CoverageBand } from '../../../packages/dossier/src/coveragePart.js';
import { bandClass, coverageMap } from '../../../packages/dossier/src/page/coverageMap.js';
import { reliefStore } from '../../../packages/dossier/src/page/reliefImage.js';
import { decibels, decimal, distance, percent } from '../../../packages/dossier/src/page/wording.js';
import { reliefPart } from '../../../packages/dossier/src/reliefPart.js';
import {
  mappedDataRates,
  uplinkOf,
  uplinkSweep,
  uplinkThresholdDbm,
} from '../../../packages/dossier/src/uplinkMap.js';
import { about, literal } from '../frame/codeOf.js';
import { legend } from '../frame/legend.js';
import type { Outcome, SheetTable, SheetWork } from '../frame/sheet.js';
import { sweepCrew } from './sweepCrew.js';
import { bandwidthHz, gatewayOf, planOf, type TerrainValues, terrainOf } from './terrainValues.js';
import { openingCode } from './tileCode.js';

type Question = Omit<Parameters<typeof sweepCoverage>[0], 'elevation' | 'signal'>;

/** Where a node is heard around the gateway, and with which data rate. */
export async function coverageAnswer(
  values: TerrainValues,
  elevation: Elevation,
  names: readonly string[],
  work: SheetWork,
): Promise<Outcome> {
  checkReceiver(values);
  const plan = planOf(values);
  const question = questionOf(values, plan, elevation);
  const raster = await swept(question, elevation, work);
  work.onProgress(1, 'drawing');
  await nextFrame();
  work.signal.throwIfAborted();
  const powerDbm = receivedPowerDbm(raster, uplinkOf(plan, undefined, elevation));
  const { known, bands, geojson } = areasOf(plan, raster, powerDbm);
  const knownM2 = known?.areaM2 ?? 0;
  return {
    lead: leadOf(values, bands),
    facts: [
      ['Ground with a prediction', squareKilometres(knownM2)],
      ['Cells', `${decimal(raster.lossDb.length, 0)}, ${decimal(raster.missingCount, 0)} without data`],
    ],
    pictures: [
      {
        svg: pictureOf(values, elevation, known, bands),
        caption:
          'Fastest data rate that is heard, at the median place. Outside the shaded ground there is no elevation data.',
      },
    ],
    tables: [areaTable(bands, knownM2)],
    findings: findingsOf(raster),
    code: codeOf(values, names, question, plan, bands),
    downloads: [
      { name: 'coverage.geojson', type: 'application/geo+json', content: geojson },
      { name: 'coverage.tif', type: 'image/tiff', content: geotiffOf(raster, powerDbm) },
    ],
  };
}

/** The threshold is a plain sum of these; an empty field would only make it no number. */
function checkReceiver({ noiseFigureDb, manMadeNoiseDb }: TerrainValues): void {
  checkRange(noiseFigureDb, 'noiseFigureDb', { min: 0, max: 60, unit: 'dB' });
  checkRange(manMadeNoiseDb, 'manMadeNoiseDb', { min: 0, max: 60, unit: 'dB' });
}

function questionOf(values: TerrainValues, plan: BuiltPlan, elevation: Elevation): Question {
  const { radiusM, cellM, antennaHeightM } = values;
  const area = { radiusM, cellM };
  const {
    elevation: _,
    signal: __,
    ...sweep
  } = uplinkSweep(plan, terrainOf(values), area, elevation, undefined);
  return { ...sweep, gateway: { position: gatewayOf(values), antennaHeightM }, model: modelOf(values) };
}

function modelOf({ model, deltaN, surfaceRefractivity }: TerrainValues): SweptModel {
  switch (model) {
    case 'p1812':
      return { kind: 'p1812', deltaN, surfaceRefractivity };
    case 'p526':
      return { kind: 'p526', deltaN };
    case 'p525':
      return { kind: 'p525' };
  }
}

/** Sweeps in workers; where they cannot run, the page does it itself. */
async function swept(
  question: Question,
  elevation: Elevation,
  { signal, onProgress }: SheetWork,
): Promise<CoverageRaster> {
  const sweep = {
    ...question,
    elevation,
    signal,
    onProgress: ({ doneRatio }: { readonly doneRatio: number }) =>
      onProgress(doneRatio, `sweeping, ${percent(doneRatio)}`),
  };
  const crew = sweepCrew();
  try {
    return await sweepCoverage({ ...sweep, ...crew });
  } catch (error) {
    if (crew.workers === 0 || signal.aborted || isInputError(error)) throw error;
    return sweepCoverage(sweep);
  }
}

/** Lets the page draw before a stretch of work. */
function nextFrame(): Promise<void> {
  return new Promise((resume) => setTimeout(resume, 0));
}

/** Finer contours than these are not seen in the picture. */
const drawnColumns = 300;
/** Below every power that occurs: its contour is the area with a prediction. */
const anyPowerDbm = -1000;

function areasOf(
  plan: BuiltPlan,
  raster: CoverageRaster,
  powerDbm: Float32Array,
): {
  readonly known: ContourArea | undefined;
  readonly bands: readonly CoverageBand[];
  readonly geojson: string;
} {
  const rates = mappedDataRates(plan);
  const levels = rates.map(({ name, spreadingFactor }) => ({
    name,
    leastFigure: uplinkThresholdDbm(plan, spreadingFactor),
  }));
  const layer = { raster, figures: powerDbm, quantity: 'uplink power at the receiver', unit: 'dBm' };
  const [known, ...areas] = contourAreas({
    ...layer,
    levels: [{ name: 'known', leastFigure: anyPowerDbm }, ...levels],
    thinningCount: Math.max(1, Math.round(raster.columns / drawnColumns)),
  });
  const bands = areas.map(({ name, leastFigure, areaM2, polygons }) => ({
    name,
    dataRate: rates.find((rate) => rate.name === name)?.dataRate ?? 0,
    neededPowerDbm: leastFigure,
    areaM2,
    polygons,
  }));
  return { known, bands, geojson: coverageContours({ ...layer, levels }) };
}

function leadOf({ radiusM }: TerrainValues, bands: readonly CoverageBand[]): string {
  const widest = bands[0];
  const where =
    widest === undefined
      ? ''
      : `${squareKilometres(widest.areaM2)} within ${distance(radiusM)} are heard at ${widest.name}, at the median place. `;
  return `${where}Half of the places of a colour get less, and the model may err by 12\u00a0dB: a walk decides.`;
}

function pictureOf(
  values: TerrainValues,
  elevation: Elevation,
  known: ContourArea | undefined,
  bands: readonly CoverageBand[],
): string {
  const { radiusM, cellM } = values;
  const gateway = gatewayOf(values);
  const relief = reliefPart(gateway, radiusM, elevation);
  const coverage = {
    radiusM,
    cellM,
    bands,
    knownAreaM2: known?.areaM2 ?? 0,
    knownPolygons: known?.polygons ?? [],
    missingCount: 0,
    findings: [],
  };
  const map = coverageMap(gateway, coverage, { relief, places: [] }, []);
  const colours = bands.map(({ name }, index) => ({
    name,
    className: `cover cover-${bandClass(index, bands.length)}`,
  }));
  const key = legend('Fastest data rate heard', 'square', colours.toReversed());
  return (relief === undefined ? '' : reliefStore(relief).markupText) + map.markupText + key.markupText;
}

function areaTable(bands: readonly CoverageBand[], knownM2: number): SheetTable {
  return {
    caption: 'Predicted area by data rate, each with the areas of the faster ones',
    head: ['Data rate', 'Needed power', 'Area', 'Share'],
    rows: bands.map(({ name, neededPowerDbm, areaM2 }) => [
      name,
      decibels(neededPowerDbm, 'dBm'),
      squareKilometres(areaM2),
      percent(areaM2 / Math.max(1, knownM2)),
    ]),
  };
}

function geotiffOf(raster: CoverageRaster, figures: Float32Array): Uint8Array {
  return coverageGeotiff({ raster, figures, description: "uplink power at the gateway's receiver in dBm" });
}

function findingsOf({ warnings, question }: CoverageRaster): Finding[] {
  const source = question.model.kind === 'p1812' ? 'Recommendation ITU-R P.1812-8 (09/2025)' : 'the model';
  return warnings.map((warning) => ({
    rule: 'coverage-limits',
    severity: 'note',
    message: `The map: ${warning}.`,
    source,
  }));
}

function squareKilometres(areaM2: number): string {
  return `${decimal(areaM2 / 1e6, areaM2 < 1e7 ? 2 : 1)}\u00a0km²`;
}

function codeOf(
  values: TerrainValues,
  names: readonly string[],
  question: Question,
  plan: BuiltPlan,
  bands: readonly CoverageBand[],
): string {
  const { conductedPowerDbm, nodeGainDbi, otherLossDb, gatewayGainDbi, feedlineLossDb } = values;
  const link = { conductedPowerDbm, nodeGainDbi, otherLossDb, gatewayGainDbi, feedlineLossDb };
  const { noiseFigureDb, manMadeNoiseDb } = plan.gateway;
  const widest = bands[0];
  const factor = mappedDataRates(plan)[0]?.spreadingFactor ?? 12;
  return `import { readFile } from 'node:fs/promises';
import { requiredSnrDb } from '@finial/lora';
import { areaByClass, receivedPowerDbm, sweepCoverage } from '@finial/propagation';
import { thermalNoiseDbm } from '@finial/radio';
import { openElevation } from '@finial/terrain';

${openingCode(values, names)}
const raster = await sweepCoverage({ ...${literal(question)}, elevation });
const figures = receivedPowerDbm(raster, ${literal(link)});

const noiseDbm = thermalNoiseDbm({ bandwidthHz: ${bandwidthHz} }) + ${noiseFigureDb} + ${manMadeNoiseDb};
const leastFigure = noiseDbm + requiredSnrDb(${factor}); ${about(widest?.neededPowerDbm ?? 0, 6)}
const { classes } = areaByClass({ raster, figures, classes: [{ name: 'SF${factor}', leastFigure }] });
classes[0]?.areaM2; ${about(widest?.areaM2 ?? 0, 5)}`;
}
