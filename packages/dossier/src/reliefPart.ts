import { type Elevation, type ElevationBounds, shadedRelief } from '@finial/terrain';
import type { Position } from './position.js';

/** The ground under a map, lit from the north-west. */
export interface ReliefPart {
  /** Edges in degrees. */
  readonly bounds: ElevationBounds;
  /** Columns of the picture. */
  readonly columns: number;
  /** Rows of the picture. */
  readonly rows: number;
  /** Light on each cell in percent, row by row from the north-west; null where the ground is not known. */
  readonly litPercent: readonly (number | null)[];
}

/** Finer than this the picture only grows. */
const cellsAcross = 200;
/** Gentle hills look flat unless they are stretched. */
const exaggerationRatio = 2;
const metresPerDegree = 111_195;
/** Nearer to a pole the box would go round it. */
const farthestLatitudeDeg = 85;

/** Lights the box around a circle; nothing close to a pole. */
export function reliefPart(
  { latitudeDeg, longitudeDeg }: Position,
  radiusM: number,
  elevation: Elevation,
): ReliefPart | undefined {
  const reachDeg = radiusM / metresPerDegree;
  if (Math.abs(latitudeDeg) + reachDeg > farthestLatitudeDeg) return undefined;
  const reachEastDeg = reachDeg / Math.cos((latitudeDeg * Math.PI) / 180);
  const bounds = {
    southDeg: latitudeDeg - reachDeg,
    northDeg: latitudeDeg + reachDeg,
    westDeg: withinHalfTurn(longitudeDeg - reachEastDeg),
    eastDeg: withinHalfTurn(longitudeDeg + reachEastDeg),
  };
  const size = { columns: cellsAcross, rows: cellsAcross };
  const { litRatio } = shadedRelief(elevation, { bounds, ...size, exaggerationRatio });
  const litPercent = Array.from(litRatio, (lit) => (Number.isNaN(lit) ? null : Math.round(lit * 100)));
  return { bounds, ...size, litPercent };
}

function withinHalfTurn(longitudeDeg: number): number {
  return ((((longitudeDeg + 180) % 360) + 360) % 360) - 180;
}
