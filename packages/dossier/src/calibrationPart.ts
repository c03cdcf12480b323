import { cellAt } from '@finial/propagation';
import {
  type Calibration,
  calibrate,
  fitShadowing,
  mapReception,
  type NextSpot,
  nextSpots,
  type Observation,
  planeOffset,
  type ReceptionSpot,
  type ShadowingModel,
} from '@finial/survey';
import { type Finding, isInputError } from '@finial/units';
import type { BuiltPlan } from './builtPlan.js';
import { type AreaPolygons, contourAreas } from './contourAreas.js';
import type { SweptCoverage } from './coveragePart.js';
import { loraModulation } from './loraModulation.js';
import { uplinkThresholdDbm } from './uplinkMap.js';

/** The area where a frame gets through with at least some probability. */
export interface ProbabilityBand {
  /** In words: `90 % or more`. */
  readonly name: string;
  /** Least probability, 0 to 1. */
  readonly probability: number;
  /** Area in square metres. */
  readonly areaM2: number;
  /** Its rings in degrees. */
  readonly polygons: AreaPolygons;
}

/** The prediction set against the walk, and put right by it. */
export interface CalibrationPart extends Calibration {
  /** How the residuals scatter over the ground. */
  readonly shadowing: ShadowingModel;
  /** Whether the shadowing was found from this walk, or is the usual one. */
  readonly isShadowingFitted: boolean;
  /** The spreading factor that the probabilities are for. */
  readonly spreadingFactor: number;
  /** Where a frame gets through, least probable first. */
  readonly bands: readonly ProbabilityBand[];
  /** Places whose measurement would make the map surest, the most useful first. */
  readonly nextSpots: readonly NextSpot[];
  /** What the comparison says to a person. */
  readonly findings: readonly Finding[];
}

/** Suburban ground after Gudmundson (1991) and the spread of a frame about its place, where the walk has too few spots to tell. */
const usualShadowing: ShadowingModel = { shadowingDb: 7.5, decorrelationM: 500, nuggetDb: 3 };
const spotsWanted = 5;
/** Maps of more cells are kriged on a coarser grid; the eye does not tell. */
const greatestColumns = 301;

/** Compares the predicted powers with the walk and maps what both say together; nothing where the walk lies outside the map. */
export function calibrationPart(
  plan: BuiltPlan,
  swept: SweptCoverage,
  observations: readonly Observation[],
): CalibrationPart | undefined {
  const placed = observations.flatMap((observation) => {
    const predictedDbm = powerAt(swept, observation);
    return predictedDbm === undefined ? [] : [{ observation, predictedDbm }];
  });
  const calibration = calibrationOf(plan, placed);
  if (calibration === undefined) return undefined;
  const { spreadingFactor } = loraModulation(
    plan,
    plan.node.uplink.dataRate,
    'uplink',
    'node.uplink.dataRate',
  );
  const requiredPowerDbm = uplinkThresholdDbm(plan, spreadingFactor);
  const spots = receptionSpots(calibration, requiredPowerDbm);
  const fitted = fittedShadowing(plan, spots);
  const question = { prediction: thinned(swept), spots, shadowing: fitted ?? usualShadowing };
  const map = mapReception({ ...question, dataRates: [{ name: `SF${spreadingFactor}`, requiredPowerDbm }] });
  const next = nextSpots({ ...question, requiredPowerDbm, spotCount: spotsWanted });
  return {
    ...calibration,
    shadowing: question.shadowing,
    isShadowingFitted: fitted !== undefined,
    spreadingFactor,
    bands: bandsOf(map, map.dataRates[0]?.probability ?? new Float32Array(0)),
    nextSpots: next.spots,
    findings: biasFinding(calibration),
  };
}

interface PlacedFrame {
  readonly observation: Observation;
  readonly predictedDbm: number;
}

function powerAt({ raster, powerDbm }: SweptCoverage, observation: Observation): number | undefined {
  const { latitudeDeg, longitudeDeg } = observation;
  const cell = cellAt({ raster, position: { latitudeDeg, longitudeDeg } });
  const power = cell && powerDbm[cell.index];
  return power === undefined || Number.isNaN(power) ? undefined : power;
}

