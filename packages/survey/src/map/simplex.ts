/**
 * Where a function of a few numbers is least, near a start: Nelder and Mead's simplex, begun again from its own answer until that
 * gains nothing.
 *
 * Source: J. A. Nelder, R. Mead, Computer Journal 7 (1965) 308 (from memory).
 */
export function leastBySimplex(
  costOf: (x: readonly number[]) => number,
  start: readonly number[],
  step: number,
): readonly number[] {
  let best = descend(costOf, start, step);
  for (let round = 0; round < 8; round += 1) {
    const again = descend(costOf, best.x, step / 4);
    const gain = best.value - again.value;
    if (again.value <= best.value) best = again;
    if (!(gain > 1e-11 * (1 + Math.abs(best.value)))) break;
  }
  return best.x;
}

interface Corner {
  readonly x: readonly number[];
  readonly value: number;
}

function descend(costOf: (x: readonly number[]) => number, start: readonly number[], step: number): Corner {
  const corner = (x: readonly number[]): Corner => ({ x, value: costOf(x) });
  const corners = [
    corner(start),
    ...start.map((_, i) => corner(start.map((v, j) => (i === j ? v + step : v)))),
  ];
  for (let turn = 0; turn < 400; turn += 1) {
    corners.sort((a, b) => a.value - b.value);
    const [best, worst] = [corners[0] as Corner, corners.at(-1) as Corner];
    const width = Math.max(...worst.x.map((v, i) => Math.abs(v - (best.x[i] as number))));
    if (worst.value - best.value <= 1e-13 * (1 + Math.abs(best.value)) && width < 1e-5) break;
    const rest = corners.slice(0, -1);
    const middle = start.map((_, i) => rest.reduce((sum, { x }) => sum + (x[i] as number), 0) / rest.length);
    const along = (share: number) => corner(middle.map((v, i) => v + share * ((worst.x[i] as number) - v)));
    const mirrored = along(-1);
    if (mirrored.value < best.value) {
      const farther = along(-2);
      corners[corners.length - 1] = farther.value < mirrored.value ? farther : mirrored;
    } else if (mirrored.value < (rest.at(-1) as Corner).value) {
      corners[corners.length - 1] = mirrored;
    } else {
      const nearer = along(mirrored.value < worst.value ? -0.5 : 0.5);
      if (nearer.value < Math.min(worst.value, mirrored.value)) corners[corners.length - 1] = nearer;
      else {
        const shrunk = corners
          .slice(1)
          .map(({ x }) => corner(x.map((v, i) => (v + (best.x[i] as number)) / 2)));
        corners.splice(1, shrunk.length, ...shrunk);
      }
    }
  }
  return corners.reduce((least, each) => (each.value < least.value ? each : least));
}
