import type { JurisdictionName } from '../Transmission.js';
import { eu } from './eu.js';
import type { Jurisdiction } from './Judgement.js';
import { us } from './us.js';

/** Every law that this package knows, by name. */
export const jurisdictions: Readonly<Record<JurisdictionName, Jurisdiction>> = { EU: eu, US: us };
