import { InputError } from '@finial/units';
import type { Connector, PartEnd } from '../catalogue/parts.js';
import { checkedEnd, type StatedEnd } from './partEnd.js';

/** The end with its defaults, refused also where no connector row describes its series: a misspelt series would never join anything. */
export function knownEnd(end: PartEnd, path: string, connectors: readonly Connector[]): StatedEnd {
  const stated = checkedEnd(end, path);
  if (connectors.some(({ series }) => series === stated.series)) return stated;
  const names = [...new Set(connectors.map(({ series }) => series))];
  throw new InputError({
    code: 'unknown-option',
    argument: `${path}.series`,
    received: stated.series,
    expected: `a series of the catalogue: ${names.join(', ')}`,
  });
}

/** The row of a known end: that of its impedance, or else the first of its series, whose loss is near enough. */
export function connectorFor(
  { series, impedanceOhm }: StatedEnd,
  connectors: readonly Connector[],
): Connector {
  const rows = connectors.filter((row) => row.series === series);
  const row = rows.find((candidate) => candidate.impedanceOhm === impedanceOhm) ?? rows[0];
  if (row === undefined) throw new Error(`series ${series} was not looked up before`);
  return row;
}
