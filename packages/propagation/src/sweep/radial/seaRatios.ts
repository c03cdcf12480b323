import type { RadialGround } from './RadialGround.js';

/** Writes the part of each receiver's path that lies over the sea, 0 to 1: a gap counts whole if both its ends are sea, half if one is. */
export function seaRatios(ground: RadialGround, ratio: Float64Array): void {
  const { pointCount, distanceM, isSea, receiverCount, receiverDistanceM, receiverIsSea } = ground;
  let seaM = 0;
  let next = 1;
  for (let receiver = 0; receiver < receiverCount; receiver += 1) {
    const lengthM = receiverDistanceM[receiver] as number;
    for (; next < pointCount && (distanceM[next] as number) < lengthM; next += 1) {
      const ends = (isSea[next] as number) + (isSea[next - 1] as number);
      seaM += (ends / 2) * ground.stepM;
    }
    const ends = (receiverIsSea[receiver] as number) + (isSea[next - 1] as number);
    const lastGapM = lengthM - (distanceM[next - 1] as number);
    ratio[receiver] = Math.min(1, (seaM + (ends / 2) * lastGapM) / lengthM);
  }
}
