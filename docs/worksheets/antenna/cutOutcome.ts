import {
  type AntennaFigures,
  type CutLengths,
  collinear,
  dipole,
  fiveEighths,
  gainTowardsNode,
  groundPlane,
  jPole,
  monopole,
  type NodeGain,
  sleeveDipole,
} from '@finial/antenna';
import type { Finding } from '@finial/units';
import { patternPicture } from '../../../packages/dossier/src/page/patternPicture.js';
import { decibels, decimal } from '../../../packages/dossier/src/page/wording.js';
import { about, literal } from '../frame/codeOf.js';
import type { Outcome } from '../frame/sheet.js';
import type { AntennaKind, AntennaValues } from './AntennaValues.js';
import { warningNote } from './warningNote.js';

type Facts = readonly (readonly [string, string])[];

/** An antenna to be cut, as the page shows it. */
interface SizedAntenna {
  readonly lead: string;
  readonly facts: Facts;
  readonly findings: readonly Finding[];
  readonly warnings: readonly string[];
  readonly method: string;
  readonly pattern?: { readonly elevationDeg: Float64Array; readonly gainDbi: Float64Array } | undefined;
  readonly horizonGainDbi?: number | undefined;
  /** Name of the function, what it was asked, and members of its result that the code shows. */
  readonly call: string;
  readonly question: object;
  readonly shown: Readonly<Record<string, number>>;
}

/** How long to cut the parts of an antenna, and what it will do. */
export function cutOutcome(values: AntennaValues): Outcome {
  const sized = sizing[values.kind](values);
  const node = hasNode(values) ? nodeOf(values, sized) : undefined;
  return {
    lead: sized.lead,
    facts: [
      ...sized.facts,
      ...(node === undefined ? [] : nodeFacts(node)),
      ['How it was found', sized.method],
    ],
    pictures: picturesOf(sized, node),
    tables: patternTable(sized),
    findings: [...sized.findings, ...(node?.findings ?? []), ...sized.warnings.map(warningNote)],
    code: codeOf(values, sized, node),
  };
}

const element = ({
  frequencyHz,
  elementDiameterM,
  insulationVelocityFactor,
  referenceOhm,
}: AntennaValues) => ({
  frequencyHz,
  elementDiameterM,
  // Bare metal is what the packages take without being told, and the code stays short.
  insulationVelocityFactor: insulationVelocityFactor === 1 ? undefined : insulationVelocityFactor,
  referenceOhm: referenceOhm === 50 ? undefined : referenceOhm,
});

