import {
  decibelSlack,
  decibels,
  milliseconds,
  percent,
  seconds,
  secondsSlack,
  waitSeconds,
} from '../figures.js';
import { findingUnder } from '../findingUnder.js';
import type { TransmissionFinding } from '../Transmission.js';
import type { FrameOnAir, TimeLimit } from './Jurisdiction.js';
import { lawfulIntervalSeconds } from './lawfulInterval.js';

/** What a limit on time says about a frame and, where it is known, about the interval at which it is sent. */
export function timeFindings(limit: TimeLimit, frame: FrameOnAir): TransmissionFinding[] {
  const onAirSeconds = onAirUnder(limit, frame);
  const tooLong = lengthFindings(limit, frame, onAirSeconds);
  const interval = lawfulIntervalSeconds(limit, onAirSeconds);
  if (interval === undefined) return tooLong;
  return [...tooLong, ...paceFindings(limit, frame, onAirSeconds, interval), ...freeNotes(limit, frame)];
}

/** What of a frame a limit counts: all of it, or its longest hop. */
export function onAirUnder(
  limit: TimeLimit,
  frame: Pick<FrameOnAir, 'timeOnAirSeconds' | 'longestHopSeconds'>,
): number {
  return limit.perHop === true ? frame.longestHopSeconds : frame.timeOnAirSeconds;
}

function lengthFindings(limit: TimeLimit, frame: FrameOnAir, onAirSeconds: number): TransmissionFinding[] {
  const { longestSeconds } = limit;
  if (longestSeconds === undefined || onAirSeconds <= longestSeconds + secondsSlack) return [];
  const shorter = frame.shorterThan(longestSeconds, limit.perHop === true ? 'hop' : 'frame');
  const advice = shorter.advice === '' ? '; no frame of this plan is short enough' : `: ${shorter.advice}`;
  const common = { severity: 'stop', measured: seconds(onAirSeconds), remedies: shorter.remedies } as const;
  const excess = seconds(onAirSeconds - longestSeconds);
  if (limit.kind === 'burst') {
    return [
      findingUnder(limit.citation, {
        ...common,
        rule: 'transmission-duration',
        message: `the frame is ${excess} longer than one transmission may last in ${limit.where}${advice}`,
        limit: seconds(longestSeconds),
      }),
    ];
  }
  if (limit.scope === 'sub-band') {
    return [
      findingUnder(limit.kind === 'share' ? (limit.windowCitation ?? limit.citation) : limit.citation, {
        ...common,
        rule: 'duty-cycle-budget',
        message: `the frame alone is ${excess} longer than all that ${limit.where} leaves to a station in ${seconds(limit.windowSeconds)}${advice}`,
        limit: windowText(limit),
      }),
    ];
  }
  return [
    findingUnder(limit.citation, {
      ...common,
      rule: 'dwell-time',
      message: `the frame stays ${excess} too long on its frequency${advice}`,
      limit: windowText(limit),
    }),
  ];
}

function windowText({ budgetSeconds, windowSeconds }: TimeLimit): string {
  return `${seconds(budgetSeconds)} in ${seconds(windowSeconds)}`;
}

function paceFindings(
  limit: TimeLimit,
  frame: FrameOnAir,
  onAirSeconds: number,
  interval: number,
): TransmissionFinding[] {
  if (limit.scope === 'frequency') return [perFrequency(limit, frame, interval)];
  if (limit.kind === 'burst') return pauseFindings(limit, frame, interval);
  return [perSubBand(limit, frame, onAirSeconds, interval)];
}

