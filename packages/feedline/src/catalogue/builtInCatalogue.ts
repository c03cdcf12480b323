import { bandFilters } from './bandFilters.js';
import { coaxialCables } from './coaxialCables.js';
import { commonAdapters } from './commonAdapters.js';
import { commonPigtails } from './commonPigtails.js';
import { connectorSeries } from './connectorSeries.js';
import type { Catalogue } from './parts.js';
import { surgeArrestors } from './surgeArrestors.js';

/**
 * The catalogue that comes with this package: generic parts by open designations. Most figures are from memory and say so; a maker's sheet
 * for the part in hand goes before them.
 *
 * @source see the `source` of each row
 */
export const builtInCatalogue: Catalogue = {
  cables: coaxialCables,
  connectors: connectorSeries,
  adapters: commonAdapters,
  pigtails: commonPigtails,
  arrestors: surgeArrestors,
  filters: bandFilters,
};
