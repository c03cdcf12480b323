import {
  deembedFeedline,
  knowsPhase,
  type MagnitudeSweep,
  type OnePortSweep,
  readSweep,
  type SweepPoint,
  type SweepReading,
  type TrimAdvice,
} from '@finial/antenna';
import { type Finding, InputError } from '@finial/units';
import { sweepOf, trimOf } from '../../../packages/dossier/src/antennaPart.js';
import { decimal, megahertz } from '../../../packages/dossier/src/page/wording.js';
import type { Outcome, SheetFile, SheetTable } from '../frame/sheet.js';
import type { AntennaValues } from './AntennaValues.js';
import { sweepCode } from './sweepCode.js';
import { sweepDrawing } from './sweepDrawing.js';
import { hasLead, leadOfSweep } from './sweepLead.js';

/** A sweep of the antenna, with the length of its element where that is known. */
export interface ReadCut {
  readonly file: string;
  readonly text: string;
  readonly sweep: OnePortSweep | MagnitudeSweep;
  readonly reading: SweepReading;
  readonly elementLengthM?: number | undefined;
}

/** What the sweeps say: where the antenna resonates, how well it matches, how much to cut. */
export function sweepOutcome(values: AntennaValues, files: readonly SheetFile[]): Outcome {
  const lengths = lengthsOf(values, files);
  const cuts = files.map((file, index) => readCut(values, file, lengths[index]));
  const last = cuts.at(-1);
  if (last === undefined) {
    throw new InputError({
      code: 'missing',
      argument: 'sweeps',
      received: 0,
      expected: 'the file of a sweep',
    });
  }
  const trim = trimOf(
    cuts.map(({ elementLengthM, reading: { resonanceHz } }) => ({ elementLengthM, resonanceHz })),
    values.frequencyHz,
    values.trimmed,
  );
  return {
    lead: trim?.reason ?? leadOf(last.reading),
    facts: factsOf(last.reading, trim),
    pictures: [
      {
        svg: sweepDrawing(cuts, values.frequencyHz),
        caption: `VSWR over frequency in MHz${knowsPhase(last.sweep) ? ', impedance below' : ''}. Shaded: at most a tenth of the power comes back.${cuts.length > 1 ? ' Thin lines: the sweeps before.' : ''}`,
      },
    ],
    tables: [...(cuts.length > 1 ? [cutsTable(cuts)] : []), pointsTable(last.reading)],
    findings: [...last.reading.findings, ...notes(values, cuts, trim)],
    code: sweepCode(values, cuts, trim),
  };
}

const lengthKeys = ['element1M', 'element2M', 'element3M', 'element4M', 'element5M', 'element6M'] as const;

/** Either none, or one for every sweep: a length that is assigned to the wrong sweep would cost metal. */
function lengthsOf(values: AntennaValues, files: readonly SheetFile[]): readonly number[] {
  const count = Number(values.lengthsCount);
  if (count !== 0 && files.length > 0 && count !== files.length) {
    throw new InputError({
      code: 'missing',
      argument: 'lengthsCount',
      received: count,
      expected: `none, or as many lengths as sweeps: ${files.length}`,
    });
  }
  return lengthKeys.slice(0, count).map((key) => values[key]);
}

function readCut(
  values: AntennaValues,
  { name, bytes }: SheetFile,
  elementLengthM: number | undefined,
): ReadCut {
  const text = new TextDecoder().decode(bytes);
  const sweep = withoutLead(values, sweepOf(name, text));
  return {
    file: name,
    text,
    sweep,
    reading: readSweep(sweep, { targetHz: values.frequencyHz }),
    elementLengthM,
  };
}

function withoutLead(
  values: AntennaValues,
  sweep: OnePortSweep | MagnitudeSweep,
): OnePortSweep | MagnitudeSweep {
  return hasLead(values) && knowsPhase(sweep) ? deembedFeedline(sweep, leadOfSweep(values)) : sweep;
}

function leadOf({ resonanceHz, targetHz, atTarget }: SweepReading): string {
  const there = `at ${megahertz(targetHz)} the VSWR is ${shown(atTarget.vswr, 2)}`;
  return resonanceHz === undefined
    ? `The sweep shows no clear minimum; ${there}.`
    : `It matches best at ${mhz(resonanceHz)}; ${there}.`;
}

/** A frequency that was read off a curve: to a hundredth of a megahertz. */
function mhz(frequencyHz: number): string {
  return `${decimal(frequencyHz / 1e6, 2)}\u00a0MHz`;
}

