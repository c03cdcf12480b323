import { InputError } from '@finial/units';
import { skip } from './chosenUplinks.js';
import { type CountedUplink, type CounterSession, countedLog } from './counterSessions.js';
import type {
  JoinedSession,
  JoinTrackOptions,
  NodeSettings,
  SentFrame,
  SkippedUplink,
} from './JoinedWalk.js';
import { likelyPeriodSeconds, type SendingClock, sendingClock } from './sendingClock.js';
import { secondsOf, type TimedUplink } from './timeline.js';

/** A sent frame before it has a place. */
export interface SentAt {
  readonly timeSeconds: number;
  readonly counter: number | undefined;
  readonly uplink: TimedUplink | undefined;
  /** Settings that the uplinks around a missed frame agree on. */
  readonly settings: NodeSettings;
}

/** What {@link sentFrames} finds. */
export interface SentWalk {
  readonly frames: readonly SentAt[];
  readonly sessions: readonly JoinedSession[];
  readonly warnings: readonly string[];
}

/** Every frame that the node is known to have sent. */
export function sentFrames(
  chosen: readonly TimedUplink[],
  options: JoinTrackOptions,
  endSeconds: number,
  skipped: SkippedUplink[],
): SentWalk {
  const counted = chosen.filter(({ uplink }) => uplink.counter !== undefined);
  const uncounted = chosen.filter(({ uplink }) => uplink.counter === undefined);
  const highest = counted.reduce((most, { uplink }) => Math.max(most, uplink.counter ?? 0), 0);
  const { counterBits = highest > 65_535 ? 32 : 16 } = options;
  const period = options.periodSeconds ?? shownPeriodSeconds(counted);
  const { sessions, repeats } = countedLog(counted, counterBits, period);
  for (const repeat of repeats) skipped.push(skip(repeat, 'repeated-frame'));
  const clocks = sessions.map(({ uplinks }) => sendingClock(uplinks, options.periodSeconds));
  const walk: Walk = { sessions, clocks, options, endSeconds, turn: 2 ** counterBits };
  const frames =
    options.sent === undefined
      ? framesByCounter(walk, skipped)
      : framesBySentList(walk, options.sent, skipped);
  for (const one of uncounted) {
    frames.push({ timeSeconds: one.timeSeconds, counter: undefined, uplink: one, settings: {} });
  }
  frames.sort((one, other) => one.timeSeconds - other.timeSeconds);
  return {
    frames,
    sessions: sessions.map((session, index) => joinedSession(session, clocks[index])),
    warnings: [
      ...sessionWarnings(walk),
      ...(uncounted.length === 0
        ? []
        : [`${uncounted.length} uplinks have no counter: frames missed around them cannot be known`]),
    ],
  };
}

/** A first look at the period, before roll-overs and resets are known: most steps have neither. */
function shownPeriodSeconds(counted: readonly TimedUplink[]): number | undefined {
  const steps = counted.map(({ uplink, timeSeconds }) => ({ number: uplink.counter ?? 0, timeSeconds }));
  const pairs = steps.flatMap((late, index) => {
    const early = steps[index - 1];
    const slope = early === undefined ? undefined : likelyPeriodSeconds([early, late]);
    return slope === undefined ? [] : [slope];
  });
  pairs.sort((one, other) => one - other);
  return pairs[Math.floor(pairs.length / 2)];
}

interface Walk {
  readonly sessions: readonly CounterSession[];
  readonly clocks: readonly (SendingClock | undefined)[];
  readonly options: JoinTrackOptions;
  readonly endSeconds: number;
  readonly turn: number;
}

