import { describe, expect, test } from 'vitest';
import { readSweep, solveWires, type TrimCut, trimAdvice, type Wire } from '../src/index.js';
import { grid, reflectionOf, sweepOf } from './sweepSupport.js';

// The solver plays the antenna: it is swept, the sweep is read, the adviser cuts, until the lowest VSWR sits on the target. The
// solver knows nothing of slopes, and the adviser nothing of wires.

const targetHz = 868.1e6;
const quarterM = 299_792_458 / targetHz / 4;

interface Workpiece {
  readonly diameterM: number;
  readonly droopDeg: number;
}

function groundPlaneWires(lengthM: number, { diameterM, droopDeg }: Workpiece): readonly Wire[] {
  const foot = { xM: 0, yM: 0, zM: 0 };
  const droop = (droopDeg * Math.PI) / 180;
  const flatM = quarterM * Math.cos(droop);
  const zM = -quarterM * Math.sin(droop);
  const ends = [
    { xM: flatM, yM: 0, zM },
    { xM: 0, yM: flatM, zM },
    { xM: -flatM, yM: 0, zM },
    { xM: 0, yM: -flatM, zM },
  ];
  const radials = ends.map((end) => ({ start: foot, end, radiusM: diameterM / 2, segments: 5 }));
  return [{ start: foot, end: { ...foot, zM: lengthM }, radiusM: diameterM / 2, segments: 6 }, ...radials];
}

/** Where the antenna has its lowest VSWR, as a sweep of 25 points reads it. */
function sweptResonanceHz(lengthM: number, workpiece: Workpiece, aroundHz: number): number {
  const wires = groundPlaneWires(lengthM, workpiece);
  const sweep = sweepOf(grid(aroundHz * 0.86, aroundHz * 1.14, 25), (frequencyHz) => {
    const { feed } = solveWires(wires, { frequencyHz, source: { wire: 0, positionRatio: 0 } });
    return reflectionOf(feed.resistanceOhm, feed.reactanceOhm);
  });
  const { resonanceHz } = readSweep(sweep, { targetHz: aroundHz });
  if (resonanceHz === undefined) throw new Error(`no resonance around ${aroundHz}`);
  return resonanceHz;
}

/** Length at which the antenna is right, by repeated correction on the solver itself. */
function rightLengthM(workpiece: Workpiece): number {
  let lengthM = 0.92 * quarterM;
  for (let step = 0; step < 6; step += 1)
    lengthM *= (sweptResonanceHz(lengthM, workpiece, targetHz) / targetHz) ** 1.3;
  return lengthM;
}

const diameters = [1e-3, 2e-3, 4e-3];
const droops = [0, 30, 45, 60];
const starts = [1.01, 1.04, 1.08, 1.12];

describe.each(diameters)('ground planes of wire %f m', (diameterM) => {
  test.each(droops)('droop %i degrees: on target in at most four cuts, never past it', (droopDeg) => {
    const workpiece = { diameterM, droopDeg };
    const right = rightLengthM(workpiece);
    for (const start of starts) {
      const cuts: TrimCut[] = [];
      let elementLengthM = right * start;
      for (let made = 0; ; made += 1) {
        const around = Math.min(targetHz, targetHz * (right / elementLengthM) ** 0.75);
        const resonanceHz = sweptResonanceHz(elementLengthM, workpiece, around);
        cuts.push({ elementLengthM, resonanceHz });
        const advice = trimAdvice({ cuts, targetHz });
        // Past the target by no more than a sweep can be told from another.
        expect(resonanceHz / targetHz, JSON.stringify(cuts)).toBeLessThan(1 + 1e-4);
        if (advice.action === 'done') break;
        expect(advice.action, JSON.stringify(cuts)).toBe('cut');
        expect(made, JSON.stringify(cuts)).toBeLessThan(4);
        elementLengthM = advice.newLengthM;
      }
      expect(Math.abs((cuts.at(-1)?.resonanceHz ?? 0) / targetHz - 1)).toBeLessThanOrEqual(0.002);
    }
  });
});
