import { InputError } from '@finial/units';
import type { ElevationSampler } from './tile/elevationSampler.js';

/**
 * The refusal for a point of a line that has no height: `missing` at a void, `out-of-range` outside all tiles.
 *
 * @param where - where on the line the point lies, in words
 */
export function missingHeight(
  sampler: ElevationSampler,
  [latitudeDeg, longitudeDeg]: readonly [latitudeDeg: number, longitudeDeg: number],
  where: string,
): InputError {
  const isVoid = sampler.covers(latitudeDeg, longitudeDeg);
  const place = `latitude ${latitudeDeg.toFixed(6)}, longitude ${longitudeDeg.toFixed(6)}`;
  return new InputError({
    code: isVoid ? 'missing' : 'out-of-range',
    argument: 'elevation',
    received: isVoid ? 'a void' : 'outside every tile',
    expected: `a height ${where}, at ${place}`,
  });
}
