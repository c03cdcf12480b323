import type { ElevationTile } from '../parts.js';

/** What the coordinates of a file are: degrees, or metres in a zone of the Universal Transverse Mercator grid; WGS 84. */
export type FileCoordinates =
  | {
      /** Degrees of latitude and longitude. */
      readonly kind: 'geographic';
    }
  | {
      /** Metres in a zone. */
      readonly kind: 'utm';
      /** UTM zone, 1 to 60. */
      readonly zone: number;
      /** Hemisphere of the zone: southern northings count from 10 000 km at the equator. */
      readonly hemisphere: 'north' | 'south';
    };

/** Where the centre of the north-western cell lies and how far cells are apart, in the unit of the coordinates. */
export interface CellLayout {
  readonly north: number;
  readonly west: number;
  readonly rowStep: number;
  readonly columnStep: number;
}

/** The grid of a tile from the layout of a file. */
export function gridOf(
  coordinates: FileCoordinates,
  { north, west, rowStep, columnStep }: CellLayout,
): ElevationTile['grid'] {
  if (coordinates.kind === 'geographic') {
    return {
      kind: 'geographic',
      northDeg: north,
      westDeg: west,
      rowStepDeg: rowStep,
      columnStepDeg: columnStep,
    };
  }
  const { zone, hemisphere } = coordinates;
  return {
    kind: 'utm',
    zone,
    hemisphere,
    northM: north,
    westM: west,
    rowStepM: rowStep,
    columnStepM: columnStep,
  };
}
