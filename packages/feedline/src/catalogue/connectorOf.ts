import { checkList, checkObject, checkRange, InputError } from '@finial/units';
import { builtInCatalogue } from './builtInCatalogue.js';
import type { Catalogue, Connector, PartEnd } from './parts.js';

/**
 * The connector row of a series at an impedance: what a joined pair of it loses and withstands. Takes a whole part end as well.
 *
 * @param end - series as the rows name it, and impedance in ohms, above 0 to 500, 50 when left out
 * @param catalogue - where to look; the built-in one when left out
 * @returns the row of the catalogue, with the units that it states
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, or `unknown-option` when there is no such row: the
 * message lists what exists
 * @source the rows name theirs
 * @example
 * ```ts
 * import { connectorOf } from '@finial/feedline';
 *
 * connectorOf({ series: 'N' }).thread; // → '5/8-24'
 * connectorOf({ series: 'N', impedanceOhm: 75 }).designation; // → 'N 75 ohm'
 * ```
 */
export function connectorOf(
  end: Pick<PartEnd, 'series' | 'impedanceOhm'>,
  catalogue: Catalogue = builtInCatalogue,
): Connector {
  const { series, impedanceOhm = 50 } = checkObject(end, 'end');
  const connectors = checkList(checkObject(catalogue, 'catalogue').connectors, 'catalogue.connectors');
  checkRange(impedanceOhm, 'end.impedanceOhm', { min: Number.MIN_VALUE, max: 500, unit: 'ohms' });
  if (typeof series !== 'string') {
    const expected = 'the name of a connector series';
    throw new InputError({ code: 'wrong-type', argument: 'end.series', received: series, expected });
  }
  const ofSeries = connectors.filter((connector) => connector.series === series);
  const found = ofSeries.find((connector) => connector.impedanceOhm === impedanceOhm);
  if (found !== undefined) return found;
  const listed = (ofSeries.length > 0 ? ofSeries : connectors).map(
    (connector) => `'${connector.series}' at ${connector.impedanceOhm} ohm`,
  );
  throw new InputError({
    code: 'unknown-option',
    argument: ofSeries.length > 0 ? 'end.impedanceOhm' : 'end.series',
    received: ofSeries.length > 0 ? impedanceOhm : series,
    expected: listed.join(' or '),
  });
}
