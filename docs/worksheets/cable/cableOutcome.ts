import {
  builtInCatalogue,
  type CableComparison,
  type CableRun,
  type ChainCheck,
  type ChainPart,
  compareCables,
} from '@finial/feedline';
import type { Finding } from '@finial/units';
import { chainPicture } from '../../../packages/dossier/src/page/chainPicture.js';
import { decibels, decimal, percent } from '../../../packages/dossier/src/page/wording.js';
import type { Outcome, SheetTable } from '../frame/sheet.js';
import type { CableValues } from './CableValues.js';
import { cableCode } from './cableCode.js';

/** What the worksheet says of a run. */
export function cableOutcome(values: CableValues, parts: readonly ChainPart[], check: ChainCheck): Outcome {
  const runs = parts.flatMap((part) => (part.kind === 'cable-run' ? [part] : []));
  const longest = runs.toSorted((a, b) => b.lengthM - a.lengthM)[0];
  const cableLengthM = runs.reduce((sum, { lengthM }) => sum + lengthM, 0);
  return {
    lead: leadOf(check),
    facts: factsOf(check, cableLengthM),
    pictures: [
      {
        svg: chainPicture(check).markupText,
        caption: 'Part by part, gateway above, antenna below. A bar is the loss of a part.',
      },
    ],
    tables: [
      chainTable(check),
      ...(longest === undefined ? [] : [cablesTable(longest, compared(values, longest))]),
    ],
    findings: [...check.findings, ...check.warnings.map(warningNote)],
    code: cableCode(values, check),
  };
}

function leadOf({ joins, joints, lossDb }: ChainCheck): string {
  const loss = `${decimal(lossDb, 2)} dB`;
  if (joins) return `Every joint mates; between gateway and antenna ${loss} are lost.`;
  const broken = joints.filter(({ mates }) => !mates).length;
  return `${broken === 1 ? 'One joint does' : `${broken} joints do`} not mate. Mended, the run would lose ${loss}.`;
}

function factsOf(check: ChainCheck, cableLengthM: number): Outcome['facts'] {
  const { lossDb, leastLossDb, greatestLossDb, eirpDbm, systemNoiseFigureDb, joints } = check;
  const adapters = joints
    .flatMap(({ adapters: path }) => path?.parts ?? [])
    .map(({ part }) => part.designation);
  return [
    [
      'Loss',
      `${decimal(lossDb, 2)} dB; by the spread of parts ${decimal(leastLossDb, 2)} to ${decimal(greatestLossDb, 2)} dB`,
    ],
    ['Power that reaches the antenna', percent(10 ** (-lossDb / 10))],
    ['Cable by the metre', `${decimal(cableLengthM, 1)} m`],
    ...(adapters.length === 0 ? [] : [['Still to be bought', adapters.join('; ')] as const]),
    ...(eirpDbm === undefined ? [] : [['Radiated power (EIRP)', decibels(eirpDbm, 'dBm')] as const]),
    ...(systemNoiseFigureDb === undefined
      ? []
      : [['Noise figure at the antenna', decibels(systemNoiseFigureDb, 'dB')] as const]),
  ];
}

function chainTable({ parts, joints }: ChainCheck): SheetTable {
  const cells = (
    name: string,
    {
      lossDb,
      lossUncertaintyDb,
      shareOfLossRatio,
    }: ChainCheck['parts'][number] | ChainCheck['joints'][number],
  ) => [
    name,
    `${decimal(lossDb, 2)}\u00a0dB`,
    `±${decimal(lossUncertaintyDb, 2)}\u00a0dB`,
    percent(shareOfLossRatio),
  ];
  const rows = parts.flatMap((part, index) => {
    const joint = joints[index];
    return joint === undefined
      ? [cells(part.name, part)]
      : [cells(part.name, part), cells(joint.between, joint)];
  });
  const head = ['Part or joint', 'Loss', 'Uncertainty', 'Share'];
  return { caption: 'Loss of each part and joint', head, rows, isFolded: true };
}

/** The longest run in every cable of the same impedance. */
function compared({ frequencyHz, temperatureC }: CableValues, { lengthM, cable }: CableRun): CableComparison {
  const cables = builtInCatalogue.cables.filter(({ impedanceOhm }) => impedanceOhm === cable.impedanceOhm);
  return compareCables({ lengthM, frequencyHz, temperatureC, cables, outsideValidity: 'allow' });
}

function cablesTable({ lengthM, cable }: CableRun, { rows }: CableComparison): SheetTable {
  return {
    caption: `${decimal(lengthM, 1)} m of other cables, the least loss first`,
    head: ['Cable', 'Loss', 'Range left', 'Diameter'],
    rows: rows.map((row) => [
      row.designation === cable.designation ? `${row.designation} (this one)` : row.designation,
      `${decimal(row.cableLossDb, 2)}\u00a0dB`,
      percent(row.rangeRatio),
      `${decimal(row.outerDiameterM * 1000, 1)}\u00a0mm`,
    ]),
  };
}

function warningNote(message: string): Finding {
  return {
    rule: 'feedline-limits',
    severity: 'note',
    message,
    source: 'limits of the figures, see @finial/feedline',
  };
}
