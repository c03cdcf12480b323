import {
  collinearPattern,
  deembedFeedline,
  gainTowardsNode,
  knowsPhase,
  type MagnitudeSweep,
  type NodeGain,
  type OnePortSweep,
  parseSweepCsv,
  parseTouchstone,
  readSweep,
  type SweepReading,
  type TrimAdvice,
  trimAdvice,
} from '@finial/antenna';
import { channelFrequenciesHz } from '@finial/lora';
import type { Finding } from '@finial/units';
import type { BuiltPlan } from './builtPlan.js';
import type { AntennaPlan } from './plan.js';
import { planRegion } from './planRegion.js';

/** A sweep as curves for a picture; all lists have the same length. */
export interface SweepCurves {
  /** Frequencies in hertz, rising. */
  readonly frequencyHz: readonly number[];
  /** Magnitude of the reflection coefficient at each. */
  readonly reflectionCoefficient: readonly number[];
  /** Resistance in ohms at each; absent where the sweep has no phase. */
  readonly resistanceOhm?: readonly number[] | undefined;
  /** Reactance in ohms at each; absent where the sweep has no phase. */
  readonly reactanceOhm?: readonly number[] | undefined;
}

/** The gateway antenna's gain by elevation. */
export interface PatternPart extends NodeGain {
  /** Elevations in degrees above the horizon, from -90 to 90. */
  readonly patternElevationDeg: readonly number[];
  /** Gain at each in dBi. */
  readonly patternGainDbi: readonly number[];
}

/** The antenna as it was after a cut. */
export interface AntennaCut {
  /** Name of the sweep's file. */
  readonly file: string;
  /** Length of the element then in metres; absent where the plan gives none. */
  readonly elementLengthM?: number | undefined;
  /** Where it resonated in hertz; absent where the sweep shows no minimum. */
  readonly resonanceHz?: number | undefined;
  /** VSWR at the wanted frequency; absent where all of the power comes back. */
  readonly targetVswr?: number | undefined;
  /** The sweep as curves. */
  readonly curves: SweepCurves;
}

/** The antenna part of the dossier. */
export interface AntennaPart {
  /** Every sweep in the order of the cuts. */
  readonly cuts: readonly AntennaCut[];
  /** The last sweep, read; absent where the plan names none. */
  readonly sweep?: SweepReading | undefined;
  /** What to cut; absent where the plan gives no element length or the sweep has no resonance. */
  readonly trim?: TrimAdvice | undefined;
  /** The pattern and the gain towards the node; absent where the plan describes no pattern. */
  readonly pattern?: PatternPart | undefined;
  /** What the antenna says to a person. */
  readonly findings: readonly Finding[];
}

/** Reads the sweeps that a plan names and the pattern that it describes. */
export function antennaPart(
  plan: BuiltPlan,
  antenna: AntennaPlan,
  textOf: (file: string) => string,
): AntennaPart {
  const targetHz = antenna.targetHz ?? plan.node.uplink.frequencyHz;
  const channelsHz = planRegion(plan).channels.flatMap(channelFrequenciesHz);
  const sweeps = (antenna.sweeps ?? []).map((entry) => {
    const sweep = withoutLead(sweepOf(entry.file, textOf(entry.file)), antenna, targetHz);
    return { entry, sweep, reading: readSweep(sweep, { targetHz, channelsHz: insideOf(sweep, channelsHz) }) };
  });
  const last = sweeps.at(-1);
  const pattern = antenna.pattern && patternPart(plan, antenna.pattern);
  const cuts = sweeps.map(({ entry, sweep, reading }) => ({
    ...entry,
    resonanceHz: reading.resonanceHz,
    targetVswr: reading.atTarget.vswr,
    curves: curvesOf(sweep),
  }));
  const trim = trimOf(cuts, targetHz, antenna.trimmed);
  return {
    cuts,
    sweep: last?.reading,
    trim,
    pattern,
    findings: [...(last?.reading.findings ?? []), ...trimFinding(trim), ...(pattern?.findings ?? [])],
  };
}

