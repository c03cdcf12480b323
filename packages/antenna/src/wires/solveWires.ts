import { InputError } from '@finial/units';
import { solveComplexInPlace } from './complexLu.js';
import { type CurrentBasis, currentBasis } from './currentBasis.js';
import { farField, radiatedPowerW } from './farField.js';
import { impedanceMatrix } from './impedanceMatrix.js';
import {
  type PreparedProblem,
  type PreparedSource,
  type PreparedWire,
  prepareWires,
} from './prepareWires.js';
import { segmentTable } from './SegmentTable.js';
import type { SolveWiresSettings } from './SolveWiresSettings.js';
import { sourceGap } from './sourceGap.js';
import { type ImpedancePerMetre, surfaceImpedance } from './surfaceImpedance.js';
import type { Wire } from './Wire.js';
import type { SolvedWire, WireFeed, WireSolution } from './WireSolution.js';

/** Time grows with the cube of the unknowns, memory with their square: a thousand take some seconds and 16 MB. */
const mostUnknowns = 1000;

/**
 * Currents on straight round wires that a voltage drives, and from them feed impedance, power and far field: a thin-wire moment
 * method with straight-line (rooftop) currents. Voltages and currents are peak values, so power is half their product.
 *
 * Wires may meet at their ends, any number of them and of different radii; over `ground: 'perfect'` their ends may stand on
 * z = 0 and are then connected to it. The wires are bare metal in vacuum: no insulation, mast, cable or real earth.
 *
 * All wires lie within a box of 100 wavelengths from corner to corner and make at most 1000 unknown currents.
 * The method holds for wires thinner than λ/30 in radius, cut into pieces from 1.6 radii to λ/10. Ends of rods are
 * flat; the gap of a source is as wide as its wire is thick. How far a result has settled, `convergence` shows.
 *
 * Where the current at the source is near its minimum (a rod of about one wavelength fed in the middle, 5/8 fed at the foot),
 * the impedance is that of the gap as much as of the wires, and another place or model of the gap gives another: a quarter more or less was seen.
 *
 * @returns currents, impedance, powers; against another moment method, resonant length within 0.5 % (four drooping radials:
 *   1.5 %), resistance there within 3 %, gain within 0.02 dB
 * @throws {@link InputError} `out-of-range` for wires that cross, overlap, have no length or lie under the ground;
 *   `outside-validity` for a wire too thick, or segments too long or too short; `missing` without wires or source; others for
 *   arguments that are not what they should be. The argument names the wire: `wires[2].radiusM`
 * @source R. F. Harrington, Field Computation by Moment Methods (1968), chapter 4 (from memory): mixed potentials on thin wires
 * @example A half-wave dipole, cut a little short so that it is resonant
 * ```ts
 * import { solveWires } from '@finial/antenna';
 *
 * const rod = { start: { xM: 0, yM: 0, zM: 0 }, end: { xM: 0, yM: 0, zM: 0.1607 }, radiusM: 0.001 };
 * const { feed } = solveWires([rod], { frequencyHz: 868.1e6, source: { wire: 0, positionRatio: 0.5 } });
 * feed.resistanceOhm; // ≈ 72
 * ```
 */
export function solveWires(wires: readonly Wire[], settings: SolveWiresSettings): WireSolution {
  const problem = prepareWires(wires, settings);
  const segments = segmentTable(problem.wires);
  const basis = currentBasis(problem.wires, segments.firstOfWire, problem.ground);
  if (basis.unknownsCount > mostUnknowns) {
    const expected = `wires of at most ${mostUnknowns} unknown currents in all`;
    throw new InputError({
      code: 'out-of-range',
      argument: 'wires',
      received: basis.unknownsCount,
      expected,
    });
  }
  const surface = surfaceOf(problem);
  const { wavelengthM, ground } = problem;
  const matrix = impedanceMatrix({ segments, basis, wavelengthM, hasGround: ground === 'perfect', surface });
  const currents = drivingVoltages(problem, basis, segments.firstOfWire);
  if (!solveComplexInPlace(matrix, currents, basis.unknownsCount)) {
    const expected = 'wires whose currents can be told apart';
    throw new InputError({ code: 'out-of-range', argument: 'wires', received: wires, expected });
  }
  const solved = problem.wires.map((wire, index) => {
    const first = segments.firstOfWire[index] as number;
    return solvedWire(wire, nodeCurrents(basis, currents, first, wire.segments));
  });
  return solutionFrom(problem, basis, solved, surface);
}

function surfaceOf({
  wires,
  frequencyHz,
  conductivitySPerM,
}: PreparedProblem): readonly ImpedancePerMetre[] | undefined {
  if (conductivitySPerM === undefined) return undefined;
  return wires.map(({ radiusM }) => surfaceImpedance({ frequencyHz, radiusM, conductivitySPerM }));
}