function shown(value: number | undefined, digits: number, unit = ''): string {
  return value === undefined ? '–' : `${decimal(value, digits)}${unit}`;
}

function factsOf(reading: SweepReading, trim: TrimAdvice | undefined): Outcome['facts'] {
  const { resonanceHz, minimumVswr, atTarget, tenDbBand, vswr2Band, qualityFactor } = reading;
  return [
    ...trimFacts(trim),
    ['Best match (resonance)', resonanceHz === undefined ? 'not in this sweep' : mhz(resonanceHz)],
    ['Lowest VSWR', shown(minimumVswr, 2)],
    ['VSWR where wanted', shown(atTarget.vswr, 2)],
    ['Lost there by mismatch', shown(atTarget.mismatchLossDb, 2, '\u00a0dB')],
    ['Band with VSWR 2 or less', bandWords(vswr2Band)],
    ['Band with a tenth or less coming back', bandWords(tenDbBand)],
    ...(qualityFactor === undefined ? [] : [['Q', decimal(qualityFactor.qualityRatio, 1)] as const]),
  ];
}

function trimFacts(trim: TrimAdvice | undefined): Outcome['facts'] {
  if (trim === undefined) return [];
  const words = {
    cut: `take ${decimal(trim.cutM * 1000, 2)} mm off, to ${decimal(trim.newLengthM * 1000, 2)} mm`,
    done: 'leave it as it is',
    replace: `make a new one of ${decimal(trim.newLengthM * 1000, 2)} mm`,
  };
  return [
    ['What to do', words[trim.action]],
    [
      'Likeliest right length',
      `${decimal(trim.likeliestLengthM * 1000, 2)} ± ${decimal(trim.errorM * 1000, 2)} mm`,
    ],
  ];
}

function bandWords(band: SweepReading['tenDbBand']): string {
  if (band === undefined) return 'none';
  const { lowerHz, upperHz } = band;
  const edge = (hertz: number | undefined) => (hertz === undefined ? 'beyond the sweep' : mhz(hertz));
  return `${edge(lowerHz)} to ${edge(upperHz)}`;
}

function cutsTable(cuts: readonly ReadCut[]): SheetTable {
  const rows = cuts.map(({ file, elementLengthM, reading }) => [
    file,
    elementLengthM === undefined ? '–' : `${decimal(elementLengthM * 1000, 1)}\u00a0mm`,
    reading.resonanceHz === undefined ? '–' : mhz(reading.resonanceHz),
    shown(reading.atTarget.vswr, 2),
  ]);
  return {
    caption: 'The sweeps in their order',
    head: ['File', 'Element', 'Best at', 'VSWR where wanted'],
    rows,
  };
}

function pointsTable({ atResonance, atTarget }: SweepReading): SheetTable {
  const points: readonly (readonly [string, SweepPoint])[] = [
    ['lowest VSWR', atResonance],
    ['wanted', atTarget],
  ];
  const rows = points.map(([name, point]) => [
    name,
    mhz(point.frequencyHz),
    shown(point.vswr, 2),
    shown(point.returnLossDb, 1, '\u00a0dB'),
    impedance(point),
  ]);
  const head = ['At', 'Frequency', 'VSWR', 'Return loss', 'Impedance'];
  return { caption: 'The last sweep, read', head, rows };
}

function impedance({ resistanceOhm, reactanceOhm }: SweepPoint): string {
  if (resistanceOhm === undefined || reactanceOhm === undefined) return '–';
  const sign = reactanceOhm < 0 ? '−' : '+';
  return `${decimal(resistanceOhm, 1)} ${sign} j${decimal(Math.abs(reactanceOhm), 1)}\u00a0Ω`;
}

function notes(values: AntennaValues, cuts: readonly ReadCut[], trim: TrimAdvice | undefined): Finding[] {
  const last = cuts.at(-1);
  const words = [...(last?.sweep.warnings ?? []), ...(trim?.warnings ?? [])];
  if (hasLead(values) && last !== undefined && !knowsPhase(last.sweep)) {
    words.push('this file holds no phase: the lead cannot be taken out of it, and flatters the antenna');
  }
  return words.map((message) => ({
    rule: 'antenna-sweep-reading',
    severity: 'note',
    message,
    source: 'the file itself, and the limits of the method, see @finial/antenna',
  }));
}
