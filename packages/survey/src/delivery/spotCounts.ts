import { checkInteger, checkList, checkObject, InputError } from '@finial/units';
import type { FrameCount } from '../deliveryRatio.js';

/** Sums over the spots of a walk. */
export interface SpotSums {
  readonly spotCount: number;
  readonly received: number;
  readonly sent: number;
  /** Mean frames of the spot that a frame comes from: the sum of squares over the sum, which is what the design effect goes by. */
  readonly weightedSpotFrames: number;
}

/** Refuses anything but two or more spots with counts. */
export function checkSpotCounts(spots: readonly FrameCount[]): readonly FrameCount[] {
  checkList(spots, 'spots').forEach((spot, index) => {
    checkObject(spot, `spots[${index}]`);
    const sent = checkInteger(spot.sent, `spots[${index}].sent`, { min: 1, max: 100_000, unit: 'frames' });
    checkInteger(spot.received, `spots[${index}].received`, { min: 0, max: sent, unit: 'frames' });
  });
  if (spots.length < 2) {
    const expected = 'at least two spots: one spot says nothing of how spots differ';
    throw new InputError({ code: 'missing', argument: 'spots', received: spots, expected });
  }
  return spots;
}

/** Sums of checked spots. */
export function spotSums(spots: readonly FrameCount[]): SpotSums {
  let received = 0;
  let sent = 0;
  let squares = 0;
  for (const spot of spots) {
    received += spot.received;
    sent += spot.sent;
    squares += spot.sent * spot.sent;
  }
  return { spotCount: spots.length, received, sent, weightedSpotFrames: squares / sent };
}