function drivingVoltages(
  { sources, wires }: PreparedProblem,
  basis: CurrentBasis,
  firstOfWire: readonly number[],
): Float64Array {
  const voltages = new Float64Array(2 * basis.unknownsCount);
  for (const source of sources) {
    const wire = wires[source.wire] as PreparedWire;
    const first = firstOfWire[source.wire] as number;
    const phase = (source.phaseDeg * Math.PI) / 180;
    const [real, imaginary] = [source.voltageV * Math.cos(phase), source.voltageV * Math.sin(phase)];
    for (const { segment, startShare, endShare } of sourceGap(source, wire)) {
      for (const [end, share] of [startShare, endShare].entries()) {
        for (const { unknown, factor } of basis.terms[2 * (first + segment) + end] ?? []) {
          voltages[2 * unknown] = (voltages[2 * unknown] as number) + share * factor * real;
          voltages[2 * unknown + 1] = (voltages[2 * unknown + 1] as number) + share * factor * imaginary;
        }
      }
    }
  }
  return voltages;
}

/** Real and imaginary currents at the nodes of one wire. */
function nodeCurrents(
  basis: CurrentBasis,
  unknowns: Float64Array,
  first: number,
  segments: number,
): readonly [number[], number[]] {
  const sum = (endValue: number, part: number) =>
    (basis.terms[endValue] ?? []).reduce(
      (total, { unknown, factor }) => total + factor * (unknowns[2 * unknown + part] as number),
      0,
    );
  const nodes = (part: number) =>
    Array.from({ length: segments + 1 }, (_, node) =>
      sum(node < segments ? 2 * (first + node) : 2 * (first + segments) - 1, part),
    );
  return [nodes(0), nodes(1)];
}

function solvedWire(
  { start, end, radiusM, segments }: PreparedWire,
  [currentsRealA, currentsImaginaryA]: readonly [number[], number[]],
): SolvedWire {
  return { start, end, radiusM, segments, currentsRealA, currentsImaginaryA };
}

function solutionFrom(
  problem: PreparedProblem,
  { unknownsCount }: CurrentBasis,
  wires: readonly SolvedWire[],
  surface: readonly ImpedancePerMetre[] | undefined,
): WireSolution {
  const { frequencyHz, wavelengthM, ground, warnings } = problem;
  const feeds = problem.sources.map((source) =>
    feedOf(source, problem.wires[source.wire] as PreparedWire, wires[source.wire] as SolvedWire),
  );
  const inputPowerW = feeds.reduce((sum, { powerW }) => sum + powerW, 0);
  const radiated = radiatedPowerW(farField({ wavelengthM, ground, wires }));
  const lossPowerW =
    surface === undefined
      ? 0
      : wires.reduce(
          (sum, wire, index) => sum + lossIn(wire, (surface[index] as ImpedancePerMetre).resistanceOhmPerM),
          0,
        );
  return {
    frequencyHz,
    wavelengthM,
    ground,
    unknownsCount,
    feed: feeds[0] as WireFeed,
    feeds,
    wires,
    inputPowerW,
    radiatedPowerW: radiated,
    lossPowerW,
    efficiencyRatio: radiated / (radiated + lossPowerW),
    warnings,
  };
}

function feedOf(source: PreparedSource, wire: PreparedWire, solved: SolvedWire): WireFeed {
  const { positionRatio, voltageV, phaseDeg } = source;
  const shares = sourceGap(source, wire);
  const through = (currents: readonly number[]) =>
    shares.reduce(
      (sum, { segment, startShare, endShare }) =>
        sum + startShare * (currents[segment] as number) + endShare * (currents[segment + 1] as number),
      0,
    );
  const currentRealA = through(solved.currentsRealA);
  const currentImaginaryA = through(solved.currentsImaginaryA);
  const phase = (phaseDeg * Math.PI) / 180;
  const [real, imaginary] = [voltageV * Math.cos(phase), voltageV * Math.sin(phase)];
  const square = currentRealA ** 2 + currentImaginaryA ** 2;
  return {
    wire: source.wire,
    positionRatio,
    resistanceOhm: (real * currentRealA + imaginary * currentImaginaryA) / square,
    reactanceOhm: (imaginary * currentRealA - real * currentImaginaryA) / square,
    currentRealA,
    currentImaginaryA,
    powerW: (real * currentRealA + imaginary * currentImaginaryA) / 2,
  };
}

/** Half of resistance times the square of a current that runs straight from node to node. */
function lossIn(wire: SolvedWire, resistanceOhmPerM: number): number {
  const { start, end, segments } = wire;
  const pieceM = Math.hypot(end.xM - start.xM, end.yM - start.yM, end.zM - start.zM) / segments;
  let sum = 0;
  for (const currents of [wire.currentsRealA, wire.currentsImaginaryA]) {
    for (let node = 0; node < segments; node++) {
      const before = currents[node] as number;
      const after = currents[node + 1] as number;
      sum += (before * before + before * after + after * after) / 3;
    }
  }
  return (resistanceOhmPerM * pieceM * sum) / 2;
}
