import { cableNamed } from '../catalogue/cableNamed.js';
import { catalogueDefinitions } from '../catalogue/catalogueSchema.js';
import type { Cable } from '../catalogue/parts.js';
import { followRule } from '../catalogue/schemaRule.js';

const cableRule = { $ref: '#/$defs/cable' };

/** The built-in cable of a name, or a caller's own row, looked through: the whole of it reaches the result, not its attenuation alone. */
export function cableRow(cable: Cable | string, argument: string): Cable {
  if (typeof cable === 'string') return cableNamed(cable);
  return followRule(cable, argument, cableRule, catalogueDefinitions) as Cable;
}
