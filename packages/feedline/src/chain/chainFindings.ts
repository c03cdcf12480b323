import type { Finding } from '@finial/units';
import { cableNamed } from '../catalogue/cableNamed.js';
import type { CatalogueRow, Connector } from '../catalogue/parts.js';
import type { ChainTerms } from './ChainTerms.js';
import type { CheckedPart } from './checkedParts.js';
import { connectorFor } from './connectorFor.js';
import { endName } from './endName.js';
import { practice } from './findingWords.js';
import { jointFindings } from './jointFindings.js';
import type { JointLoss } from './jointOf.js';
import { partFindings } from './partFindings.js';
import type { PartLoss } from './partLoss.js';
import { seriesFindings } from './seriesFindings.js';

/** A part of a chain, and what it loses. */
export interface MeasuredPart extends CheckedPart {
  readonly loss: PartLoss;
}

/** A chain, measured. */
export interface MeasuredChain {
  readonly parts: readonly MeasuredPart[];
  readonly joints: readonly JointLoss[];
  readonly lossDb: number;
  readonly terms: ChainTerms;
}

/** From here on more power is lost on the way than arrives. */
const halfPowerDb = 3;

/** What a person should mend in a chain, or know about it: joints first, then parts, then the whole. */
export function chainFindings(chain: MeasuredChain): readonly Finding[] {
  const { parts, joints, terms } = chain;
  return [
    ...joints.flatMap(jointFindings),
    ...parts.flatMap((part) => partFindings(part, part.loss, terms)),
    ...connectorsOf(chain).flatMap((row) => seriesFindings(row, terms.frequencyHz)),
    ...lossFindings(chain),
    ...openEndFindings(chain),
    ...memoryFindings(chain),
  ];
}

function connectorsOf({ parts, terms }: MeasuredChain): readonly Connector[] {
  const ends = parts.flatMap(({ towardsRadio, towardsAntenna }) => [towardsRadio, towardsAntenna]);
  return [...new Set(ends.map((end) => connectorFor(end, terms.catalogue.connectors)))];
}

function lossFindings({ lossDb }: MeasuredChain): readonly Finding[] {
  if (lossDb <= halfPowerDb) return [];
  return [
    {
      rule: 'half-the-power-lost',
      severity: 'note',
      message:
        'More than half of the power is lost on the way: shorten the cable, take a thicker one, or move the radio to the antenna.',
      measured: `${lossDb.toFixed(1)} dB`,
      limit: `${halfPowerDb} dB`,
      source: practice,
    },
  ];
}

function openEndFindings({ parts }: MeasuredChain): readonly Finding[] {
  const outermost = [
    ...parts.slice(0, 1).map(({ part, towardsRadio }) => ({ part, end: towardsRadio })),
    ...parts.slice(-1).map(({ part, towardsAntenna }) => ({ part, end: towardsAntenna })),
  ];
  // A port is where the chain is meant to end.
  const open = outermost.flatMap(({ part, end }) => (part.kind === 'port' ? [] : [endName(end)]));
  if (open.length === 0) return [];
  return [
    {
      rule: 'open-end',
      severity: 'note',
      message: `The chain is not complete: still to be joined: ${open.join(', ')}.`,
      source: practice,
    },
  ];
}

function memoryFindings(chain: MeasuredChain): readonly Finding[] {
  const rows = [...chain.parts.flatMap((checked) => rowsOf(checked, chain.terms)), ...connectorsOf(chain)];
  const names = rows.filter(({ status }) => status === 'memory').map(({ designation }) => designation);
  if (names.length === 0) return [];
  return [
    {
      rule: 'unverified-figures',
      severity: 'note',
      message: `Figures from memory, unverified: ${[...new Set(names)].join('; ')}. Replace them by those of the sheet you hold.`,
      source: 'Status of the rows in the catalogue',
    },
  ];
}

function rowsOf({ part }: CheckedPart, { catalogue }: ChainTerms): readonly CatalogueRow[] {
  if (part.kind === 'port') return [];
  if (part.kind === 'cable-run') return [part.cable];
  return part.kind === 'pigtail' ? [part, cableNamed(part.cable, catalogue)] : [part];
}
