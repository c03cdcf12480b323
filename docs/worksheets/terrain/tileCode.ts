import type { OpenElevationOptions } from '@finial/terrain';
import { literal } from '../frame/codeOf.js';
import type { TerrainValues } from './terrainValues.js';

/** How the tiles are read. */
export function openOptions({
  fillVoids,
  coordinates,
  zone,
}: Pick<TerrainValues, 'fillVoids' | 'coordinates' | 'zone'>): OpenElevationOptions {
  const voids = fillVoids ? { voids: 'fill' as const } : {};
  if (coordinates === 'geographic') return voids;
  const hemisphere = coordinates === 'utm-north' ? 'north' : 'south';
  return { ...voids, coordinates: { kind: 'utm', zone, hemisphere } };
}

/** The lines of code that open the tiles, which are too large to stand in the code. */
export function openingCode(values: TerrainValues, names: readonly string[]): string {
  const options = openOptions(values);
  const second = Object.keys(options).length === 0 ? '' : `, ${literal(options)}`;
  const reads = names
    .map((name) => `  { name: ${literal(name)}, bytes: await readFile(${literal(name)}) },`)
    .join('\n');
  return `// The tiles are read from the folder in which this runs.
const elevation = await openElevation([
${reads}
]${second});`;
}