/** A sweep in the format that its file's name tells. */
export function sweepOf(file: string, text: string): OnePortSweep | MagnitudeSweep {
  return /\.(csv|tsv|txt)$/i.test(file) ? parseSweepCsv(text, { file }) : parseTouchstone(text, { file });
}

/** The lead between analyser and antenna turns the phase; without phase there is nothing to turn back. */
function withoutLead(sweep: OnePortSweep | MagnitudeSweep, { lead }: AntennaPlan, targetHz: number) {
  if (lead === undefined || !knowsPhase(sweep)) return sweep;
  return deembedFeedline(sweep, { lossReferenceHz: targetHz, ...lead });
}

function insideOf({ frequencyHz }: OnePortSweep | MagnitudeSweep, channelsHz: readonly number[]): number[] {
  return channelsHz.filter((each) => each >= (frequencyHz[0] as number) && each <= (frequencyHz.at(-1) ?? 0));
}

/** Every sweep must say where it resonates, and at which length: a slope between others would be a guess. */
export function trimOf(
  sweeps: readonly Pick<AntennaCut, 'elementLengthM' | 'resonanceHz'>[],
  targetHz: number,
  trimmed: AntennaPlan['trimmed'],
): TrimAdvice | undefined {
  const cuts = sweeps.flatMap(({ elementLengthM, resonanceHz }) =>
    elementLengthM === undefined || resonanceHz === undefined ? [] : [{ elementLengthM, resonanceHz }],
  );
  if (cuts.length === 0 || cuts.length < sweeps.length) return undefined;
  return trimAdvice({ cuts, targetHz, trimmed });
}

function trimFinding(trim: TrimAdvice | undefined): Finding[] {
  if (trim === undefined || trim.action === 'done') return [];
  return [
    {
      rule: 'antenna-trim',
      severity: 'fix',
      message: trim.reason,
      measured: `${(trim.offsetRatio * 100).toFixed(1)} % off`,
      source: trim.slopeSource,
    },
  ];
}

function curvesOf(sweep: OnePortSweep | MagnitudeSweep): SweepCurves {
  const frequencyHz = [...sweep.frequencyHz];
  if (!knowsPhase(sweep)) return { frequencyHz, reflectionCoefficient: [...sweep.reflectionCoefficient] };
  const points = frequencyHz.map((_, index) => {
    const real = sweep.reflectionReal[index] as number;
    const imaginary = sweep.reflectionImaginary[index] as number;
    // An open end has no finite impedance; a picture draws it at its edge.
    const size = Math.max(1e-9, (1 - real) ** 2 + imaginary ** 2);
    return {
      coefficient: Math.hypot(real, imaginary),
      resistance: (sweep.referenceOhm * (1 - real ** 2 - imaginary ** 2)) / size,
      reactance: (sweep.referenceOhm * 2 * imaginary) / size,
    };
  });
  return {
    frequencyHz,
    reflectionCoefficient: points.map(({ coefficient }) => coefficient),
    resistanceOhm: points.map(({ resistance }) => resistance),
    reactanceOhm: points.map(({ reactance }) => reactance),
  };
}

function patternPart(plan: BuiltPlan, pattern: NonNullable<AntennaPlan['pattern']>): PatternPart {
  const { elements, spacingWavelengths = 0.5, downtiltDeg } = pattern;
  const table = collinearPattern({ elements, spacingWavelengths, downtiltDeg, stepDeg: 0.5 });
  const towards = gainTowardsNode({
    gatewayHeightM: plan.gateway.antennaHeightM + plan.link.groundDropM,
    nodeHeightM: plan.node.heightM,
    distanceM: plan.link.distanceM,
    pattern: table,
  });
  return { ...towards, patternElevationDeg: [...table.elevationDeg], patternGainDbi: [...table.gainDbi] };
}
