import { checkOneOf } from '@finial/units';
import type { JurisdictionName } from '../Transmission.js';
import { au } from './au.js';
import { cn } from './cn.js';
import { eu } from './eu.js';
import { india } from './india.js';
import type { Jurisdiction } from './Jurisdiction.js';
import { jp } from './jp.js';
import { kr } from './kr.js';
import { us } from './us.js';

/** Every law that this package knows, by name. */
export const jurisdictions: Readonly<Record<JurisdictionName, Jurisdiction>> = {
  EU: eu,
  US: us,
  AU: au,
  JP: jp,
  IN: india,
  KR: kr,
  CN: cn,
};

/** The law of a name; a law that is not known here is refused by name, not silently taken for one without rules. */
export function checkedJurisdiction(name: unknown): Jurisdiction {
  return jurisdictions[checkOneOf(name, 'jurisdiction', ['EU', 'US', 'AU', 'JP', 'IN', 'KR', 'CN'])];
}
