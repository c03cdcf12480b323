import { regions } from '@finial/lora';
import type { ChoiceField } from './sheet.js';

/** Which regional parameters hold; the value is the name among `regions`. */
export const regionField: ChoiceField<'region'> = {
  kind: 'choice',
  key: 'region',
  label: 'Regional parameters',
  choices: Object.entries(regions).map(([value, { name }]) => ({ value, label: name })),
};

/** Whose law holds. */
export const jurisdictionField: ChoiceField<'jurisdiction'> = {
  kind: 'choice',
  key: 'jurisdiction',
  label: 'Law in force',
  choices: ['EU', 'US', 'AU', 'JP', 'IN', 'KR', 'CN'].map((value) => ({ value, label: value })),
};
