import { dwellIntervalSeconds } from '../dwellTime.js';
import { secondsSlack } from '../figures.js';
import type { TimeLimit } from './Jurisdiction.js';

/**
 * Shortest interval in seconds between the starts of equal frames under a limit, if it sets one. A frame that is too long for the limit
 * has none, except under a share of the time: there a longer silence makes up for it.
 */
export function lawfulIntervalSeconds(limit: TimeLimit, onAirSeconds: number): number | undefined {
  const { kind, budgetSeconds, windowSeconds, longestSeconds, pauseSeconds } = limit;
  if (kind === 'share') return (onAirSeconds * windowSeconds) / budgetSeconds;
  if (longestSeconds !== undefined && onAirSeconds > longestSeconds + secondsSlack) return undefined;
  if (kind === 'burst') return pauseSeconds === undefined ? undefined : onAirSeconds + pauseSeconds;
  const timeOnAirSeconds = Math.min(onAirSeconds, budgetSeconds);
  return dwellIntervalSeconds({ timeOnAirSeconds, dwellSeconds: budgetSeconds, windowSeconds });
}
