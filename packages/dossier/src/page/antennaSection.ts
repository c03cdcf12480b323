import type { SweepPoint, SweepReading } from '@finial/antenna';
import type { AntennaCut, AntennaPart, PatternPart } from '../antennaPart.js';
import { type Markup, markup } from './markup.js';
import { foldedTable, table } from './parts.js';
import { patternPicture } from './patternPicture.js';
import { sweepPicture } from './sweepPicture.js';
import { decibels, decimal, megahertz } from './wording.js';

/** The antenna: what to cut, its sweep and its pattern. */
export function antennaSection({ sweep, cuts, trim, pattern }: AntennaPart): Markup {
  return markup`<section aria-labelledby="antenna">
<h2 id="antenna">The antenna</h2>
${trim === undefined ? null : markup`<p class="lead">${trim.reason}</p>`}
<div class="pair">
${sweep === undefined ? null : sweepFigure(sweep, cuts)}
${pattern === undefined ? null : patternFigure(pattern)}
</div>
${cuts.length < 2 ? null : table('The cuts', ['Element', 'Best at', 'VSWR where wanted'], cuts.map(cutCells))}
${sweep === undefined ? null : foldedTable('The sweep', 'What the last sweep shows', ['At', 'Frequency', 'VSWR', 'Return loss', 'Mismatch loss', 'Resistance', 'Reactance'], sweepRows(sweep))}
${pattern === undefined ? null : foldedTable('The pattern', 'Gain by elevation', ['Elevation', 'Gain'], patternRows(pattern))}
<p class="caution">Trim on the bench, not on the mast. Switch the radio off first; keep antenna and mast clear of overhead lines, and do not work up there in wind or thunder.</p>
</section>`;
}

function cutCells({ file, elementLengthM, resonanceHz, targetVswr }: AntennaCut): string[] {
  return [
    elementLengthM === undefined ? file : `${decimal(elementLengthM * 1000, 1)}\u00a0mm`,
    resonanceHz === undefined ? '–' : `${decimal(resonanceHz / 1e6, 1)}\u00a0MHz`,
    targetVswr === undefined ? '–' : decimal(targetVswr, 2),
  ];
}

function sweepFigure(sweep: SweepReading, cuts: readonly AntennaCut[]): Markup {
  const { tenDbBand } = sweep;
  const [last, ...earlier] = cuts.map(({ curves }) => curves).toReversed();
  const series = {
    ...(last ?? { frequencyHz: [], reflectionCoefficient: [] }),
    earlier: earlier.toReversed(),
    targetHz: sweep.targetHz,
    resonanceHz: sweep.resonanceHz,
    band: tenDbBand && { lowerHz: tenDbBand.lowerHz, upperHz: tenDbBand.upperHz },
  };
  return markup`<figure>${sweepPicture(series)}<figcaption>VSWR above, impedance below, over frequency in MHz. Shaded: at most a tenth of the power comes back.${cuts.length < 2 ? '' : ' Thin lines: before the last cuts.'}</figcaption></figure>`;
}

function patternFigure(pattern: PatternPart): Markup {
  const cut = {
    elevationDeg: pattern.patternElevationDeg,
    gainDbi: pattern.patternGainDbi,
    nodeElevationDeg: pattern.elevationDeg,
    nodeGainDbi: pattern.gainDbi,
  };
  return markup`<figure>${patternPicture(cut)}<figcaption>Gain by elevation. The node lies at ${decimal(pattern.elevationDeg, 1)}° and gets ${decibels(pattern.belowMaximumDb, 'dB')} less than the strongest direction.</figcaption></figure>`;
}

function sweepRows(sweep: SweepReading): string[][] {
  const points: [string, SweepPoint][] = [
    ['lowest VSWR', sweep.atResonance],
    ['wanted', sweep.atTarget],
    ...sweep.channels.map((point): [string, SweepPoint] => ['channel', point]),
  ];
  const shown = (value: number | undefined, unit: string, digits = 1) =>
    value === undefined ? '–' : `${decimal(value, digits)}${unit}`;
  return points.map(([name, point]) => [
    name,
    megahertz(point.frequencyHz),
    shown(point.vswr, '', 2),
    shown(point.returnLossDb, '\u00a0dB'),
    shown(point.mismatchLossDb, '\u00a0dB', 2),
    shown(point.resistanceOhm, '\u00a0Ω'),
    shown(point.reactanceOhm, '\u00a0Ω'),
  ]);
}

/** Every fifth degree: what a person reads off; the dossier's JSON holds all of it. */
function patternRows({ patternElevationDeg, patternGainDbi }: PatternPart): string[][] {
  return patternElevationDeg.flatMap((elevation, index) =>
    elevation % 5 === 0
      ? [[`${decimal(elevation, 0)}°`, decibels(patternGainDbi[index] as number, 'dBi')]]
      : [],
  );
}
