import { checkList, checkObject, checkOneOf, checkRange, frequencyHints, InputError } from '@finial/units';
import { type MeasuredSlope, measuredSlope } from './measuredSlope.js';
import { type TrimmedPart, type TrimSlope, trimSlopes } from './trimSlopes.js';

/** One sweep of the antenna, and how long the element was then. */
export interface TrimCut {
  /** Length of the element in metres, always measured between the same two places, 1e-3 to 1000. */
  readonly elementLengthM: number;
  /** Where the antenna resonated (lowest VSWR) in hertz, 1e6 to 1e11. */
  readonly resonanceHz: number;
}

/** An antenna to be trimmed. */
export interface TrimPlan {
  /** Sweeps so far, in their order; the last one is the antenna as it is. At most 100. */
  readonly cuts: readonly TrimCut[];
  /** Where it shall resonate in hertz, 1e6 to 1e11. */
  readonly targetHz: number;
  /**
   * What is cut: the vertical alone, over fixed radials, or the whole antenna alike (both arms of a dipole, vertical and radials).
   *
   * @defaultValue `'vertical'`
   */
  readonly trimmed?: TrimmedPart | undefined;
  /**
   * d ln f / d ln L, -1.5 to -0.3, where it is known. It is then believed as it stands, and nothing is learnt from the cuts.
   *
   * @defaultValue learnt from the cuts; before that -0.75 for the vertical alone, -0.98 for the whole antenna, with bounds
   */
  readonly exponent?: number | undefined;
  /**
   * Standard error of a resonance read off a sweep, as a part of it, 0 to 0.02. Where twice this is more than the tolerance, nearer
   * than twice this is near enough: a sweep cannot tell it from the target.
   *
   * @defaultValue 0.0005
   */
  readonly measuringErrorRatio?: number | undefined;
  /** Standard error of a length, in metres, 0 to 0.01. @defaultValue 0.0001, a tenth of a millimetre */
  readonly lengthErrorM?: number | undefined;
  /** How near the target is near enough, as a part of it, 0.0001 to 0.05. @defaultValue 0.002 */
  readonly toleranceRatio?: number | undefined;
  /**
   * Whether to answer although the resonance is more than 25 % away from the target, where it may be another resonance altogether.
   *
   * @defaultValue `'refuse'`
   */
  readonly outsideValidity?: 'refuse' | 'allow' | undefined;
}

/** What to do to an antenna. */
export interface TrimAdvice {
  /** Cut it; leave it, it is right; or make the element anew, since it is too short already. */
  readonly action: 'cut' | 'done' | 'replace';
  /** How much to take off in metres; 0 unless the action is to cut. */
  readonly cutM: number;
  /** Length of the element afterwards in metres: of the new element where it is to be replaced. */
  readonly newLengthM: number;
  /** Where it will resonate then, in hertz, by the likeliest slope. */
  readonly expectedResonanceHz: number;
  /** The length in metres that would be right by the likeliest slope; a safe cut stays longer. */
  readonly likeliestLengthM: number;
  /** Standard error of that length in metres, from slope, reading and rule. */
  readonly errorM: number;
  /** Resonance over target, less 1: negative while the antenna is too long. */
  readonly offsetRatio: number;
  /** The slope d ln f / d ln L thought likeliest. */
  readonly exponent: number;
  /** The slope that the new length was reckoned with. */
  readonly safeExponent: number;
  /** Whether the slope was learnt from the cuts, taken by the kind of antenna, or given. */
  readonly slopeFrom: 'cuts' | 'kind' | 'caller';
  /** Where the slope comes from, in words. */
  readonly slopeSource: string;
  /** All of it in one sentence or two for a person. */
  readonly reason: string;
  /** What is doubtful. Empty when nothing is. */
  readonly warnings: readonly string[];
}

const frequencyBounds = { min: 1e6, max: 1e11, unit: 'hertz', hints: frequencyHints };
const farthestRatio = 1.25;

/**
 * How much to cut off an element so that the antenna comes to resonate at its target, without ever cutting too much.
 *
 * Resonance goes as a power of the length. Cutting the vertical of a ground plane alone moves it by only three quarters of what scaling
 * the whole antenna would. The power differs from one antenna to the next: the first cut therefore reckons with the steepest,
 * and stops short; the second sweep shows the slope of this very antenna, and from then on it is used, steepened by twice its standard
 * error and 2 %. Cuts too close together to show a slope leave the first rule in place. An element that is too short can only be
 * made anew, and the new length leans to the long side. Cut with the antenna on the bench: take it down from the mast first, clear of
 * overhead lines, not in wind or thunder, and by the rules for work at height where you live.
 *
 * @returns the advice; the new length is within `errorM` of the likeliest, or longer
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `missing`, `unknown-option`, or `outside-validity`
 * when the resonance is more than 25 % off and `outsideValidity` is not `'allow'`
 * @source Slopes from NEC-2 models, in tests/reference/hardware-vectors.json, trimSensitivity; tolerance and errors are common
 * practice, no source
 * @example A vertical that resonates 2.7 % low
 * ```ts
 * import { trimAdvice } from '@finial/antenna';
 *
 * const advice = trimAdvice({ cuts: [{ elementLengthM: 0.084, resonanceHz: 845e6 }], targetHz: 868.1e6 });
 * advice.action; // → 'cut'
 * advice.cutM; // ≈ 0.00262
 * ```
 * @example The simple rule, f times L constant
 * ```ts
 * import { trimAdvice } from '@finial/antenna';
 *
 * const cuts = [{ elementLengthM: 0.084, resonanceHz: 845e6 }];
 * trimAdvice({ cuts, targetHz: 868.1e6, exponent: -1 }).newLengthM; // ≈ 0.081765
 * ```
 */
