import { checkList, checkObject, InputError } from '@finial/units';
import type { Catalogue } from '../catalogue/parts.js';

/** The catalogue if it has the lists that a chain looks into. Its rows are taken as they are: `checkCatalogue` looks through them. */
export function searchableCatalogue(catalogue: Catalogue, path: string): Catalogue {
  checkObject(catalogue, path);
  checkList(catalogue.connectors, `${path}.connectors`);
  for (const kind of ['cables', 'adapters', 'pigtails'] as const) {
    const received: unknown = catalogue[kind];
    if (!Array.isArray(received)) {
      throw new InputError({ code: 'wrong-type', argument: `${path}.${kind}`, received, expected: 'a list' });
    }
  }
  return catalogue;
}
