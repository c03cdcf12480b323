import * as z from 'zod';
import { planSchema } from './plan.js';

/**
 * The plan format as a JSON Schema (draft 2020-12), for editors and other programs. The same text is published as
 * `@finial/dossier/plan.schema.json`.
 *
 * @returns a fresh object on each call
 * @example
 * ```ts
 * import { planJsonSchema } from '@finial/dossier';
 *
 * planJsonSchema()['title']; // → 'Finial gateway plan'
 * ```
 */
export function planJsonSchema(): Record<string, unknown> {
  const schema = z.toJSONSchema(planSchema, { target: 'draft-2020-12', io: 'input' });
  const { $schema, ...rest } = schema as Record<string, unknown>;
  return { $schema, title: 'Finial gateway plan', ...rest };
}