/** A walk with too few spots or levels to compare has no calibration; the dossier then leaves it out. */
function calibrationOf(plan: BuiltPlan, placed: readonly PlacedFrame[]): Calibration | undefined {
  const withLevel = placed.filter(
    ({ observation }) => observation.received && observation.snrDb !== undefined,
  );
  if (new Set(withLevel.map(({ observation }) => spotOf(observation))).size < 3) return undefined;
  const usual = loraModulation(plan, plan.node.uplink.dataRate, 'uplink', 'node.uplink.dataRate');
  try {
    return calibrate(
      placed.map(({ predictedDbm }) => predictedDbm),
      placed.map(({ observation }) => observation),
      {
        gateway: plan.gateway.position,
        thresholdDbm: ({ spreadingFactor = usual.spreadingFactor }) =>
          uplinkThresholdDbm(plan, spreadingFactor),
        withinM: [1000, 3000],
      },
    );
  } catch (error) {
    if (!isInputError(error)) throw error;
    return undefined;
  }
}

function spotOf({ spot, latitudeDeg, longitudeDeg }: Observation): string {
  return spot ?? `${latitudeDeg},${longitudeDeg}`;
}

function receptionSpots({ residuals }: Calibration, requiredPowerDbm: number): readonly ReceptionSpot[] {
  return residuals.map(({ latitudeDeg, longitudeDeg, usedFrames, missedFrames, predictedDbm, errorDb }) => {
    const place = { latitudeDeg, longitudeDeg, frames: usedFrames };
    return missedFrames === usedFrames
      ? { ...place, residualBelowDb: requiredPowerDbm - predictedDbm }
      : { ...place, residualDb: -errorDb };
  });
}

function fittedShadowing(plan: BuiltPlan, spots: readonly ReceptionSpot[]): ShadowingModel | undefined {
  const samples = spots.flatMap(({ residualDb, frames, latitudeDeg, longitudeDeg }) => {
    if (residualDb === undefined) return [];
    const offset = planeOffset({ origin: plan.gateway.position, position: { latitudeDeg, longitudeDeg } });
    return [{ ...offset, levelDb: residualDb, frames }];
  });
  if (samples.length < 12) return undefined;
  try {
    const { shadowingDb, decorrelationM, nuggetDb } = fitShadowing(samples);
    return { shadowingDb, decorrelationM, nuggetDb };
  } catch (error) {
    if (!isInputError(error)) throw error;
    return undefined;
  }
}

/** The predicted power on every n-th cell, the gateway kept in the middle. */
function thinned({ raster, powerDbm }: SweptCoverage) {
  const { columns, cellM, origin } = raster;
  const stride = Math.ceil(columns / greatestColumns);
  const reach = Math.floor((columns - 1) / 2 / stride);
  const size = 2 * reach + 1;
  const first = (columns - 1) / 2 - reach * stride;
  const power = Float32Array.from({ length: size * size }, (_, cell) => {
    const row = first + Math.floor(cell / size) * stride;
    const column = first + (cell % size) * stride;
    return powerDbm[row * columns + column] as number;
  });
  return { columns: size, rows: size, cellM: cellM * stride, origin, powerDbm: power };
}

const probabilities = [
  { name: '50 % or more', leastFigure: 0.5 },
  { name: '90 % or more', leastFigure: 0.9 },
];

function bandsOf(
  { columns, rows, cellM, origin }: Pick<ReturnType<typeof thinned>, 'columns' | 'rows' | 'cellM' | 'origin'>,
  probability: Float32Array,
): readonly ProbabilityBand[] {
  const raster = {
    kind: 'coverage' as const,
    columns,
    rows,
    cellM,
    radiusM: ((columns - 1) / 2) * cellM,
    origin,
    lossDb: probability,
  };
  const areas = contourAreas({
    raster,
    figures: probability,
    levels: probabilities,
    quantity: 'probability of reception',
    unit: '1',
  });
  return areas.map(({ leastFigure, ...area }) => ({ ...area, probability: leastFigure }));
}

function biasFinding({ verdict, biasDb, biasLowerDb }: Calibration): Finding[] {
  if (biasLowerDb <= 0) return [];
  return [
    {
      rule: 'prediction-optimistic',
      severity: 'note',
      message: `${verdict} Use the calibrated map, not the predicted one.`,
      measured: `${biasDb.toFixed(1)} dB`,
      source: 'the walk log against the prediction',
    },
  ];
}
