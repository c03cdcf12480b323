import { checkList, checkObject, checkRange, type Finding, InputError } from '@finial/units';
import { bestMatch } from './bestMatch.js';
import { checkAnySweep } from './checkSweep.js';
import { type MatchBand, matchBand } from './matchBand.js';
import { knowsPhase, type MagnitudeSweep, type OnePortSweep } from './OnePortSweep.js';
import { type QualityFactor, qualityFactorAt } from './qualityFactor.js';
import { type ReactanceZero, reactanceZeros } from './reactanceZeros.js';
import { type SweepPoint, sweepPointAt } from './SweepPoint.js';
import { type SweepFacts, sweepFindings } from './sweepFindings.js';

/** What to read off a sweep. */
export interface SweepQuestion {
  /** Frequency in hertz at which the antenna shall work; inside the sweep. */
  readonly targetHz: number;
  /** Frequencies in hertz of the channels to be listed. One outside the sweep is left out of the list and named in a finding. */
  readonly channelsHz?: readonly number[] | undefined;
  /** Lower and upper edge in hertz of the band in which the match shall hold; the lower one first. */
  readonly bandHz?: readonly [lowerHz: number, upperHz: number] | undefined;
}

/** What a sweep says of an antenna. */
export interface SweepReading {
  /** Frequency in hertz that was asked for. */
  readonly targetHz: number;
  /**
   * Frequency of the lowest VSWR in hertz, between the points. This is what trimming moves, and what a lead hardly shifts; where the
   * resistance is not the reference it differs from the zero of the reactance ({@link SweepReading.reactanceZeros}). Left out where the
   * sweep has no clear minimum inside.
   */
  readonly resonanceHz?: number | undefined;
  /** Lowest VSWR. Left out where everything comes back. */
  readonly minimumVswr?: number | undefined;
  /** The sweep at the lowest VSWR: at an end of the sweep where there is no minimum inside. */
  readonly atResonance: SweepPoint;
  /** The sweep at the target. */
  readonly atTarget: SweepPoint;
  /** The sweep at each channel inside it, in the order asked. */
  readonly channels: readonly SweepPoint[];
  /** Where the worst match of the asked band is, of the part inside the sweep. Left out without a band or without such a part. */
  readonly worstInBand?: SweepPoint | undefined;
  /** Zeros of the reactance, rising in frequency. Empty where the sweep has no phase. */
  readonly reactanceZeros: readonly ReactanceZero[];
  /** Band around the lowest VSWR in which the return loss is 10 dB or more. Left out where it is nowhere. */
  readonly tenDbBand?: MatchBand | undefined;
  /** Band around the lowest VSWR in which the VSWR is 2 or less. Left out where it is nowhere. */
  readonly vswr2Band?: MatchBand | undefined;
  /** Q at the rising zero of the reactance nearest to the lowest VSWR. Left out without one. A lead in the sweep raises it. */
  readonly qualityFactor?: QualityFactor | undefined;
  /** What to see to. */
  readonly findings: readonly Finding[];
}

const fewestPoints = 3;
const reflectedPowerAtTenDb = 0.1;
/** (2 − 1)/(2 + 1), squared. */
const reflectedPowerAtVswr2 = 1 / 9;

/**
 * Reads a sweep: where the antenna resonates, what it is at the frequency it is meant for, how wide it is, and what to see to.
 *
 * Between points the complex reflection follows the cubic through the four nearest ones (of a sweep without phase, the reflected power
 * does); on a point the reading is the point. With 20 points or more across the 10 dB band the reflection is within 1e-4 of the wave
 * sent, plus the noise of the reading; `interpolationErrorRatio` tells of sparser ones. The lowest VSWR comes from a curve fitted to
 * the bottom of the dip, so that noise averages out. Nothing is read outside the sweep. The sweep shows what is at the calibrated
 * socket: take a lead out with {@link deembedFeedline} before reading resistance, reactance and Q.
 *
 * @returns the readings; the resonance of a sweep without noise within 0.02 %
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range` (also a target outside the sweep) or `missing` (fewer
 * than 3 points)
 * @source Impedance and VSWR of a reflection as in the radio package; Q as Yaghjian and Best, IEEE Transactions on Antennas and
 * Propagation 53(4), 2005 (from memory); the limit of VSWR 2 is common practice, no source
 * @example A ground plane that resonates a little high
 * ```ts
 * import { parseTouchstone, readSweep } from '@finial/antenna';
 *
 * const text = '# MHz S RI R 50\n850 -0.1 -0.24\n860 -0.1 -0.14\n870 -0.1 -0.04\n880 -0.1 0.06\n890 -0.1 0.16\n';
 * const reading = readSweep(parseTouchstone(text), { targetHz: 868.1e6 });
 * reading.resonanceHz; // ≈ 874e6
 * reading.atTarget.vswr; // ≈ 1.263
 * ```
 */