const sizing: Readonly<Record<AntennaKind, (values: AntennaValues) => SizedAntenna>> = {
  'ground-plane': (values) => {
    const question = { ...element(values), droopDeg: values.droopDeg, radials: values.radials };
    const found = groundPlane(question);
    return {
      ...common(
        found,
        `Cut the upright rod to ${mm(found.cutLengthM)} and ${found.radialsCount} radials to ${mm(found.radialLengthM)} each.`,
      ),
      facts: [
        ...lengthFacts('Upright rod', found),
        ['Radials', `${found.radialsCount} of ${mm(found.radialLengthM)}`],
        ...feedFacts(found),
      ],
      call: 'groundPlane',
      question,
      shown: { cutLengthM: found.cutLengthM, radialLengthM: found.radialLengthM, ...feedShown(found) },
    };
  },
  dipole: (values) => {
    const question = element(values);
    const found = dipole(question);
    return {
      ...common(
        found,
        `Cut each of the two arms to ${mm(found.armCutLengthM)}: ${mm(found.cutLengthM)} from tip to tip.`,
      ),
      facts: [
        ...lengthFacts('Tip to tip', found),
        ['Each arm', `${mm(found.armCutLengthM)} to cut`],
        ...feedFacts(found),
      ],
      call: 'dipole',
      question,
      shown: { armCutLengthM: found.armCutLengthM, ...feedShown(found) },
    };
  },
  'sleeve-dipole': (values) => {
    const question = { ...element(values), sleeveDiameterM: values.sleeveDiameterM };
    const found = sleeveDipole(question);
    return {
      ...common(
        found,
        `Cut the rod to ${mm(found.cutLengthM)} and the tube to ${mm(found.sleeveCutLengthM)}.`,
      ),
      facts: [
        ...lengthFacts('Rod', found),
        ['Tube', `${mm(found.sleeveCutLengthM)} to cut`],
        ...feedFacts(found),
      ],
      call: 'sleeveDipole',
      question,
      shown: { cutLengthM: found.cutLengthM, sleeveCutLengthM: found.sleeveCutLengthM, ...feedShown(found) },
    };
  },
  monopole: (values) => {
    const question = element(values);
    const found = monopole(question);
    return {
      ...common(found, `Cut the rod to ${mm(found.cutLengthM)}.`),
      facts: [...lengthFacts('Rod', found), ...feedFacts(found)],
      call: 'monopole',
      question,
      shown: { cutLengthM: found.cutLengthM, ...feedShown(found) },
    };
  },
  'five-eighths': (values) => {
    const { ground, radials, droopDeg } = values;
    const question = { ...element(values), ground, ...(ground === 'radials' ? { radials, droopDeg } : {}) };
    const found = fiveEighths(question);
    const radialFacts: Facts =
      ground === 'radials' ? [['Radials', `${radials} of ${mm(found.radialLengthM)}`]] : [];
    return {
      ...common(
        found,
        `Cut the rod to ${mm(found.cutLengthM)}, and put a coil of ${decimal(found.seriesInductanceH * 1e9, 1)} nH in series at its foot.`,
      ),
      facts: [
        ...lengthFacts('Rod', found),
        ...radialFacts,
        ['Coil', `${decimal(found.seriesInductanceH * 1e9, 1)} nH: a start for trimming`],
        ['VSWR with the coil', decimal(found.matchedVswr, 2)],
        ...feedFacts(found, 'before the coil'),
      ],
      call: 'fiveEighths',
      question,
      shown: {
        cutLengthM: found.cutLengthM,
        matchedVswr: found.matchedVswr,
        horizonGainDbi: found.horizonGainDbi,
      },
    };
  },
  'j-pole': (values) => {
    const { referenceOhm: _, ...question } = element(values);
    const found = jPole(question);
    return {
      lead: `Cut the long rod to ${mm(found.longRodCutLengthM)} and the short one to ${mm(found.stubCutLengthM)}; feed them ${mm(found.feedHeightM)} above the closed end.`,
      facts: [
        ['Long rod', `${mm(found.longRodCutLengthM)} to cut, about ${mm(found.longRodLengthM)} in the end`],
        ['Short rod', `${mm(found.stubCutLengthM)} to cut, about ${mm(found.stubLengthM)} in the end`],
        ['Rods apart, axis to axis', mm(found.rodSpacingM)],
        ['Feed above the closed end', `${mm(found.feedHeightM)}: slide it for the least VSWR`],
        ['Greatest gain', decibels(found.maximumGainDbi, 'dBi')],
      ],
      findings: found.findings,
      warnings: found.warnings,
      method: found.method,
      call: 'jPole',
      question,
      shown: { longRodCutLengthM: found.longRodCutLengthM, stubCutLengthM: found.stubCutLengthM },
    };
  },
  collinear: ({ frequencyHz, elements, spacingWavelengths, downtiltDeg }) => {
    const question = { frequencyHz, elements, spacingWavelengths, downtiltDeg };
    const found = collinear(question);
    const nullDeg = found.firstNullElevationDeg;
    return {
      lead: `${found.elementsCount} half waves over ${decimal(found.totalLengthM, 2)} m give ${decibels(found.maximumGainDbi, 'dBi')} in a beam ${decimal(found.halfPowerBeamwidthDeg, 1)}° wide.`,
      facts: [
        ['Whole length', `${decimal(found.totalLengthM, 3)} m`],
        ['Middles apart', mm(found.spacingM)],
        ...gainFacts(found),
        ['Width of the beam', `${decimal(found.halfPowerBeamwidthDeg, 1)}°`],
        ['First null below it', nullDeg === undefined ? 'none' : `at ${decimal(nullDeg, 1)}°`],
      ],
      findings: found.findings,
      warnings: found.warnings,
      method: found.method,
      pattern: found.pattern,
      horizonGainDbi: found.horizonGainDbi,
      call: 'collinear',
      question,
      shown: {
        maximumGainDbi: found.maximumGainDbi,
        halfPowerBeamwidthDeg: found.halfPowerBeamwidthDeg,
        totalLengthM: found.totalLengthM,
      },
    };
  },
};

function common({ findings, warnings, method, pattern, horizonGainDbi }: AntennaFigures, lead: string) {
  return { lead: `${lead} Then sweep it, and trim.`, findings, warnings, method, pattern, horizonGainDbi };
}

/** A length in millimetres with one decimal: as fine as a file takes off. */
function mm(lengthM: number): string {
  return `${decimal(lengthM * 1000, 1)}\u00a0mm`;
}

function lengthFacts(
  name: string,
  { cutLengthM, resonantLengthM, lengthErrorRatio }: CutLengths & Pick<AntennaFigures, 'lengthErrorRatio'>,
): Facts {
  const error = decimal(100 * lengthErrorRatio, 1);
  return [
    [name, `${mm(cutLengthM)} to cut`],
    ['Where it should end up', `${mm(resonantLengthM)}, give or take ${error} %`],
  ];
}