export function trimAdvice(plan: TrimPlan): TrimAdvice {
  const { cuts, targetHz, toleranceRatio, errors, ...rest } = checkPlan(plan);
  const now = cuts.at(-1) as TrimCut;
  const offsetRatio = now.resonanceHz / targetHz - 1;
  const warnings = farWarnings(offsetRatio, rest.outsideValidity);
  const slope = chooseSlope(cuts, { ...rest, errors, warnings });
  const nearEnoughRatio = Math.max(toleranceRatio, 2 * errors.measuringErrorRatio);
  if (nearEnoughRatio > toleranceRatio) {
    warnings.push(
      'the error of the reading is larger than the tolerance: the sweep cannot tell whether the target is met',
    );
  }
  const action = Math.abs(offsetRatio) <= nearEnoughRatio ? 'done' : offsetRatio < 0 ? 'cut' : 'replace';
  const lengthBy = (exponent: number) => now.elementLengthM * (targetHz / now.resonanceHz) ** (1 / exponent);
  // Too long: the steepest slope cuts least. Too short: the gentlest leaves the new element longest.
  const safeExponent = action === 'replace' ? slope.gentlestExponent : slope.steepestExponent;
  const newLengthM = action === 'done' ? now.elementLengthM : lengthBy(safeExponent);
  const likeliestLengthM = lengthBy(slope.exponent);
  const shape = {
    action,
    cutM: action === 'cut' ? now.elementLengthM - newLengthM : 0,
    newLengthM,
    expectedResonanceHz: now.resonanceHz * (newLengthM / now.elementLengthM) ** slope.exponent,
    likeliestLengthM,
    errorM: lengthError(likeliestLengthM, { slope, offsetRatio, ...errors }),
    offsetRatio,
    exponent: slope.exponent,
    safeExponent,
    slopeFrom: slope.from,
    slopeSource: slope.source,
  } as const;
  return { ...shape, reason: reasonOf(shape, { now, targetHz, nearEnoughRatio }), warnings };
}

interface CheckedPlan {
  readonly cuts: readonly TrimCut[];
  readonly targetHz: number;
  readonly trimmed: TrimmedPart;
  readonly exponent: number | undefined;
  readonly toleranceRatio: number;
  readonly outsideValidity: 'refuse' | 'allow';
  readonly errors: { readonly measuringErrorRatio: number; readonly lengthErrorM: number };
}

function checkPlan(plan: TrimPlan): CheckedPlan {
  checkObject(plan, 'plan');
  const cuts = checkList(plan.cuts, 'cuts');
  if (cuts.length > 100) {
    throw new InputError({
      code: 'out-of-range',
      argument: 'cuts',
      received: cuts,
      expected: 'at most 100 cuts',
    });
  }
  for (const [index, cut] of cuts.entries()) {
    checkObject(cut, `cuts[${index}]`);
    checkRange(cut.elementLengthM, `cuts[${index}].elementLengthM`, { min: 1e-3, max: 1000, unit: 'metres' });
    checkRange(cut.resonanceHz, `cuts[${index}].resonanceHz`, frequencyBounds);
  }
  const { exponent, measuringErrorRatio = 0.0005, lengthErrorM = 0.0001, toleranceRatio = 0.002 } = plan;
  const { trimmed = 'vertical', outsideValidity = 'refuse' } = plan;
  if (exponent !== undefined)
    checkRange(exponent, 'exponent', { min: -1.5, max: -0.3, unit: 'as d ln f / d ln L' });
  const ratio = 'as a part of the frequency';
  return {
    cuts,
    targetHz: checkRange(plan.targetHz, 'targetHz', frequencyBounds),
    trimmed: checkOneOf(trimmed, 'trimmed', ['vertical', 'whole-antenna']),
    exponent,
    toleranceRatio: checkRange(toleranceRatio, 'toleranceRatio', { min: 1e-4, max: 0.05, unit: ratio }),
    outsideValidity: checkOneOf(outsideValidity, 'outsideValidity', ['refuse', 'allow']),
    errors: {
      measuringErrorRatio: checkRange(measuringErrorRatio, 'measuringErrorRatio', {
        min: 0,
        max: 0.02,
        unit: ratio,
      }),
      lengthErrorM: checkRange(lengthErrorM, 'lengthErrorM', { min: 0, max: 0.01, unit: 'metres' }),
    },
  };
}

