import type { Severity } from '@finial/units';
import type { CatalogueRow } from '../catalogue/parts.js';

/** The source of what the trade knows and no document says. */
export const practice = 'common practice, no source';

/** The word that a finding adds where its limit is a figure from memory. */
export function unverified({ status }: CatalogueRow): string {
  return status === 'memory' ? ' (unverified)' : '';
}

/** A frequency as people say it. */
export function inMegahertz(frequencyHz: number): string {
  return `${Number((frequencyHz / 1e6).toPrecision(6))} MHz`;
}

/** A figure from memory advises; only one that was read asks for a change. */
export function weightOf({ status }: CatalogueRow): Severity {
  return status === 'memory' ? 'note' : 'fix';
}