function framesByCounter(
  { sessions, clocks, options, endSeconds, turn }: Walk,
  skipped: SkippedUplink[],
): SentAt[] {
  const frames: SentAt[] = [];
  let room = options.maximumMissedFrames ?? 1_000_000;
  sessions.forEach((session, index) => {
    const clock = clocks[index];
    const heard = [...session.uplinks].sort((one, other) => one.number - other.number);
    const isFirst = index === 0;
    const isLast = index === sessions.length - 1;
    const first = heard[0]?.number ?? 0;
    const top = heard.at(-1)?.number ?? 0;
    const from = isFirst ? (options.firstCounter ?? first) : 0;
    // The caller counts like the log: a counter below the first one has rolled over.
    const last = isLast ? lastNumber(options.lastCounter, from, first, turn) : undefined;
    const to = last ?? top;
    const inside: CountedUplink[] = [];
    for (const one of heard) {
      if (one.number >= from && one.number <= to) inside.push(one);
      else skipped.push(skip(one, 'outside-sent-range'));
    }
    const notBefore = isFirst ? undefined : sessions[index - 1]?.uplinks.at(-1)?.timeSeconds;
    const ends = isLast && options.toTrackEnd === true && last === undefined ? endSeconds : undefined;
    const missed = missedFrames({ heard: inside, clock, from, to, notBefore, ends, room });
    room -= missed.length;
    for (const one of inside) {
      frames.push({ timeSeconds: one.timeSeconds, counter: one.uplink.counter, uplink: one, settings: {} });
    }
    for (const one of missed) frames.push({ ...one, counter: one.counter % turn });
  });
  return frames;
}

function lastNumber(
  lastCounter: number | undefined,
  from: number,
  first: number,
  turn: number,
): number | undefined {
  if (lastCounter === undefined) return undefined;
  return lastCounter < Math.min(from, first) ? lastCounter + turn : lastCounter;
}

interface MissedQuestion {
  readonly heard: readonly CountedUplink[];
  readonly clock: SendingClock | undefined;
  readonly from: number;
  readonly to: number;
  /** No frame can have been sent before this. */
  readonly notBefore: number | undefined;
  /** Frames go on until this, beyond `to`. */
  readonly ends: number | undefined;
  readonly room: number;
}

interface MissedFrame extends SentAt {
  readonly counter: number;
  readonly uplink: undefined;
}

function missedFrames({
  heard,
  clock,
  from,
  to,
  notBefore,
  ends,
  room,
}: MissedQuestion): readonly MissedFrame[] {
  const missed: MissedFrame[] = [];
  const add = (number: number, before: CountedUplink | undefined, after: CountedUplink | undefined): void => {
    if (missed.length >= room) throw tooManyMissed(missed.length);
    const timeSeconds = sendingTime(number, before, after, clock);
    if (notBefore !== undefined && timeSeconds <= notBefore) return;
    missed.push({ timeSeconds, counter: number, uplink: undefined, settings: agreed(before, after) });
  };
  let number = from;
  // Frames that the clock puts before the session began are not walked through one by one.
  if (notBefore !== undefined && clock !== undefined) {
    number = Math.max(from, Math.floor((notBefore - clock.zeroSeconds) / clock.periodSeconds));
  }
  let before: CountedUplink | undefined;
  for (const after of heard) {
    for (; number < after.number; number += 1) add(number, before, after);
    number = after.number + 1;
    before = after;
  }
  for (; number <= to; number += 1) add(number, before, undefined);
  if (ends !== undefined) {
    for (; sendingTime(number, before, undefined, clock) <= ends; number += 1) add(number, before, undefined);
  }
  return missed;
}

/** By the clock where the log keeps to it, else evenly between the uplinks before and after. */
function sendingTime(
  number: number,
  before: CountedUplink | undefined,
  after: CountedUplink | undefined,
  clock: SendingClock | undefined,
): number {
  const isRegular = clock !== undefined && clock.worstErrorSeconds <= clock.periodSeconds;
  if (isRegular) return clock.zeroSeconds + number * clock.periodSeconds;
  if (before !== undefined && after !== undefined) {
    const share = (number - before.number) / (after.number - before.number);
    return before.timeSeconds + share * (after.timeSeconds - before.timeSeconds);
  }
  const anchor = before ?? after;
  if (clock === undefined || anchor === undefined) {
    throw new InputError({
      code: 'missing',
      argument: 'periodSeconds',
      received: undefined,
      expected: 'the time between two frames, since the log does not show it',
    });
  }
  return anchor.timeSeconds + (number - anchor.number) * clock.periodSeconds;
}

