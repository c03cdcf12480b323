import type { Elevation } from '@finial/terrain';
import { isInputError } from '@finial/units';
import { distanceToM, type GroundPath, groundPath } from './groundPath.js';
import type { Plan } from './plan.js';
import type { Position } from './position.js';
import type { TerrainPlan } from './terrainPlan.js';

/** A place that the page can show the ground to. */
export interface NamedPlace {
  /** What it is called. */
  readonly name: string;
  /** Where it is. */
  readonly position: Position;
}

/** The ground between the gateway and a place, in as many points as a picture shows; heights and distances of points to a decimetre. */
export interface PlacePath extends NamedPlace, Omit<GroundPath, 'heightM' | 'prediction'> {
  /** Loss by Recommendation ITU-R P.1812 in dB. */
  readonly lossDb: number;
}

/** Nearer than this there is no path to speak of, and the model has no answer. */
const nearestM = 30;
/** Points of a picture; more are not seen. */
const mostPoints = 64;

/** The ground to each place; a place beside the gateway or outside the elevation files has none. */
export function placePaths(
  plan: Plan,
  terrain: TerrainPlan,
  elevation: Elevation,
  places: readonly NamedPlace[],
): readonly PlacePath[] {
  return places.flatMap(({ name, position }) => {
    if (distanceToM(plan.gateway.position, position) < nearestM) return [];
    const path = knownPath(plan, terrain, elevation, position);
    return path === undefined ? [] : [{ name, position, ...forPicture(path) }];
  });
}

function knownPath(
  plan: Plan,
  terrain: TerrainPlan,
  elevation: Elevation,
  to: Position,
): GroundPath | undefined {
  try {
    return groundPath(plan, terrain, elevation, to);
  } catch (error) {
    if (!isInputError(error)) throw error;
    return undefined;
  }
}

function forPicture({ heightM, prediction, ...path }: GroundPath): Omit<PlacePath, keyof NamedPlace> {
  const kept = highestOfEach(path.raisedM, mostPoints);
  const at = (series: readonly number[]) =>
    kept.map((index) => Math.round((series[index] as number) * 10) / 10);
  return {
    ...path,
    distanceM: at(path.distanceM),
    raisedM: at(path.raisedM),
    fresnelLowerM: at(path.fresnelLowerM),
    lossDb: prediction.lossDb,
  };
}

/** Indices of both ends and of the highest point of each stretch between, so that no ridge is lost to the thinning. */
function highestOfEach(heightM: readonly number[], most: number): number[] {
  const last = heightM.length - 1;
  const stretch = Math.max(1, (last - 1) / (most - 2));
  const kept = [0];
  for (let from = 1; from < last; from += stretch) {
    const indices = [];
    for (let index = Math.ceil(from); index < Math.min(last, from + stretch); index += 1) indices.push(index);
    const highest = indices.toSorted((a, b) => (heightM[b] as number) - (heightM[a] as number))[0];
    if (highest !== undefined) kept.push(highest);
  }
  return [...kept, last];
}