function feedFacts(figures: AntennaFigures, words = ''): Facts {
  const { resistanceOhm, reactanceOhm, referenceOhm, vswr, mismatchLossDb } = figures;
  const sign = reactanceOhm < -0.05 ? '−' : '+';
  const after = words === '' ? '' : ` ${words}`;
  return [
    [
      `Impedance at the feed${after}`,
      `${decimal(resistanceOhm, 1)} ${sign} j${decimal(Math.abs(reactanceOhm), 1)} Ω`,
    ],
    [
      `VSWR on ${decimal(referenceOhm, 0)} Ω${after}`,
      `${decimal(vswr, 2)}, which loses ${decimal(mismatchLossDb, 2)} dB`,
    ],
    ...gainFacts(figures),
  ];
}

function gainFacts({
  maximumGainDbi,
  elevationOfMaximumDeg,
  horizonGainDbi,
}: Pick<AntennaFigures, 'maximumGainDbi' | 'elevationOfMaximumDeg' | 'horizonGainDbi'>): Facts {
  return [
    ['Greatest gain', `${decibels(maximumGainDbi, 'dBi')} at ${decimal(elevationOfMaximumDeg, 0)}°`],
    ['Gain towards the horizon', decibels(horizonGainDbi, 'dBi')],
  ];
}

function feedShown({ resistanceOhm, vswr, maximumGainDbi }: AntennaFigures): Record<string, number> {
  return { resistanceOhm, vswr, maximumGainDbi };
}

/** Over an endless ground nothing lies below the horizon, and a J-pole comes without a pattern. */
export function hasNode({ kind, ground }: Pick<AntennaValues, 'kind' | 'ground'>): boolean {
  return kind !== 'j-pole' && kind !== 'monopole' && !(kind === 'five-eighths' && ground === 'perfect');
}

function nodeOf(values: AntennaValues, { pattern }: SizedAntenna): NodeGain | undefined {
  const { gatewayHeightM, nodeHeightM, distanceM } = values;
  return pattern && gainTowardsNode({ gatewayHeightM, nodeHeightM, distanceM, pattern });
}

function nodeFacts({ gainDbi, elevationDeg, belowMaximumDb }: NodeGain): Facts {
  const beside = `${decibels(belowMaximumDb, 'dB')} less than the greatest`;
  return [
    ['Gain towards the node', `${decibels(gainDbi, 'dBi')} at ${decimal(elevationDeg, 1)}°: ${beside}`],
  ];
}

function picturesOf(
  { pattern, horizonGainDbi = 0 }: SizedAntenna,
  node: NodeGain | undefined,
): Outcome['pictures'] {
  if (pattern === undefined) return [];
  const { elevationDeg, gainDbi } = drawnPattern(pattern);
  const direction = {
    nodeElevationDeg: node?.elevationDeg ?? 0,
    nodeGainDbi: node?.gainDbi ?? horizonGainDbi,
  };
  return [
    {
      svg: patternPicture({ elevationDeg, gainDbi, ...direction }).markupText,
      caption:
        node === undefined
          ? 'Gain by elevation over the endless ground, with a node on the horizon. The rings are in dBi.'
          : 'Gain by elevation, the horizon to the right. The rings are in dBi; the red line points at the node.',
    },
  ];
}

/** Half a degree is as fine as the picture shows. */
function drawnPattern({ elevationDeg, gainDbi }: NonNullable<SizedAntenna['pattern']>) {
  const step = Math.max(1, Math.round((0.5 * (elevationDeg.length - 1)) / 180));
  const isDrawn = (_: number, index: number) => index % step === 0 || index === elevationDeg.length - 1;
  return { elevationDeg: [...elevationDeg].filter(isDrawn), gainDbi: [...gainDbi].filter(isDrawn) };
}

function patternTable({ pattern }: SizedAntenna): Outcome['tables'] {
  if (pattern === undefined) return [];
  const rows = [...pattern.elevationDeg].flatMap((elevation, index) =>
    Math.abs(elevation % 5) < 1e-6
      ? [[`${decimal(elevation, 0)}°`, decibels(pattern.gainDbi[index] ?? 0, 'dBi')]]
      : [],
  );
  return [{ caption: 'Gain by elevation', head: ['Elevation', 'Gain'], rows, isFolded: true }];
}

function codeOf(
  values: AntennaValues,
  { call, question, shown }: SizedAntenna,
  node: NodeGain | undefined,
): string {
  const { gatewayHeightM, nodeHeightM, distanceM } = values;
  const lines = Object.entries(shown).map(([name, value]) => `antenna.${name}; ${about(value)}`);
  const names = node === undefined ? call : [call, 'gainTowardsNode'].sort().join(', ');
  const place = literal({ gatewayHeightM, nodeHeightM, distanceM });
  const towards =
    node === undefined
      ? ''
      : `\n\nconst node = gainTowardsNode({ ...${place}, pattern: antenna.pattern });
node.elevationDeg; ${about(node.elevationDeg)}
node.gainDbi; ${about(node.gainDbi)}`;
  return `import { ${names} } from '@finial/antenna';

const antenna = ${call}(${literal(question)});
${lines.join('\n')}${towards}`;
}
