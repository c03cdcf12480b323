import { type ContourQuestion, coverageContours } from '@finial/propagation/export';

/** Polygons as GeoJSON writes them: each a list of closed rings of longitude and latitude, the outer one first. */
export type AreaPolygons = readonly (readonly (readonly (readonly [number, number])[])[])[];

/** The area from a figure upwards. */
export interface ContourArea {
  /** Name of the level. */
  readonly name: string;
  /** The figure from which it counts. */
  readonly leastFigure: number;
  /** Its size in square metres. */
  readonly areaM2: number;
  /** Its rings; none where no cell reaches the figure. */
  readonly polygons: AreaPolygons;
}

/** The part of the contour file that is read here. */
interface ContourCollection {
  readonly features: readonly {
    readonly properties: { readonly name: string; readonly least: number; readonly areaM2: number };
    readonly geometry: { readonly coordinates: AreaPolygons } | null;
  }[];
}

/** Areas of a view from each level upwards, the lowest level first. */
export function contourAreas(question: ContourQuestion): readonly ContourArea[] {
  const { features } = JSON.parse(coverageContours(question)) as ContourCollection;
  return features.map(({ properties: { name, least, areaM2 }, geometry }) => ({
    name,
    leastFigure: least,
    areaM2,
    polygons: geometry?.coordinates ?? [],
  }));
}
