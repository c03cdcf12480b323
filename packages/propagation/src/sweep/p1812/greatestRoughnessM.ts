import { type BlockMaxima, largeBlock, smallBlock } from '../blockMaxima.js';

/**
 * Greatest height of the ground over a straight line between two of its points, both included, in metres, or a floor where none is higher
 * than that. Exact: blocks are passed over by a bound only. Positional and unchecked.
 */
export function greatestRoughnessM(
  ground: BlockMaxima,
  stepM: number,
  startM: number,
  slope: number,
  firstIndex: number,
  lastIndex: number,
  floorM: number,
): number {
  const perPoint = slope * stepM;
  // How far the line falls within a block: the highest point may stand at its lower end.
  const fallM = Math.min(0, perPoint);
  const smallFallM = fallM * (smallBlock - 1);
  const largeFallM = fallM * (largeBlock - 1);
  let greatestM = floorM;
  let index = firstIndex;
  while (index <= lastIndex) {
    const lineM = startM + perPoint * index;
    if ((index & (largeBlock - 1)) === 0 && index + largeBlock - 1 <= lastIndex) {
      const boundM = (ground.large[index >> 6] as number) - (lineM + largeFallM);
      if (boundM <= greatestM) {
        index += largeBlock;
        continue;
      }
    }
    if ((index & (smallBlock - 1)) === 0) {
      // The block may reach past the last point: its maximum is a bound all the same.
      const boundM = (ground.small[index >> 3] as number) - (lineM + smallFallM);
      if (boundM <= greatestM) {
        index += smallBlock;
        continue;
      }
    }
    const overM = (ground.values[index] as number) - lineM;
    if (overM > greatestM) greatestM = overM;
    index += 1;
  }
  return greatestM;
}
