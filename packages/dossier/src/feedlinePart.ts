import {
  builtInCatalogue,
  type CableComparison,
  type CableRun,
  type Catalogue,
  type ChainCheck,
  type ChainPart,
  cableNamed,
  checkCatalogue,
  checkChain,
  compareCables,
  mergeCatalogues,
  partEnd,
  weatherFindings,
} from '@finial/feedline';
import { type Finding, InputError } from '@finial/units';
import type { FeedlinePartPlan, FeedlinePlan } from './feedlinePlan.js';
import { inPlan } from './inPlan.js';
import type { Plan } from './plan.js';

/** A run that is checked beside the plan's own. */
export interface OtherRun extends ChainCheck {
  /** Name of the run. */
  readonly name: string;
}

/** The feedline part of the dossier. */
export interface FeedlinePart extends ChainCheck {
  /** Other runs that the plan holds beside its own. */
  readonly otherRuns: readonly OtherRun[];
  /** Length of all cable in metres. */
  readonly cableLengthM: number;
  /** What every cable of the catalogue with the same impedance would lose over the longest run; absent where there is no cable. */
  readonly choices?: CableComparison | undefined;
}

/** Looks the parts of a run up, checks that they join, and compares the cables there are. */
export function feedlinePart(plan: Plan, run: FeedlinePlan, textOf: (file: string) => string): FeedlinePart {
  const catalogue = catalogueOf(run, textOf);
  const { parts, check } = checkedRun(plan, run, run.parts, catalogue, 'feedline');
  const otherRuns = (run.otherRuns ?? []).map(({ name, parts: others }, index) => ({
    name,
    ...checkedRun(plan, run, others, catalogue, `feedline.otherRuns[${index}]`).check,
  }));
  const runs = parts.flatMap((part) => (part.kind === 'cable-run' ? [part] : []));
  const longest = runs.toSorted((a, b) => b.lengthM - a.lengthM)[0];
  const cables = catalogue.cables.filter(({ impedanceOhm }) => impedanceOhm === longest?.cable.impedanceOhm);
  return {
    ...check,
    findings: [
      ...check.findings,
      ...(run.outdoors === undefined ? [] : weather(run.outdoors, parts, longest)),
      ...otherRuns.flatMap(otherRunFinding),
    ],
    otherRuns,
    cableLengthM: runs.reduce((sum, { lengthM }) => sum + lengthM, 0),
    choices:
      longest &&
      compareCables({
        lengthM: longest.lengthM,
        frequencyHz: plan.node.uplink.frequencyHz,
        temperatureC: longest.temperatureC ?? run.temperatureC,
        cables,
        outsideValidity: 'allow',
      }),
  };
}

function checkedRun(
  { gateway, node }: Plan,
  { temperatureC }: FeedlinePlan,
  planned: readonly FeedlinePartPlan[],
  catalogue: Catalogue,
  argument: string,
): { readonly parts: readonly ChainPart[]; readonly check: ChainCheck } {
  const parts = planned.map((part, index) => chainPart(part, catalogue, `${argument}.parts[${index}]`));
  const check = inPlan(
    (inner) => `${argument}.${inner}`,
    () =>
      checkChain(parts, {
        frequencyHz: node.uplink.frequencyHz,
        temperatureC,
        catalogue,
        outsideValidity: 'allow',
        conductedPowerDbm: gateway.conductedPowerDbm,
        antennaGainDbi: gateway.antennaGainDbi,
        receiverNoiseFigureDb: gateway.noiseFigureDb,
      }),
  );
  return { parts, check };
}

/** A run on paper does not keep the gateway off the air: what would stop it is to be mended before it is ordered. */
function otherRunFinding({ name, findings }: OtherRun): Finding[] {
  return findings
    .filter(({ severity }) => severity === 'stop')
    .map((finding) => ({
      ...finding,
      rule: 'feedline-other-run',
      severity: 'fix',
      message: `${name}: ${finding.message}`,
    }));
}

/** What the plan leaves out and the parts know is taken from them. */
function weather(
  outdoors: NonNullable<FeedlinePlan['outdoors']>,
  parts: readonly ChainPart[],
  longest: CableRun | undefined,
): readonly Finding[] {
  const hasArrestor = parts.some(({ kind }) => kind === 'arrestor');
  return weatherFindings({
    ...outdoors,
    leastBendRadiusM: outdoors.leastBendRadiusM ?? longest?.cable.bendRadiusM,
    isSunlightResistant: outdoors.isSunlightResistant ?? longest?.cable.sunlightResistant,
    arrestor: outdoors.arrestor ?? (hasArrestor ? undefined : 'none'),
  });
}

function catalogueOf({ catalogue }: FeedlinePlan, textOf: (file: string) => string): Catalogue {
  if (catalogue === undefined) return builtInCatalogue;
  return mergeCatalogues(
    builtInCatalogue,
    checkCatalogue(parsedJson(textOf(catalogue), catalogue), catalogue),
  );
}

function parsedJson(text: string, file: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new InputError(
      { code: 'malformed-file', argument: '', received: text.slice(0, 20), expected: 'valid JSON', file },
      { cause: error },
    );
  }
}

function chainPart(part: FeedlinePartPlan, catalogue: Catalogue, argument: string): ChainPart {
  if ('port' in part) {
    return { kind: 'port', name: part.port, end: inPlan(`${argument}.end`, () => partEnd(part.end)) };
  }
  if ('cable' in part) {
    const [first, second] = part.ends;
    return {
      kind: 'cable-run',
      cable: inPlan(`${argument}.cable`, () => cableNamed(part.cable, catalogue)),
      lengthM: part.lengthM,
      temperatureC: part.temperatureC,
      ends: [
        inPlan(`${argument}.ends[0]`, () => partEnd(first)),
        inPlan(`${argument}.ends[1]`, () => partEnd(second)),
      ],
    };
  }
  const { adapters, pigtails, arrestors, filters } = catalogue;
  const rows = [...adapters, ...pigtails, ...arrestors, ...filters];
  const row = rows.find(({ designation }) => designation === part.part);
  if (row === undefined) {
    const expected = rows.map(({ designation }) => `'${designation}'`).join(' or ');
    throw new InputError({
      code: 'unknown-option',
      argument: `${argument}.part`,
      received: part.part,
      expected,
    });
  }
  const [first, second] = row.ends;
  return part.turned ? { ...row, ends: [second, first] } : row;
}
