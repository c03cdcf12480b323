import type { Finding } from '@finial/units';
import { cableNamed } from '../catalogue/cableNamed.js';
import type { CatalogueRow, TwoEndedRow } from '../catalogue/parts.js';
import type { ChainTerms } from './ChainTerms.js';
import type { CheckedPart } from './checkedParts.js';
import { inMegahertz, practice, unverified, weightOf } from './findingWords.js';
import type { PartLoss } from './partLoss.js';

/** What stands against one part of a chain by itself. */
export function partFindings(
  checked: CheckedPart,
  { impedanceStepLossDb }: PartLoss,
  { frequencyHz, temperatureC, catalogue }: ChainTerms,
): readonly Finding[] {
  const { part, name } = checked;
  switch (part.kind) {
    case 'port':
      return [];
    case 'cable-run':
      return [
        ...cableStepFindings(name, impedanceStepLossDb),
        ...heatFindings(name, part.cable, part.temperatureC ?? temperatureC),
      ];
    case 'pigtail':
      return [
        ...cableStepFindings(name, impedanceStepLossDb),
        ...heatFindings(name, cableNamed(part.cable, catalogue), temperatureC),
      ];
    case 'arrestor':
      return [...bandFindings(part, frequencyHz), ...supplyFindings(name, part.passesDirectCurrent)];
    default:
      return bandFindings(part, frequencyHz);
  }
}

function cableStepFindings(name: string, stepDb: number): readonly Finding[] {
  if (stepDb === 0) return [];
  return [
    {
      rule: 'cable-impedance',
      severity: 'fix',
      message: `${name} has another impedance than its connectors: part of the power is reflected, and more or less of it by the length.`,
      measured: `${stepDb.toFixed(2)} dB`,
      limit: '0 dB',
      source: 'VSWR of a step is the ratio of the two impedances',
    },
  ];
}

function heatFindings(
  name: string,
  cable: CatalogueRow & { readonly maxTemperatureC?: number | undefined },
  temperatureC: number,
): readonly Finding[] {
  const { maxTemperatureC } = cable;
  if (maxTemperatureC === undefined || temperatureC <= maxTemperatureC) return [];
  return [
    {
      rule: 'cable-too-hot',
      severity: weightOf(cable),
      message: `${name} is hotter than its insulation withstands${unverified(cable)}: shade it, or take a cable with PTFE.`,
      measured: `${temperatureC} degrees C`,
      limit: `${maxTemperatureC} degrees C`,
      source: cable.source,
    },
  ];
}

function bandFindings(row: TwoEndedRow, frequencyHz: number): readonly Finding[] {
  const { designation, lowestFrequencyHz, highestFrequencyHz } = row;
  if (frequencyHz >= lowestFrequencyHz && frequencyHz <= highestFrequencyHz) return [];
  return [
    {
      rule: 'part-outside-band',
      severity: weightOf(row),
      message: `${designation} is not meant for this frequency${unverified(row)}: it loses more than its row says.`,
      measured: inMegahertz(frequencyHz),
      limit: `${inMegahertz(lowestFrequencyHz)} to ${inMegahertz(highestFrequencyHz)}`,
      source: row.source,
    },
  ];
}

function supplyFindings(name: string, passesDirectCurrent: boolean): readonly Finding[] {
  if (passesDirectCurrent) return [];
  return [
    {
      rule: 'direct-current-blocked',
      severity: 'note',
      message: `${name} passes no direct current: nothing above it can be fed through this cable.`,
      source: practice,
    },
  ];
}