/** Equal use of the channels makes each wait its turn: below this average interval no order of channels can help. */
function perFrequency(limit: TimeLimit, frame: FrameOnAir, interval: number): TransmissionFinding {
  const { channelCount = 1 } = limit;
  const shortest = interval / channelCount;
  const planned = frame.intervalSeconds;
  // A frame that hops within itself uses many frequencies, and not twice the same ones in a row.
  if (planned === undefined || planned >= shortest - secondsSlack || limit.perHop === true) {
    return findingUnder(limit.citation, {
      rule: 'dwell-interval',
      severity: 'note',
      message: `after such a frame each frequency rests until ${seconds(interval)} from its start; the others stay free`,
      limit: windowText(limit),
    });
  }
  const every = waitSeconds(shortest);
  return findingUnder(limit.citation, {
    rule: 'dwell-interval',
    severity: 'stop',
    message: `${seconds(planned)} between starts uses each of ${channelCount} channels too often: wait ${seconds(every)}`,
    measured: seconds(planned),
    limit: windowText(limit),
    remedies: [{ intervalSeconds: every }],
  });
}

function pauseFindings(limit: TimeLimit, frame: FrameOnAir, interval: number): TransmissionFinding[] {
  const pause = milliseconds(limit.pauseSeconds ?? 0);
  const planned = frame.intervalSeconds;
  if (planned === undefined || planned >= interval - secondsSlack) {
    const message = `stay silent for ${pause} after each frame in ${limit.where}`;
    return [findingUnder(limit.citation, { rule: 'pause', severity: 'note', message, limit: pause })];
  }
  const every = waitSeconds(interval);
  return [
    findingUnder(limit.citation, {
      rule: 'pause',
      severity: 'stop',
      message: `${seconds(planned)} between starts leaves less than ${pause} of silence: wait ${seconds(every)}`,
      measured: milliseconds(Math.max(0, planned - frame.timeOnAirSeconds)),
      limit: pause,
      remedies: [{ intervalSeconds: every }],
    }),
  ];
}

function perSubBand(
  limit: TimeLimit,
  frame: FrameOnAir,
  onAirSeconds: number,
  interval: number,
): TransmissionFinding {
  const dutyCycle = limit.budgetSeconds / limit.windowSeconds;
  const within = limit.kind === 'window' ? ` of any ${seconds(limit.windowSeconds)}` : '';
  const common = { rule: 'duty-cycle', limit: `${percent(dutyCycle)}${within} in ${limit.where}` };
  const every = waitSeconds(interval);
  const planned = frame.intervalSeconds;
  if (planned === undefined || planned >= interval - secondsSlack) {
    const sharing = frame.direction === 'downlink' ? "all the gateway's downlinks" : 'all frames of the node';
    return findingUnder(limit.citation, {
      ...common,
      severity: 'note',
      message: `${seconds(onAirSeconds)} on air needs ${seconds(every)} between starts; ${sharing} in this sub-band share the duty cycle`,
    });
  }
  const shorter = frame.shorterThan(longestAt(limit, planned), 'frame');
  const or = shorter.advice === '' ? '' : `, or ${shorter.advice}`;
  return findingUnder(limit.citation, {
    ...common,
    severity: 'stop',
    message: `${seconds(onAirSeconds)} on air every ${seconds(planned)} is too much: wait ${seconds(every)} between starts${or}`,
    measured: percent(onAirSeconds / planned),
    remedies: [{ intervalSeconds: every }, ...shorter.remedies],
  });
}

/** Longest frame in seconds that may be sent at an interval. */
function longestAt({ kind, budgetSeconds, windowSeconds }: TimeLimit, intervalSeconds: number): number {
  if (kind === 'share') return (intervalSeconds * budgetSeconds) / windowSeconds;
  return budgetSeconds / Math.ceil(windowSeconds / intervalSeconds);
}

function freeNotes({ free }: TimeLimit, frame: FrameOnAir): TransmissionFinding[] {
  if (free === undefined || frame.erpDbm > free.maxErpDbm + decibelSlack) return [];
  return [
    findingUnder(free.citation, {
      rule: 'duty-cycle-alternative',
      severity: 'note',
      message: 'at so little power this sub-band may have no duty cycle',
      measured: `${decibels(frame.erpDbm)} dBm ERP`,
      limit: `${free.maxErpDbm} dBm ERP`,
    }),
  ];
}