export function readSweep(sweep: OnePortSweep | MagnitudeSweep, question: SweepQuestion): SweepReading {
  checkAnySweep(sweep);
  checkObject(question, 'question');
  const { frequencyHz } = sweep;
  const [firstHz = 0, lastHz = 0] = [frequencyHz[0], frequencyHz.at(-1)];
  if (frequencyHz.length < fewestPoints) {
    const expected = `at least ${fewestPoints} points`;
    throw new InputError({
      code: 'missing',
      argument: 'sweep.frequencyHz',
      received: frequencyHz.length,
      expected,
    });
  }
  const { targetHz } = question;
  checkRange(targetHz, 'targetHz', { min: firstHz, max: lastHz, unit: 'hertz, inside the sweep' });
  const channelsHz = question.channelsHz === undefined ? [] : checkChannels(question.channelsHz);
  const bandHz = question.bandHz === undefined ? undefined : checkBand(question.bandHz);

  const best = bestMatch(sweep);
  const isInside = (hertz: number) => hertz >= firstHz && hertz <= lastHz;
  const zeros = knowsPhase(sweep) ? reactanceZeros(sweep) : [];
  const atResonance = sweepPointAt(sweep, best.frequencyHz);
  const facts: SweepFacts = {
    sweep,
    atTarget: sweepPointAt(sweep, targetHz),
    atResonance,
    hasMinimum: best.isMinimum,
    worstInBand: bandHz && worstIn(sweep, bandHz),
    bandHz,
    channelsOutsideHz: channelsHz.filter((hertz) => !isInside(hertz)),
  };
  return {
    targetHz,
    resonanceHz: best.isMinimum ? best.frequencyHz : undefined,
    minimumVswr: atResonance.vswr,
    atResonance,
    atTarget: facts.atTarget,
    channels: channelsHz.filter(isInside).map((hertz) => sweepPointAt(sweep, hertz)),
    worstInBand: facts.worstInBand,
    reactanceZeros: zeros,
    tenDbBand: matchBand(sweep, best.frequencyHz, reflectedPowerAtTenDb),
    vswr2Band: matchBand(sweep, best.frequencyHz, reflectedPowerAtVswr2),
    qualityFactor: knowsPhase(sweep) ? qualityNear(sweep, zeros, best.frequencyHz) : undefined,
    findings: sweepFindings(facts),
  };
}

const anyFrequency = { min: 1, max: 1e16, unit: 'hertz' };

function checkChannels(channelsHz: readonly number[]): readonly number[] {
  for (const [index, hertz] of checkList(channelsHz, 'channelsHz').entries()) {
    checkRange(hertz, `channelsHz[${index}]`, anyFrequency);
  }
  return channelsHz;
}

function checkBand(bandHz: readonly [number, number]): readonly [number, number] {
  const [lower, upper, ...more] = checkList(bandHz, 'bandHz');
  const lowerHz = checkRange(lower, 'bandHz[0]', anyFrequency);
  const upperHz = checkRange(upper, 'bandHz[1]', { ...anyFrequency, min: lowerHz });
  if (more.length === 0) return [lowerHz, upperHz];
  throw new InputError({
    code: 'wrong-type',
    argument: 'bandHz',
    received: bandHz,
    expected: 'two frequencies',
  });
}

/** Between points the reflection of an antenna turns slowly: points and edges of the band see the worst. */
function worstIn(
  sweep: OnePortSweep | MagnitudeSweep,
  [lowerHz, upperHz]: readonly [number, number],
): SweepPoint | undefined {
  const { frequencyHz } = sweep;
  const low = Math.max(lowerHz, frequencyHz[0] as number);
  const high = Math.min(upperHz, frequencyHz.at(-1) ?? 0);
  if (low > high) return undefined;
  const places = [low, ...frequencyHz.filter((hertz) => hertz > low && hertz < high), high];
  const points = places.map((hertz) => sweepPointAt(sweep, hertz));
  return points.reduce((worst, point) =>
    point.reflectionCoefficient > worst.reflectionCoefficient ? point : worst,
  );
}

function qualityNear(
  sweep: OnePortSweep,
  zeros: readonly ReactanceZero[],
  centreHz: number,
): QualityFactor | undefined {
  const distance = (zero: ReactanceZero) => Math.abs(zero.frequencyHz - centreHz);
  const [nearest] = zeros
    .filter(({ direction }) => direction === 'rising')
    .sort((a, b) => distance(a) - distance(b));
  return nearest && qualityFactorAt(sweep, nearest);
}
