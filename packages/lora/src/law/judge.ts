import { findingUnder } from '../findingUnder.js';
import type { TransmissionFinding } from '../Transmission.js';
import type { FrameOnAir, Jurisdiction, Signal } from './Jurisdiction.js';
import { lawfulIntervalSeconds } from './lawfulInterval.js';
import { powerFindings } from './powerFindings.js';
import { onAirUnder, timeFindings } from './timeFindings.js';

/** What a law says about a frame. */
export interface Judgement {
  readonly findings: readonly TransmissionFinding[];
  /** Shortest lawful interval in seconds between the starts of such frames; undefined where no known rule sets one. */
  readonly minimumIntervalSeconds: number | undefined;
  /** What the interval binds: all frames in the sub-band, or those on the same frequency. */
  readonly intervalScope: 'sub-band' | 'frequency' | undefined;
}

/** Weighs a frame against what a law asks of its signal. */
export function judge(law: Jurisdiction, signal: Signal, frame: FrameOnAir): Judgement {
  const demands = law.demandsOn(signal);
  if ('refusal' in demands) {
    const findings = [findingUnder(demands.refusal.citation, demands.refusal)];
    return { findings, minimumIntervalSeconds: undefined, intervalScope: undefined };
  }
  const intervals = demands.time
    .map((limit) => ({ limit, interval: lawfulIntervalSeconds(limit, onAirUnder(limit, frame)) }))
    .sort((a, b) => (b.interval ?? 0) - (a.interval ?? 0));
  const longest = intervals[0];
  return {
    findings: [
      ...demands.remarks.map((remark) => findingUnder(remark.citation, remark)),
      ...demands.power.flatMap((limit) => powerFindings(limit, frame)),
      ...demands.time.flatMap((limit) => timeFindings(limit, frame)),
    ],
    minimumIntervalSeconds: longest?.interval,
    intervalScope: longest?.interval === undefined ? undefined : longest.limit.scope,
  };
}
