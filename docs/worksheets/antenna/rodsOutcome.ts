import {
  elevationPattern,
  type OnePortSweep,
  readSweep,
  type SweepReading,
  solveWires,
  type Wire,
  type WireSolution,
} from '@finial/antenna';
import { impedanceToReflection } from '@finial/radio';
import { checkInteger, checkRange, degreesToRadians, type Finding } from '@finial/units';
import { patternPicture } from '../../../packages/dossier/src/page/patternPicture.js';
import { decibels, decimal } from '../../../packages/dossier/src/page/wording.js';
import { about, literal } from '../frame/codeOf.js';
import type { Outcome } from '../frame/sheet.js';
import type { AntennaValues } from './AntennaValues.js';
import { sweepDrawing } from './sweepDrawing.js';
import { warningNote } from './warningNote.js';

/** Points of the computed sweep, and how far it reaches to each side as a ratio of the frequency. */
const sweptPoints = 17;
const reachRatio = 0.08;

/** What rods of given lengths do, solved from their currents: impedance, match over frequency, pattern. */
export function rodsOutcome(values: AntennaValues): Outcome {
  const wires = wiresOf(values);
  const solution = solved(values, wires, values.frequencyHz);
  const { resistanceOhm, reactanceOhm } = solution.feed;
  const match = impedanceToReflection({ resistanceOhm, reactanceOhm, referenceOhm: values.referenceOhm });
  const pattern = elevationPattern({ solution });
  const horizonGainDbi = pattern.gainDbi[pattern.elevationDeg.indexOf(0)] ?? 0;
  const sweep = computedSweep(values, wires);
  const reading = readSweep(sweep, { targetHz: values.frequencyHz });
  const sign = reactanceOhm < 0 ? '−' : '+';
  return {
    lead: leadOf(reading, match.vswr),
    facts: [
      [
        'Impedance at the feed',
        `${decimal(resistanceOhm, 1)} ${sign} j${decimal(Math.abs(reactanceOhm), 1)} Ω`,
      ],
      [`VSWR on ${decimal(values.referenceOhm, 0)} Ω`, decimal(match.vswr, 2)],
      ['Lost by mismatch', `${decimal(match.mismatchLossDb, 2)} dB`],
      [
        'Best match',
        reading.resonanceHz === undefined
          ? 'outside the picture'
          : `${decimal(reading.resonanceHz / 1e6, 1)} MHz`,
      ],
      ['Gain towards the horizon', decibels(horizonGainDbi, 'dBi')],
    ],
    pictures: [
      {
        svg: sweepDrawing([{ sweep, reading }], values.frequencyHz),
        caption: 'Computed, not measured: VSWR above, impedance below, over frequency in MHz.',
      },
      {
        svg: patternPicture({
          elevationDeg: [...pattern.elevationDeg],
          gainDbi: [...pattern.gainDbi],
          nodeElevationDeg: 0,
          nodeGainDbi: horizonGainDbi,
        }).markupText,
        caption: 'Gain by elevation, with a node on the horizon. The rings are in dBi.',
      },
    ],
    findings: [modelNote(), ...solution.warnings.map(warningNote)],
    code: codeOf(values, wires, solution, match.vswr),
  };
}

function leadOf({ resonanceHz, targetHz }: SweepReading, vswr: number): string {
  const there = `At ${decimal(targetHz / 1e6, 1)} MHz these rods have a VSWR of ${decimal(vswr, 2)}`;
  return resonanceHz === undefined
    ? `${there}; they match best more than ${100 * reachRatio} % away.`
    : `${there}; they match best at ${decimal(resonanceHz / 1e6, 1)} MHz.`;
}

/** The upright rod with its foot at the origin, and its radials around. */
function wiresOf(values: AntennaValues): readonly Wire[] {
  const length = { min: 1e-3, max: 100, unit: 'metres' };
  const rodLengthM = checkRange(values.rodLengthM, 'rodLengthM', length);
  const count = checkInteger(values.rodRadials, 'rodRadials', { min: 0, max: 12, unit: 'radials' });
  const radiusM =
    checkRange(values.elementDiameterM, 'elementDiameterM', { min: 1e-5, max: 0.1, unit: 'metres' }) / 2;
  const foot = { xM: 0, yM: 0, zM: 0 };
  const rod = { start: foot, end: { ...foot, zM: rodLengthM }, radiusM };
  if (count === 0) return [rod];
  const reachM = checkRange(values.radialLengthM, 'radialLengthM', length);
  const droop = degreesToRadians(
    checkRange(values.droopDeg, 'droopDeg', { min: 0, max: 80, unit: 'degrees' }),
  );
  const radials = Array.from({ length: count }, (_, index) => {
    const azimuth = (2 * Math.PI * index) / count;
    const flatM = reachM * Math.cos(droop);
    const end = {
      xM: rounded(flatM * Math.cos(azimuth)),
      yM: rounded(flatM * Math.sin(azimuth)),
      zM: rounded(-reachM * Math.sin(droop)),
    };
    return { start: foot, end, radiusM };
  });
  return [rod, ...radials];
}

/** To a micrometre: finer than anybody cuts, and the code can be read. */
function rounded(lengthM: number): number {
  return Math.round(lengthM * 1e6) / 1e6 + 0;
}

const source = { wire: 0, positionRatio: 0 };

function solved({ rodRadials }: AntennaValues, wires: readonly Wire[], frequencyHz: number): WireSolution {
  return solveWires(wires, { frequencyHz, source, ground: rodRadials === 0 ? 'perfect' : 'free-space' });
}

function computedSweep(values: AntennaValues, wires: readonly Wire[]): OnePortSweep {
  const { frequencyHz, referenceOhm } = values;
  const half = (sweptPoints - 1) / 2;
  const frequencies = Float64Array.from(
    { length: sweptPoints },
    (_, index) => frequencyHz * (1 + (reachRatio * (index - half)) / half),
  );
  const points = [...frequencies].map((hertz) => {
    const { resistanceOhm, reactanceOhm } = solved(values, wires, hertz).feed;
    return impedanceToReflection({ resistanceOhm, reactanceOhm, referenceOhm });
  });
  return {
    frequencyHz: frequencies,
    reflectionReal: Float64Array.from(points, ({ reflectionReal }) => reflectionReal),
    reflectionImaginary: Float64Array.from(points, ({ reflectionImaginary }) => reflectionImaginary),
    referenceOhm,
    comments: [],
    warnings: [],
  };
}

function modelNote(): Finding {
  return {
    rule: 'antenna-model',
    severity: 'note',
    message:
      'Bare rods alone in space, or on a perfect ground: connector, mast, cable and a pipe around them move the resonance by some percent, mostly down. A sweep decides.',
    source: 'limits of the method, see @finial/antenna',
  };
}

function codeOf(values: AntennaValues, wires: readonly Wire[], { feed }: WireSolution, vswr: number): string {
  const { frequencyHz, referenceOhm, rodRadials } = values;
  const ground = rodRadials === 0 ? 'perfect' : undefined;
  return `import { solveWires } from '@finial/antenna';
import { impedanceToReflection } from '@finial/radio';

const wires = ${literal(wires)};
const { feed } = solveWires(wires, ${literal({ frequencyHz, source, ground })});
feed.resistanceOhm; ${about(feed.resistanceOhm)}
feed.reactanceOhm; ${about(feed.reactanceOhm)}
impedanceToReflection({ ...feed, referenceOhm: ${referenceOhm} }).vswr; ${about(vswr)}`;
}
