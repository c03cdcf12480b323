/**
 * Greatest height of the ground over the smooth line between two of its points, both included, in metres; it may be negative. Positional
 * and unchecked.
 *
 * @source Recommendation ITU-R P.1812-8 (09/2025), Attachment 1 to Annex 1, terrain roughness of the ducting model
 */
export function roughnessM(
  distanceM: Float64Array,
  groundM: Float64Array,
  smoothTransmitterM: number,
  smoothReceiverM: number,
  firstIndex: number,
  lastIndex: number,
): number {
  const slope = (smoothReceiverM - smoothTransmitterM) / (distanceM[distanceM.length - 1] as number);
  let greatestM = Number.NEGATIVE_INFINITY;
  for (let i = firstIndex; i <= lastIndex; i++) {
    const lineM = smoothTransmitterM + slope * (distanceM[i] as number);
    greatestM = Math.max(greatestM, (groundM[i] as number) - lineM);
  }
  return greatestM;
}
