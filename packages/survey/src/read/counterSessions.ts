import type { TimedUplink } from './timeline.js';

/** An uplink with its counter laid out without roll-overs. */
export interface CountedUplink extends TimedUplink {
  /** Frames of the session before this one, roll-overs included; rises by one from frame to frame. */
  readonly number: number;
}

/** Uplinks between two resets of the counter. */
export interface CounterSession {
  /** In the order of time; each number once. */
  readonly uplinks: readonly CountedUplink[];
  /** How often the counter rolled over. */
  readonly rollOverCount: number;
}

/** What the counters say. */
export interface CountedLog {
  readonly sessions: readonly CounterSession[];
  /** Second and later receptions of one frame. */
  readonly repeats: readonly TimedUplink[];
}

/** A frame logged this much late is still the same frame's place in the sequence, and not a reset. */
const lateFrames = 8;
/** How far a jump may run ahead of the sending period: the node may for a while have sent faster. */
const hurry = 4;
/** A confirmed frame is repeated within a few pauses, or not at all. */
const repeatPauses = 2;
/** The pause between frames where nobody says it and no two frames show it. */
const usualPauseSeconds = 30;

interface OpenSession {
  readonly uplinks: CountedUplink[];
  /** When each number was first heard. */
  readonly times: Map<number, number>;
  rollOverCount: number;
  /** The uplink with the highest number. */
  top: CountedUplink;
}

/**
 * Cuts uplinks, sorted by time, into sessions. A step back is a roll-over where so many frames fit into the time that passed, a
 * late entry where it is short and soon, and else a reset; so is a step forward that no sender could have made in the time.
 */
export function countedLog(
  uplinks: readonly TimedUplink[],
  counterBits: 16 | 32,
  periodSeconds: number | undefined,
): CountedLog {
  const turn = 2 ** counterBits;
  const sessions: OpenSession[] = [];
  const repeats: TimedUplink[] = [];
  let session: OpenSession | undefined;
  for (const timed of uplinks) {
    const counter = timed.uplink.counter ?? 0;
    const number = session === undefined ? undefined : numberIn(session, timed, counter, turn, periodSeconds);
    if (session === undefined || number === undefined) {
      const first = { ...timed, number: counter };
      session = {
        uplinks: [first],
        times: new Map([[counter, timed.timeSeconds]]),
        rollOverCount: 0,
        top: first,
      };
      sessions.push(session);
      continue;
    }
    if (session.times.has(number)) {
      repeats.push(timed);
      continue;
    }
    const counted = { ...timed, number };
    session.times.set(number, timed.timeSeconds);
    session.uplinks.push(counted);
    session.rollOverCount = Math.max(session.rollOverCount, Math.floor(number / turn));
    if (number > session.top.number) session.top = counted;
  }
  return { sessions, repeats };
}

/** The frame's number in the running session, or `undefined` where it must belong to a new one. */
function numberIn(
  { top, times }: OpenSession,
  { timeSeconds }: TimedUplink,
  counter: number,
  turn: number,
  periodSeconds: number | undefined,
): number | undefined {
  const passedSeconds = timeSeconds - top.timeSeconds;
  const fits = (frames: number): boolean =>
    periodSeconds === undefined || frames * periodSeconds <= hurry * passedSeconds + 10 * periodSeconds;
  const back = Math.floor(top.number / turn) * turn + counter;
  if (back > top.number) return fits(back - top.number) ? back : undefined;
  const heardSeconds = times.get(back);
  const pauseSeconds = periodSeconds ?? usualPauseSeconds;
  // A frame heard twice comes again before the node sends on; one that is late does so within the frames it lags behind.
  const sinceSeconds = heardSeconds === undefined ? passedSeconds : timeSeconds - heardSeconds;
  const lag = heardSeconds === undefined ? top.number - back + 1 : repeatPauses;
  if (top.number - back <= lateFrames && sinceSeconds <= lag * pauseSeconds) return back;
  const around = back + turn - top.number;
  // Without a period a roll-over is believed only close to the end of the range.
  const believed = periodSeconds === undefined ? around <= turn / 16 : fits(around);
  return believed ? back + turn : undefined;
}
