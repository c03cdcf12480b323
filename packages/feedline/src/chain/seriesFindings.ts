import type { Finding } from '@finial/units';
import type { Connector } from '../catalogue/parts.js';
import { inMegahertz, unverified, weightOf } from './findingWords.js';

/** Series that wear out within a few sessions at the bench. */
const fewMatings = 50;

/** What stands against a connector series in a chain: said once, not once for each of its connectors. */
export function seriesFindings(row: Connector, frequencyHz: number): readonly Finding[] {
  return [...frequencyFindings(row, frequencyHz), ...wearFindings(row)];
}

function frequencyFindings(row: Connector, frequencyHz: number): readonly Finding[] {
  if (frequencyHz <= row.highestFrequencyHz) return [];
  return [
    {
      rule: 'connector-beyond-frequency',
      severity: weightOf(row),
      message: `${row.designation} connectors are not meant for this frequency${unverified(row)}: replace them by another series, such as N.`,
      measured: inMegahertz(frequencyHz),
      limit: inMegahertz(row.highestFrequencyHz),
      source: row.source,
    },
  ];
}

function wearFindings(row: Connector): readonly Finding[] {
  if (row.matingCycles === undefined || row.matingCycles > fewMatings) return [];
  return [
    {
      rule: 'few-matings',
      severity: 'note',
      message: `${row.designation} connectors wear out after few joinings${unverified(row)}: join once and hold the cable in place.`,
      limit: `${row.matingCycles} joinings`,
      source: row.source,
    },
  ];
}
