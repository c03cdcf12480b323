import { checkObject, checkOneOf } from '@finial/units';
import { checkedCatalogue } from './checkCatalogue.js';
import type { Catalogue, CatalogueRow, Connector } from './parts.js';

/** What to do with a row whose name the base has already. */
export interface MergeOptions {
  /**
   * Refuse it, or let the added row stand in the place of the row of the base. A connector row also meets the row of its series and impedance.
   *
   * @defaultValue `refuse`
   */
  readonly sameName?: 'refuse' | 'replace' | undefined;
}

/**
 * One catalogue out of two: the rows of the base, then those that are added. Both are checked as `checkCatalogue` does; neither is changed.
 *
 * @param base - mostly `builtInCatalogue`
 * @param added - your own rows; lists may be left out
 * @returns a new catalogue, exact
 * @throws {@link InputError} as `checkCatalogue`, with `base.` or `added.` before the place; `malformed-file` for a name that both have
 * @source the rows name theirs
 * @example
 * ```ts
 * import { builtInCatalogue, cableNamed, mergeCatalogues } from '@finial/feedline';
 *
 * const measured = { ...cableNamed('RG-58C/U'), designation: 'my RG-58C/U', attenuationUncertaintyRatio: 0.02 };
 * const catalogue = mergeCatalogues(builtInCatalogue, { cables: [measured] });
 * catalogue.cables.length - builtInCatalogue.cables.length; // → 1
 * cableNamed('my RG-58C/U', catalogue).attenuationUncertaintyRatio; // ≈ 0.02
 * ```
 */
export function mergeCatalogues(
  base: Partial<Catalogue>,
  added: Partial<Catalogue>,
  options: MergeOptions = {},
): Catalogue {
  const { sameName = 'refuse' } = checkObject(options, 'options');
  const replace = checkOneOf(sameName, 'options.sameName', ['refuse', 'replace']) === 'replace';
  const first = checkedCatalogue(base, 'base');
  const second = checkedCatalogue(added, 'added');
  const merged: Catalogue = {
    cables: joined(first.cables, second.cables, replace),
    connectors: joined(first.connectors, second.connectors, replace),
    adapters: joined(first.adapters, second.adapters, replace),
    pigtails: joined(first.pigtails, second.pigtails, replace),
    arrestors: joined(first.arrestors, second.arrestors, replace),
    filters: joined(first.filters, second.filters, replace),
  };
  // Each is in order by itself: what is refused now is a name that both have.
  return checkedCatalogue(merged, 'merged');
}

function joined<Row extends CatalogueRow>(
  base: readonly Row[],
  added: readonly Row[],
  replace: boolean,
): readonly Row[] {
  if (!replace) return [...base, ...added];
  const replacing = new Set<Row>();
  const rows = base.map((row) => {
    const own = added.find((candidate) => !replacing.has(candidate) && meets(candidate, row));
    if (own === undefined) return row;
    replacing.add(own);
    return own;
  });
  return [...rows, ...added.filter((row) => !replacing.has(row))];
}

function meets(added: CatalogueRow, base: CatalogueRow): boolean {
  if (added.designation === base.designation) return true;
  const [own, other] = [added as Partial<Connector>, base as Partial<Connector>];
  return own.kind === 'connector' && own.series === other.series && own.impedanceOhm === other.impedanceOhm;
}