function farWarnings(offsetRatio: number, outsideValidity: 'refuse' | 'allow'): string[] {
  const ratio = 1 + offsetRatio;
  if (ratio <= farthestRatio && ratio >= 1 / farthestRatio) return [];
  const expected =
    'a resonance within 25 % of the target (another one may be another resonance of the antenna)';
  if (outsideValidity === 'allow')
    return [`expected ${expected}: the slope of the length is not known so far off`];
  throw new InputError({ code: 'outside-validity', argument: 'cuts.resonanceHz', received: ratio, expected });
}

/** The slope to reckon with, and where it comes from. */
interface ChosenSlope extends TrimSlope {
  readonly from: TrimAdvice['slopeFrom'];
}

interface SlopeQuestion extends Pick<CheckedPlan, 'trimmed' | 'exponent' | 'errors'> {
  /** Takes what has to be said. */
  readonly warnings: string[];
}

/** A slope as unsure as a quarter of itself says less than the kind of antenna does. */
const unsureRatio = 0.25;
/** The slope itself changes along a long cut: what was learnt there is off by a little here. */
const changeRatio = 0.02;

function chooseSlope(cuts: readonly TrimCut[], question: SlopeQuestion): ChosenSlope {
  const { exponent, trimmed, errors, warnings } = question;
  if (exponent !== undefined) {
    const bounds = { steepestExponent: exponent, gentlestExponent: exponent };
    return { exponent, standardErrorRatio: 0, ...bounds, from: 'caller', source: 'given by the caller' };
  }
  const measured = measuredSlope(cuts, errors);
  if (
    measured !== undefined &&
    2 * measured.standardErrorRatio <= unsureRatio * Math.abs(measured.exponent)
  ) {
    if (measured.exponent >= -1.5 && measured.exponent <= -0.3) return learnt(measured, cuts.length);
    warnings.push(
      `the cuts show a slope of ${measured.exponent.toFixed(2)}, which no element has: check lengths and sweeps; not used`,
    );
  }
  return { ...trimSlopes[trimmed], from: 'kind' };
}

function learnt({ exponent, standardErrorRatio }: MeasuredSlope, count: number): ChosenSlope {
  const margin = 2 * standardErrorRatio + changeRatio * Math.abs(exponent);
  return {
    exponent,
    standardErrorRatio,
    steepestExponent: exponent - margin,
    gentlestExponent: exponent + margin,
    from: 'cuts',
    source: `measured on this antenna, ${count} sweeps`,
  };
}

/** Errors of slope, frequency and length, each turned into one of the right length, and added as squares. */
function lengthError(
  lengthM: number,
  parts: {
    readonly slope: ChosenSlope;
    readonly offsetRatio: number;
    readonly measuringErrorRatio: number;
    readonly lengthErrorM: number;
  },
): number {
  const { exponent, standardErrorRatio } = parts.slope;
  const fromSlope = (Math.log1p(parts.offsetRatio) / exponent ** 2) * standardErrorRatio;
  const fromFrequency = parts.measuringErrorRatio / exponent;
  return Math.hypot(lengthM * fromSlope, lengthM * fromFrequency, parts.lengthErrorM);
}

function reasonOf(
  advice: Omit<TrimAdvice, 'reason' | 'warnings'>,
  {
    now,
    targetHz,
    nearEnoughRatio,
  }: { readonly now: TrimCut; readonly targetHz: number; readonly nearEnoughRatio: number },
): string {
  const percent = (100 * Math.abs(advice.offsetRatio)).toFixed(2);
  const where = `${megahertz(now.resonanceHz)} is ${percent} % ${advice.offsetRatio < 0 ? 'below' : 'above'} ${megahertz(targetHz)}`;
  if (advice.action === 'done') {
    return `${where}, within ${Number((100 * nearEnoughRatio).toPrecision(6))} %: leave the element as it is.`;
  }
  const length = `${millimetres(advice.newLengthM)} mm`;
  const slope = `slope ${advice.safeExponent.toFixed(2)}, ${advice.slopeSource}`;
  if (advice.action === 'cut') {
    return `${where}: the element is too long. Cut ${millimetres(advice.cutM)} mm off, to ${length}, and sweep again (${slope}).`;
  }
  return `${where}: the element is too short already. Replace it by one of ${length} and sweep again (${slope}).`;
}

function megahertz(frequencyHz: number): string {
  return `${(frequencyHz / 1e6).toFixed(2)} MHz`;
}

function millimetres(lengthM: number): string {
  return (lengthM * 1e3).toFixed(2);
}
