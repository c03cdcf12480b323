/** An offset found over some spots, and how sure it is. */
interface FoundBias {
  readonly biasDb: number;
  readonly biasLowerDb: number;
  readonly biasUpperDb: number;
  readonly spots: number;
}

/** One sentence on the offset of a prediction: what was found if the interval leaves out zero, else that nothing was. */
export function verdictOf(bias: FoundBias, confidence: number, where: string): string {
  const { biasDb, biasLowerDb, biasUpperDb, spots } = bias;
  const margin = `${Math.abs(biasDb).toFixed(1)} ± ${((biasUpperDb - biasLowerDb) / 2).toFixed(1)} dB`;
  const basis = `${percent(confidence)} % confidence, ${spots} spots`;
  if (biasLowerDb > 0) return `The prediction is optimistic by ${margin}${where} (${basis}).`;
  if (biasUpperDb < 0) return `The prediction is pessimistic by ${margin}${where} (${basis}).`;
  return (
    `No offset of the prediction is proved${where}: predicted minus measured lies between ${biasLowerDb.toFixed(1)} and ` +
    `${biasUpperDb.toFixed(1)} dB (${basis}).`
  );
}

/** ` within 1 km`, as a verdict ends. */
export function withinDistance(distanceM: number): string {
  return distanceM < 1000 ? ` within ${rounded(distanceM)} m` : ` within ${rounded(distanceM / 1000)} km`;
}

function percent(ratio: number): string {
  return rounded(ratio * 100);
}

/** Four digits at most: `2.5`, not `2.500`. */
function rounded(value: number): string {
  return String(Number(value.toPrecision(4)));
}
