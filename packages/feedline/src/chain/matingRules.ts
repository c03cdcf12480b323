import type { Connector } from '../catalogue/parts.js';
import type { StatedEnd } from './partEnd.js';

/** What the shapes of two connector halves say about each other. */
export interface MatingOutcome {
  readonly mates: boolean;
  readonly harmful: boolean;
  readonly looksJoined: boolean;
  readonly reason: string;
}

/** Series whose contacts have one size at 50 and at 75 ohms: the halves join, and the impedance steps. The second is from memory. */
const oneContactSizeForBothImpedances: readonly string[] = ['BNC', 'TNC'];
/** Different series made to join, in normal polarity. */
const joiningSeries: readonly (readonly [string, string])[] = [['SMA', 'precision 3.5 mm']];

/**
 * Judges two halves by their shapes, in a fixed order of questions: series, gender, polarity, impedance. The ends come sorted, plug first, so
 * that the answer does not depend on who is asked first.
 */
export function matingOutcome(
  first: StatedEnd,
  second: StatedEnd,
  connectors: readonly Connector[],
): MatingOutcome {
  if (first.series !== second.series && !areJoiningSeries(first, second)) {
    return differentSeries(first, second, connectors);
  }
  if (first.gender === second.gender)
    return apart(`two ${first.gender}s do not join: one plug and one jack are needed`);
  if (first.polarity !== second.polarity) return differentPolarity(first);
  if (first.impedanceOhm !== second.impedanceOhm) return differentImpedance(first, second);
  const reason =
    first.series === second.series
      ? 'one series, opposite genders, one polarity, one impedance'
      : `${first.series} and ${second.series} are made to join; only with a clean contact of true size`;
  return { mates: true, harmful: false, looksJoined: true, reason };
}

function apart(reason: string): MatingOutcome {
  return { mates: false, harmful: false, looksJoined: false, reason };
}

function areJoiningSeries(first: StatedEnd, second: StatedEnd): boolean {
  return joiningSeries.some((pair) => pair.includes(first.series) && pair.includes(second.series));
}

function differentSeries(
  first: StatedEnd,
  second: StatedEnd,
  connectors: readonly Connector[],
): MatingOutcome {
  const thread = threadOf(first, connectors);
  const isOneThread = thread !== undefined && thread === threadOf(second, connectors);
  if (isOneThread && first.gender !== second.gender) {
    const reason = `both have the thread ${thread} but different interfaces: do not force them together`;
    return { mates: false, harmful: true, looksJoined: false, reason };
  }
  return apart(`${first.series} and ${second.series} are different series`);
}

function threadOf({ series }: StatedEnd, connectors: readonly Connector[]): string | undefined {
  return connectors.find((row) => row.series === series)?.thread;
}

/** The bodies join whatever the contacts are, which is the trap. */
function differentPolarity(plug: StatedEnd): MatingOutcome {
  return plug.polarity === 'normal'
    ? {
        mates: false,
        harmful: true,
        looksJoined: true,
        reason: 'the bodies join, pin meets pin: a bent contact, or none',
      }
    : {
        mates: false,
        harmful: false,
        looksJoined: true,
        reason: 'the bodies join, socket faces socket: no contact, although it looks joined',
      };
}

function differentImpedance(plug: StatedEnd, jack: StatedEnd): MatingOutcome {
  const { series } = plug;
  const step = `${plug.impedanceOhm} ohms meet ${jack.impedanceOhm} ohms`;
  if (oneContactSizeForBothImpedances.includes(series)) {
    return { mates: true, harmful: false, looksJoined: true, reason: `joins, and ${step}` };
  }
  if (series === 'N' && plug.impedanceOhm < jack.impedanceOhm) {
    const reason = `${step}: the thicker pin of the plug spreads the contact of the jack for good`;
    return { mates: false, harmful: true, looksJoined: true, reason };
  }
  if (series === 'N') {
    const reason = `${step}: the thinner pin of the plug makes no sure contact, although it looks joined`;
    return { mates: false, harmful: false, looksJoined: true, reason };
  }
  return apart(`${step}, and ${series} parts of both impedances are not known to join`);
}