function tooManyMissed(count: number): InputError {
  return new InputError({
    code: 'out-of-range',
    argument: 'uplinks',
    received: undefined,
    expected: `at most ${count} missed frames (maximumMissedFrames); is a counter misread?`,
  });
}

/** A node that changed its settings while nothing was heard did so at an unknown frame: then nothing is said. */
function agreed(before: CountedUplink | undefined, after: CountedUplink | undefined): NodeSettings {
  const [one, other] = [before ?? after, after ?? before];
  const same = <Field extends 'spreadingFactor' | 'bandwidthHz'>(field: Field): NodeSettings => {
    const value = one?.uplink[field];
    return value === undefined || value !== other?.uplink[field] ? {} : { [field]: value };
  };
  return { ...same('spreadingFactor'), ...same('bandwidthHz') };
}

function framesBySentList(
  { sessions, turn, options }: Walk,
  sent: readonly SentFrame[],
  skipped: SkippedUplink[],
): SentAt[] {
  const numbers = sentNumbers(sent, turn);
  const heard = new Map<number, CountedUplink>();
  for (const one of sessions.flatMap(({ uplinks }) => uplinks)) {
    const number = numbers.get(one.uplink.counter ?? 0);
    if (number === undefined) skipped.push(skip(one, 'not-in-sent-list'));
    else if (heard.has(number)) skipped.push(skip(one, 'repeated-frame'));
    else heard.set(number, { ...one, number });
  }
  const inOrder = [...heard.values()].sort((one, other) => one.number - other.number);
  const clock = sendingClock(inOrder, options.periodSeconds);
  return sent.map(({ counter, timeUtc }, index) => {
    const number = numbers.get(counter) ?? counter;
    const uplink = heard.get(number);
    if (uplink !== undefined) return { timeSeconds: uplink.timeSeconds, counter, uplink, settings: {} };
    const after = inOrder.find((one) => one.number > number);
    const before = inOrder.findLast((one) => one.number < number);
    const timeSeconds =
      timeUtc === undefined
        ? sendingTime(number, before, after, clock)
        : secondsOf(timeUtc, `sent[${index}].timeUtc`);
    return { timeSeconds, counter, uplink: undefined, settings: agreed(before, after) };
  });
}

/** The counters of the list laid out without roll-overs: where one is below that before it, the counter rolled over. */
function sentNumbers(sent: readonly SentFrame[], turn: number): ReadonlyMap<number, number> {
  const numbers = new Map<number, number>();
  let above = 0;
  sent.forEach(({ counter }, index) => {
    if (counter < (sent[index - 1]?.counter ?? counter)) above += turn;
    numbers.set(counter, counter + above);
  });
  return numbers;
}

function joinedSession(
  { uplinks, rollOverCount }: CounterSession,
  clock: SendingClock | undefined,
): JoinedSession {
  return {
    firstCounter: uplinks[0]?.uplink.counter ?? 0,
    lastCounter: uplinks.at(-1)?.uplink.counter ?? 0,
    receivedFrames: uplinks.length,
    rollOverCount,
    ...(clock === undefined
      ? {}
      : { periodSeconds: clock.periodSeconds, worstClockErrorSeconds: clock.worstErrorSeconds }),
  };
}

function sessionWarnings({ sessions, clocks, options }: Walk): readonly string[] {
  const warnings: string[] = [];
  if (sessions.length > 1) {
    warnings.push(
      `the counter began again ${sessions.length - 1} times: frames between the last uplink before and the new beginning are not known`,
    );
    if (options.sent !== undefined)
      warnings.push('the list of sent frames was matched across that beginning');
  }
  for (const clock of clocks) {
    if (clock === undefined || clock.worstErrorSeconds <= clock.periodSeconds) continue;
    warnings.push(
      'the node did not send regularly, so missed frames are spread evenly between the uplinks around them',
    );
    break;
  }
  return warnings;
}
