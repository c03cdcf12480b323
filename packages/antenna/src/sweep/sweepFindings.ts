import type { Finding } from '@finial/units';
import { knowsPhase, type MagnitudeSweep, type OnePortSweep } from './OnePortSweep.js';
import { reflectionWarnings } from './reflectionWarnings.js';
import type { SweepPoint } from './SweepPoint.js';

/** What the findings are drawn from. */
export interface SweepFacts {
  readonly sweep: OnePortSweep | MagnitudeSweep;
  readonly atTarget: SweepPoint;
  readonly atResonance: SweepPoint;
  readonly hasMinimum: boolean;
  readonly worstInBand: SweepPoint | undefined;
  readonly bandHz: readonly [number, number] | undefined;
  readonly channelsOutsideHz: readonly number[];
}

const highestVswr = 2;
const greatestDoubt = 0.02;
const source = 'common practice, no source';

/** What a person should see to before believing the sweep, and what to mend at the antenna. */
export function sweepFindings(facts: SweepFacts): readonly Finding[] {
  return [
    reflectionAboveOne(facts),
    noMinimum(facts),
    sparseSweep(facts),
    targetVswr(facts),
    vswrInBand(facts),
    bandOutside(facts),
    channelsOutside(facts),
  ].filter((finding) => finding !== undefined);
}

function reflectionAboveOne({ sweep }: SweepFacts): Finding | undefined {
  const magnitudeAt = (index: number) =>
    knowsPhase(sweep)
      ? Math.hypot(sweep.reflectionReal[index] as number, sweep.reflectionImaginary[index] as number)
      : (sweep.reflectionCoefficient[index] as number);
  const [warning] = reflectionWarnings(sweep.frequencyHz, magnitudeAt);
  if (warning === undefined) return undefined;
  const message = `${capital(warning)} Calibrate with open, short and load at the antenna's socket and sweep again.`;
  return { rule: 'reflection-above-one', severity: 'fix', message, limit: '|S11| 1', source };
}

function noMinimum({ hasMinimum, atResonance }: SweepFacts): Finding | undefined {
  if (hasMinimum) return undefined;
  const message =
    `The sweep has no clear minimum of the VSWR inside; least comes back at ${megahertz(atResonance.frequencyHz)}. ` +
    'Sweep wider, and check that the antenna is connected.';
  return { rule: 'no-resonance', severity: 'fix', message, source };
}

function sparseSweep({ atTarget }: SweepFacts): Finding | undefined {
  const { interpolationErrorRatio, frequencyHz } = atTarget;
  if (interpolationErrorRatio <= greatestDoubt) return undefined;
  const message = `The points around ${megahertz(frequencyHz)} lie too far apart to read between them: sweep with more points.`;
  const measured = `${interpolationErrorRatio.toFixed(3)} of the wave sent`;
  return { rule: 'sparse-sweep', severity: 'note', message, measured, limit: String(greatestDoubt), source };
}

function targetVswr({ atTarget }: SweepFacts): Finding | undefined {
  if (isGood(atTarget)) return undefined;
  const message = `At ${megahertz(atTarget.frequencyHz)} the VSWR is ${vswrInWords(atTarget)}: trim or match the antenna.`;
  return { rule: 'vswr-at-target', severity: 'fix', message, ...comparison(atTarget), source };
}

function vswrInBand({ worstInBand, bandHz }: SweepFacts): Finding | undefined {
  if (worstInBand === undefined || bandHz === undefined || isGood(worstInBand)) return undefined;
  const band = `${megahertz(bandHz[0])} to ${megahertz(bandHz[1])}`;
  const message = `In the band ${band} the VSWR rises to ${vswrInWords(worstInBand)}, at ${megahertz(worstInBand.frequencyHz)}.`;
  return { rule: 'vswr-in-band', severity: 'fix', message, ...comparison(worstInBand), source };
}

function bandOutside({ sweep, bandHz }: SweepFacts): Finding | undefined {
  const [firstHz = 0, lastHz = 0] = [sweep.frequencyHz[0], sweep.frequencyHz.at(-1)];
  if (bandHz === undefined || (bandHz[0] >= firstHz && bandHz[1] <= lastHz)) return undefined;
  const message = `The sweep (${megahertz(firstHz)} to ${megahertz(lastHz)}) does not cover the band; the rest of it is unknown.`;
  return { rule: 'band-outside-sweep', severity: 'fix', message, source };
}

function channelsOutside({ channelsOutsideHz }: SweepFacts): Finding | undefined {
  const [first] = channelsOutsideHz;
  if (first === undefined) return undefined;
  const shown = channelsOutsideHz.slice(0, 8).map(megahertz).join(', ');
  const more = channelsOutsideHz.length > 8 ? ` and ${channelsOutsideHz.length - 8} more` : '';
  const message = `Channels outside the sweep, not read: ${shown}${more}. Sweep wider.`;
  return { rule: 'channel-outside-sweep', severity: 'fix', message, source };
}

function isGood({ vswr }: SweepPoint): boolean {
  return vswr !== undefined && vswr <= highestVswr;
}

function comparison(point: SweepPoint): { readonly measured: string; readonly limit: string } {
  return { measured: `VSWR ${vswrInWords(point)}`, limit: `VSWR ${highestVswr}` };
}

function vswrInWords({ vswr }: SweepPoint): string {
  if (vswr === undefined) return 'without bound (all comes back)';
  return vswr < 100 ? vswr.toFixed(2) : 'above 100';
}

function megahertz(frequencyHz: number): string {
  return `${(frequencyHz / 1e6).toFixed(2)} MHz`;
}

function capital(text: string): string {
  return `${text[0]?.toUpperCase()}${text.slice(1)}`;
}
