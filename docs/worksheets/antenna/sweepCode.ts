import type { TrimAdvice } from '@finial/antenna';
import { about, literal } from '../frame/codeOf.js';
import type { AntennaValues } from './AntennaValues.js';
import { hasLead, leadOfSweep } from './sweepLead.js';
import type { ReadCut } from './sweepOutcome.js';

/** Files up to this many characters in all stand in the code; longer ones are read from the folder it runs in. */
const mostCharacters = 3000;

/** The code that reads the same sweeps. */
export function sweepCode(
  values: AntennaValues,
  cuts: readonly ReadCut[],
  trim: TrimAdvice | undefined,
): string {
  const isInline = cuts.reduce((sum, { text }) => sum + text.length, 0) <= mostCharacters;
  const last = cuts.at(-1)?.reading;
  const sweeps = cuts.map(
    ({ file, text }) =>
      `  ${parserOf(file)}(${isInline ? literal(text) : `await readFile(${literal(file)}, 'utf8')`}),`,
  );
  return `${isInline ? '' : "// The files are read from the folder that this runs in.\nimport { readFile } from 'node:fs/promises';\n"}import { ${namesOf(values, cuts, trim).join(', ')} } from '@finial/antenna';

const targetHz = ${values.frequencyHz};
const sweeps = [
${sweeps.join('\n')}
];
${leadCode(values)}const readings = ${hasLead(values) ? 'sweeps.map(withoutLead)' : 'sweeps'}.map((sweep) => readSweep(sweep, { targetHz }));
const last = readings.at(-1);
${last?.resonanceHz === undefined ? '' : `last?.resonanceHz; ${about(last.resonanceHz, 6)}\n`}last?.atTarget.reflectionCoefficient; ${about(last?.atTarget.reflectionCoefficient ?? 0)}
${trimCode(values, cuts, trim)}`;
}

function parserOf(file: string): 'parseSweepCsv' | 'parseTouchstone' {
  return /\.(csv|tsv|txt)$/i.test(file) ? 'parseSweepCsv' : 'parseTouchstone';
}

function namesOf(values: AntennaValues, cuts: readonly ReadCut[], trim: TrimAdvice | undefined): string[] {
  const parsers = [...new Set(cuts.map(({ file }) => parserOf(file)))].sort();
  const forLead = hasLead(values)
    ? ['deembedFeedline', 'knowsPhase', 'type MagnitudeSweep', 'type OnePortSweep']
    : [];
  return [...forLead, ...parsers, 'readSweep', ...(trim === undefined ? [] : ['trimAdvice'])];
}

function leadCode(values: AntennaValues): string {
  if (!hasLead(values)) return '';
  return `const lead = ${literal(leadOfSweep(values))};
const withoutLead = (sweep: MagnitudeSweep | OnePortSweep) =>
  knowsPhase(sweep) ? deembedFeedline(sweep, lead) : sweep;
`;
}

function trimCode(
  { trimmed }: AntennaValues,
  cuts: readonly ReadCut[],
  trim: TrimAdvice | undefined,
): string {
  if (trim === undefined) return '';
  const lengths = cuts.map(({ elementLengthM }) => elementLengthM ?? 0);
  return `
const cuts = ${literal(lengths)}.map((elementLengthM, index) => ({
  elementLengthM,
  resonanceHz: readings[index]?.resonanceHz ?? 0,
}));
const advice = trimAdvice({ cuts, targetHz, trimmed: '${trimmed}' });
advice.action; // → '${trim.action}'
advice.cutM; ${about(trim.cutM, 3)}`;
}
