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

/** The feedline part of the dossier. */
export interface FeedlinePart extends ChainCheck {
  /** Length of all cable in metres. */
  readonly cableLengthM: number;
  /** What every cable of the catalogue with the same impedance would lose over the longest run; absent where there is no cable. */
  readonly choices?: CableComparison | undefined;
}

/** Looks the parts of a run up, checks that they join, and compares the cables there are. */
export function feedlinePart(plan: Plan, run: FeedlinePlan, textOf: (file: string) => string): FeedlinePart {
  const catalogue = catalogueOf(run, textOf);
  const parts = run.parts.map((part, index) => chainPart(part, catalogue, `feedline.parts[${index}]`));
  const { gateway, node } = plan;
  const frequencyHz = node.uplink.frequencyHz;
  const { temperatureC } = run;
  const check = inPlan(
    (argument) => `feedline.${argument}`,
    () =>
      checkChain(parts, {
        frequencyHz,
        temperatureC,
        catalogue,
        outsideValidity: 'allow',
        conductedPowerDbm: gateway.conductedPowerDbm,
        antennaGainDbi: gateway.antennaGainDbi,
        receiverNoiseFigureDb: gateway.noiseFigureDb,
      }),
  );
  const runs = parts.flatMap((part) => (part.kind === 'cable-run' ? [part] : []));
  const longest = runs.toSorted((a, b) => b.lengthM - a.lengthM)[0];
  const cables = catalogue.cables.filter(({ impedanceOhm }) => impedanceOhm === longest?.cable.impedanceOhm);
  return {
    ...check,
    findings: [
      ...check.findings,
      ...(run.outdoors === undefined ? [] : weather(run.outdoors, parts, longest)),
    ],
    cableLengthM: runs.reduce((sum, { lengthM }) => sum + lengthM, 0),
    choices:
      longest &&
      compareCables({
        lengthM: longest.lengthM,
        frequencyHz,
        temperatureC: longest.temperatureC ?? temperatureC,
        cables,
        outsideValidity: 'allow',
      }),
  };
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
