import { clutterProfile, destination, profile, type TerrainProfile } from '@finial/terrain';
import { checkObject, InputError, isInputError } from '@finial/units';
import type { PathModel, RadioPath } from '../path/RadioPath.js';
import type { SweepSettings } from './checkModel.js';
import { nextTurn } from './nextTurn.js';
import { sweepGeometry } from './SweepGeometry.js';
import type { SectorResult } from './SweepJob.js';
import type { SweepWatch } from './SweepWatch.js';
import type { SweptGround } from './SweptGround.js';

/** The losses that a model of the caller gives, and what it said of them. */
export interface UserModelResult extends SectorResult {
  readonly warnings: readonly string[];
}

const cellsPerTurn = 64;

/** Most different warnings that are kept: one with a number in it may be another at each cell. */
const mostWarnings = 20;

/** Many models want some points to work with, also beside the gateway. */
const leastSteps = 4;

/** Asks a model of the caller about every cell, each on the profile of its own geodesic. Unchecked. */
export async function sweepUserModel(
  settings: SweepSettings,
  model: PathModel,
  ground: SweptGround,
  { signal, onDoneRatio }: SweepWatch,
): Promise<UserModelResult> {
  const { radiusM, cellM, radialFactor = 1 } = settings;
  const { order, size } = sweepGeometry(radiusM, cellM, radialFactor);
  const lossDb = new Float32Array(order.length).fill(Number.NaN);
  const warnings = new Set<string>();
  let missingCount = 0;
  for (const [place, cell] of order.entries()) {
    const path = pathToCell(settings, ground, cell, size);
    if (path === undefined) missingCount += 1;
    else lossDb[place] = lossOf(model, path, warnings);
    if ((place + 1) % cellsPerTurn !== 0) continue;
    onDoneRatio((place + 1) / order.length);
    await nextTurn();
    signal?.throwIfAborted();
  }
  return { cellIndex: order, lossDb, missingCount, warnings: [...warnings].slice(0, mostWarnings) };
}

function lossOf(model: PathModel, path: RadioPath, kept: Set<string>): number {
  const { lossDb, warnings } = checkObject(model(path), 'model(path)');
  for (const warning of warnings) if (kept.size < mostWarnings) kept.add(warning);
  if (Number.isFinite(Math.fround(lossDb))) return lossDb;
  throw new InputError({
    code: 'not-a-finite-number',
    argument: 'model(path).lossDb',
    received: lossDb,
    expected: 'a finite number of dB',
  });
}

/** The path to the middle of a cell; `undefined` where the ground on it is not known. */
function pathToCell(
  settings: SweepSettings,
  { elevation, landCover }: SweptGround,
  cell: number,
  size: number,
): RadioPath | undefined {
  const { gateway, cellM } = settings;
  const middle = (size - 1) / 2;
  const eastM = ((cell % size) - middle) * cellM;
  const northM = (middle - Math.floor(cell / size)) * cellM;
  const distanceM = Math.sqrt(eastM * eastM + northM * northM);
  const azimuthDeg = (Math.atan2(eastM, northM) * 180) / Math.PI;
  try {
    const to = destination({ from: gateway.position, azimuthDeg, distanceM });
    const along = profile(elevation, gateway.position, to, {
      stepM: Math.min(cellM, distanceM / leastSteps),
    });
    return pathAlong(settings, along, landCover && clutterProfile(landCover, along).clutterHeightM);
  } catch (error) {
    if (isInputError(error) && error.argument === 'elevation') return undefined;
    throw error;
  }
}

function pathAlong(
  { gateway, frequencyHz, polarisation, receiverHeightM, clutterHeightM, seaLevelM }: SweepSettings,
  { distanceM, heightM }: TerrainProfile,
  cover: Float64Array | undefined,
): RadioPath {
  const isSea = (height: number): boolean => seaLevelM !== undefined && height <= seaLevelM;
  const clutterAt = (point: number): number => cover?.[point] ?? clutterHeightM ?? 0;
  return {
    frequencyHz,
    distanceM,
    heightM,
    // The same as in a sweep: no clutter stands in the sea.
    clutterHeightM: heightM.map((height, point) => (isSea(height) ? 0 : clutterAt(point))),
    zone:
      seaLevelM === undefined
        ? undefined
        : Array.from(heightM, (height) => (isSea(height) ? 'sea' : 'inland')),
    transmitterHeightM: gateway.antennaHeightM,
    receiverHeightM,
    polarisation,
  };
}
