import { InputError } from '@finial/units';
import { areJoined } from './checkClearances.js';
import { along } from './geometry.js';
import type { GivenSource, PreparedSource, PreparedWire } from './prepareWires.js';
import type { Point, WireGround } from './Wire.js';

interface DrawnOut {
  readonly wires: readonly PreparedWire[];
  readonly sources: readonly PreparedSource[];
}

/**
 * Draws every open end out by half a radius. The flat face of a rod holds charge too; as dense as on the skin beside it, it is
 * that of half a radius of skin (πa² against 2πa · a/2), which a thin-wire current has no other place for.
 *
 * Source: G. J. Burke and A. J. Poggio, Numerical Electromagnetics Code, part I (1981), condition at a wire end, from memory: the
 * current there is J1(ka)/J0(ka), or about ka/2, times its slope over k.
 */
export function drawOutOpenEnds(
  wires: readonly PreparedWire[],
  sources: readonly GivenSource[],
  ground: WireGround,
): DrawnOut {
  const isOpen = (point: Point, index: number) =>
    !(ground === 'perfect' && point.zM === 0) &&
    wires.every(
      (other, place) =>
        place === index ||
        [other.start, other.end].every(
          (end) => !areJoined(point, end, Math.min(other.radiusM, (wires[index] as PreparedWire).radiusM)),
        ),
    );
  const outM = wires.map(({ start, end, radiusM }, index) => ({
    atStart: isOpen(start, index) ? radiusM / 2 : 0,
    atEnd: isOpen(end, index) ? radiusM / 2 : 0,
  }));
  return {
    wires: wires.map((wire, index) => drawnOut(wire, outM[index] as (typeof outM)[number])),
    sources: sources.map((source, index) => {
      const { atStart, atEnd } = outM[source.wire] as (typeof outM)[number];
      const { lengthM } = wires[source.wire] as PreparedWire;
      refuseOpenEnd(source, atStart > 0, atEnd > 0, sources.length > 1 ? `source[${index}]` : 'source');
      const drawnRatio = (source.positionRatio * lengthM + atStart) / (lengthM + atStart + atEnd);
      return { ...source, drawnRatio };
    }),
  };
}

function drawnOut(wire: PreparedWire, { atStart, atEnd }: { atStart: number; atEnd: number }): PreparedWire {
  const { start, end, lengthM } = wire;
  return {
    ...wire,
    start: atStart > 0 ? along(start, end, -atStart / lengthM) : start,
    end: atEnd > 0 ? along(start, end, 1 + atEnd / lengthM) : end,
    lengthM: lengthM + atStart + atEnd,
  };
}

function refuseOpenEnd(source: GivenSource, startIsOpen: boolean, endIsOpen: boolean, name: string): void {
  const { positionRatio, wire } = source;
  if (!(startIsOpen && positionRatio === 0) && !(endIsOpen && positionRatio === 1)) return;
  throw new InputError({
    code: 'out-of-range',
    argument: `${name}.positionRatio`,
    received: positionRatio,
    expected: `a place off the open end of wires[${wire}], where no current can flow`,
  });
}
