import { wavelengthM } from '@finial/radio';
import { checkInteger, checkList, checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import { checkClearances, lyingOnGround } from './checkClearances.js';
import { distanceM } from './geometry.js';
import { drawOutOpenEnds } from './openEnds.js';
import type { SolveWiresSettings } from './SolveWiresSettings.js';
import type { Point, Wire, WireGround, WireSource } from './Wire.js';

/** A wire whose numbers have been checked, whose segments are counted and whose open ends are drawn out. */
export interface PreparedWire {
  readonly start: Point;
  readonly end: Point;
  readonly radiusM: number;
  readonly segments: number;
  readonly lengthM: number;
}

/** A source whose numbers have been checked. */
export interface PreparedSource {
  readonly wire: number;
  /** As given, for the result. */
  readonly positionRatio: number;
  /** The same place on the wire with its ends drawn out. */
  readonly drawnRatio: number;
  readonly voltageV: number;
  readonly phaseDeg: number;
}

/** A source before the ends are drawn out. */
export type GivenSource = Omit<PreparedSource, 'drawnRatio'>;

/** Everything that a solution starts from. */
export interface PreparedProblem {
  readonly frequencyHz: number;
  readonly wavelengthM: number;
  readonly ground: WireGround;
  /** Undefined for a perfect conductor. */
  readonly conductivitySPerM: number | undefined;
  readonly wires: readonly PreparedWire[];
  readonly sources: readonly PreparedSource[];
  readonly warnings: readonly string[];
}

const coordinateBounds = { min: -1e6, max: 1e6, unit: 'metres' };
/** From sea water up to four orders above any metal, so that a frequency or a resistivity in its place is seen. */
const conductivityBounds = { min: 1, max: 1e12, unit: 'siemens per metre' };
const ratioBounds = { min: 0, max: 1, unit: 'of the length of the wire' };
const most = 1000;
/** Farthest that two ends lie apart, in wavelengths: the work of adding up the radiation grows with its square. */
const widest = 100;

/** Longest segment in wavelengths: beyond it a straight line no longer follows the current well. */
const longestSegment = 0.1;
/** Thickest wire: beyond it the current is no longer the same all around the wire. */
const thickestRadius = 1 / 30;
/** Shortest segment in radii: shorter ones describe the wire's end caps, which the method leaves out. */
const shortestSegment = 1.6;

/** Checks the arguments of a solution and counts the segments of each wire. */
export function prepareWires(wires: readonly Wire[], settings: SolveWiresSettings): PreparedProblem {
  checkList(wires, 'wires');
  if (wires.length > most) throw tooMany('wires', wires.length, `at most ${most} wires`);
  const { frequencyHz, ground = 'free-space', conductivitySPerM } = checkObject(settings, 'settings');
  const { outsideValidity = 'refuse' } = settings;
  const wavelength = wavelengthM(frequencyHz);
  checkOneOf(ground, 'ground', ['free-space', 'perfect']);
  checkOneOf(outsideValidity, 'outsideValidity', ['refuse', 'allow']);
  if (conductivitySPerM !== undefined) {
    checkRange(conductivitySPerM, 'conductivitySPerM', conductivityBounds);
  }
  const checked = wires.map((wire, index) => checkedWire(wire, index, wavelength, ground));
  const sources = checkedSources(settings.source, wires.length);
  checkWidth(checked, wavelength);
  checkClearances(checked);
  const prepared = checked.map((wire, index) => ({
    ...wire,
    segments:
      wire.segments ??
      automaticSegments(
        wire,
        wavelength,
        sources.filter((source) => source.wire === index),
      ),
  }));
  const warnings = prepared.flatMap((wire, index) => passedLimits(wire, index, wavelength));
  const first = warnings[0];
  if (first !== undefined && outsideValidity === 'refuse') throw outside(first);
  return {
    frequencyHz,
    wavelengthM: wavelength,
    ground,
    conductivitySPerM,
    ...drawOutOpenEnds(prepared, sources, ground),
    warnings: warnings.map(({ text }) => text),
  };
}

interface CheckedWire extends Omit<PreparedWire, 'segments'> {
  readonly segments: number | undefined;
}

function checkedWire(wire: Wire, index: number, wavelength: number, ground: WireGround): CheckedWire {
  const name = `wires[${index}]`;
  const { radiusM, segments } = checkObject(wire, name);
  checkRange(radiusM, `${name}.radiusM`, { min: wavelength * 1e-7, max: wavelength, unit: 'metres' });
  const start = checkedPoint(wire.start, `${name}.start`, radiusM, ground);
  const end = checkedPoint(wire.end, `${name}.end`, radiusM, ground);
  if (segments !== undefined)
    checkInteger(segments, `${name}.segments`, { min: 1, max: most, unit: 'pieces' });
  const length = distanceM(start, end);
  if (length < radiusM) {
    const expected = 'a start and an end at least one radius apart';
    throw new InputError({ code: 'out-of-range', argument: name, received: length, expected });
  }
  if (ground === 'perfect' && lyingOnGround({ start, end, radiusM })) {
    const expected = 'a wire that touches the ground with one end, or stays above it by more than its radius';
    throw new InputError({ code: 'out-of-range', argument: name, received: wire, expected });
  }
  return { start, end, radiusM, segments, lengthM: length };
}

/** The box around all wires; outside a few wavelengths nothing is an antenna for one gateway. */
function checkWidth(wires: readonly CheckedWire[], wavelength: number): void {
  const points = wires.flatMap(({ start, end }) => [start, end]);
  const sides = (['xM', 'yM', 'zM'] as const).map((axis) => {
    const places = points.map((point) => point[axis]);
    return Math.max(...places) - Math.min(...places);
  });
  checkRange(Math.hypot(...sides), 'wires', {
    min: 0,
    max: widest * wavelength,
    unit: `metres from corner to corner (${widest} wavelengths)`,
  });
}

function checkedPoint(point: Point, name: string, radiusM: number, ground: WireGround): Point {
  const { xM, yM, zM } = checkObject(point, name);
  checkRange(xM, `${name}.xM`, coordinateBounds);
  checkRange(yM, `${name}.yM`, coordinateBounds);
  checkRange(zM, `${name}.zM`, coordinateBounds);
  if (ground === 'free-space') return { xM, yM, zM };
  if (Math.abs(zM) <= radiusM / 1000) return { xM, yM, zM: 0 };
  if (zM < 0) {
    const expected = '0 metres or more over ground';
    throw new InputError({ code: 'out-of-range', argument: `${name}.zM`, received: zM, expected });
  }
  return { xM, yM, zM };
}

function checkedSources(source: SolveWiresSettings['source'], wireCount: number): readonly GivenSource[] {
  const isList = Array.isArray(source);
  const list: readonly WireSource[] = isList
    ? checkList(source as readonly WireSource[], 'source')
    : [source as WireSource];
  if (source === undefined) {
    const expected = 'a source: without one no current flows';
    throw new InputError({ code: 'missing', argument: 'source', received: source, expected });
  }
  if (list.length > most) throw tooMany('source', list.length, `at most ${most} sources`);
  return list.map((item, index) => {
    const name = isList ? `source[${index}]` : 'source';
    const { wire, positionRatio, voltageV = 1, phaseDeg = 0 } = checkObject(item, name);
    checkInteger(wire, `${name}.wire`, { min: 0, max: wireCount - 1, unit: 'the place of a wire' });
    checkRange(positionRatio, `${name}.positionRatio`, ratioBounds);
    checkRange(voltageV, `${name}.voltageV`, { min: 1e-6, max: 1e6, unit: 'volts' });
    checkRange(phaseDeg, `${name}.phaseDeg`, { min: -360, max: 360, unit: 'degrees' });
    return { wire, positionRatio, voltageV, phaseDeg };
  });
}

/** About 40 pieces per half wave, at least 2 radii each. */
function automaticSegments(
  { lengthM, radiusM }: CheckedWire,
  wavelength: number,
  sources: readonly GivenSource[],
): number {
  const wanted = Math.ceil(lengthM / (wavelength / 80) - 1e-9);
  const thick = Math.floor(lengthM / (2 * radiusM) + 1e-9);
  const base = Math.min(most - 4, Math.max(1, Math.min(wanted, thick)));
  return countWithNodes(base, base === thick ? -1 : 1, sources);
}

/** The count, or one of the next four up or down, that brings a node nearest to each source; inside a segment it is less exact. */
export function countWithNodes(
  count: number,
  step: 1 | -1,
  sources: readonly Pick<WireSource, 'positionRatio'>[],
): number {
  const miss = (segments: number) =>
    sources.reduce((sum, { positionRatio }) => {
      const at = positionRatio * segments;
      return sum + Math.abs(at - Math.round(at));
    }, 0);
  return [0, 1, 2, 3, 4]
    .map((steps) => Math.max(1, count + step * steps))
    .reduce((best, segments) => (miss(segments) < miss(best) - 1e-9 ? segments : best));
}

interface PassedLimit {
  readonly argument: string;
  readonly received: number;
  readonly expected: string;
  readonly text: string;
}

function passedLimits(wire: PreparedWire, index: number, wavelength: number): readonly PassedLimit[] {
  const pieceM = wire.lengthM / wire.segments;
  const limits: PassedLimit[] = [];
  const pass = (argument: string, received: number, expected: string) =>
    limits.push({ argument, received, expected, text: `${argument}: ${expected}, is ${received}` });
  const name = `wires[${index}]`;
  if (wire.radiusM > thickestRadius * wavelength) {
    pass(`${name}.radiusM`, wire.radiusM, `at most ${thickestRadius * wavelength} metres (λ/30)`);
  }
  if (pieceM > longestSegment * wavelength * (1 + 1e-9)) {
    const least = Math.ceil(wire.lengthM / (longestSegment * wavelength) - 1e-9);
    pass(`${name}.segments`, wire.segments, `at least ${least} pieces (λ/10 each)`);
  }
  if (pieceM < shortestSegment * wire.radiusM) {
    const greatest = Math.max(1, Math.floor(wire.lengthM / (shortestSegment * wire.radiusM)));
    pass(
      `${name}.segments`,
      wire.segments,
      `at most ${greatest} pieces (each ${shortestSegment} radii or longer)`,
    );
  }
  return limits;
}

function outside({ argument, received, expected }: PassedLimit): InputError {
  return new InputError({
    code: 'outside-validity',
    argument,
    received,
    expected: `${expected} (or outsideValidity: 'allow')`,
  });
}

function tooMany(argument: string, received: number, expected: string): InputError {
  return new InputError({ code: 'out-of-range', argument, received, expected });
}
