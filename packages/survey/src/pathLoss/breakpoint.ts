import type { FrameLevels } from './FrameLevels.js';
import { type LawForm, type SettledLaw, settleLaw } from './settleLaw.js';

/**
 * The place of a second slope that makes the likelihood greatest, and the law with it; `undefined` where no place has enough received
 * frames on either side.
 *
 * The likelihood of the place has several peaks, hence a grid before the fine search.
 */
export function findBreakpoint(
  frames: FrameLevels,
  form: LawForm,
): { readonly breakDb: number; readonly law: SettledLaw } | undefined {
  const received = frames.distanceDb.filter((_, i) => frames.received[i] === 1).sort();
  const least = received[Math.floor(0.1 * (received.length - 1))] as number;
  const most = received[Math.ceil(0.9 * (received.length - 1))] as number;
  if (!(most > least) || received.length < 10) return undefined;
  const at = (breakDb: number): number =>
    settleLaw(frames, { ...form, breakDb })?.best.logLikelihood ?? -Infinity;
  const steps = 24;
  const grid = Array.from({ length: steps + 1 }, (_, step) => least + ((most - least) * step) / steps);
  const heights = grid.map(at);
  const peak = heights.indexOf(Math.max(...heights));
  const breakDb = goldenSection(
    at,
    grid[Math.max(peak - 1, 0)] as number,
    grid[Math.min(peak + 1, steps)] as number,
  );
  const law = settleLaw(frames, { ...form, breakDb });
  return law === undefined ? undefined : { breakDb, law };
}

function goldenSection(height: (at: number) => number, from: number, to: number): number {
  const share = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  let [left, right] = [high - share * (high - low), low + share * (high - low)];
  let [leftHeight, rightHeight] = [height(left), height(right)];
  // A hundredth of a per cent of the distance is far below what frames can tell.
  while (high - low > 5e-4) {
    if (leftHeight >= rightHeight) {
      [high, right, rightHeight] = [right, left, leftHeight];
      left = high - share * (high - low);
      leftHeight = height(left);
    } else {
      [low, left, leftHeight] = [left, right, rightHeight];
      right = low + share * (high - low);
      rightHeight = height(right);
    }
  }
  return (low + high) / 2;
}
