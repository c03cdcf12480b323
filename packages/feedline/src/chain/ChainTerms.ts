import type { Catalogue } from '../catalogue/parts.js';

/** The conditions of a chain, looked at and with their defaults. */
export interface ChainTerms {
  readonly frequencyHz: number;
  readonly temperatureC: number;
  readonly catalogue: Catalogue;
  readonly outsideValidity: 'refuse' | 'allow';
}
