import { type SupplyLine, supplyDrop } from '@finial/site';
import { join, type Markup, markup } from '../../../packages/dossier/src/page/markup.js';
import { at, label, picture, pictureWidth, line as stroke } from '../../../packages/dossier/src/page/svg.js';
import { decimal } from '../../../packages/dossier/src/page/wording.js';

const left = 34;
const right = pictureWidth - 62;
const top = 16;
const bottom = 170;
const pieces = 60;

/**
 * Voltage at the gateway over the length of the line, for each of its states.
 *
 * @param longestLengthM - the longest line that works: it is in the picture unless it is far beyond the line itself
 */
export function supplyPicture(line: SupplyLine, longestLengthM: number): Markup {
  const longestM = Math.min(1000, 20 * line.lengthM, Math.max(1.5 * line.lengthM, 1.15 * longestLengthM));
  const lengths = Array.from({ length: pieces }, (_, index) => (longestM * (index + 1)) / pieces);
  const along = lengths.map((lengthM) => supplyDrop({ ...line, lengthM: Math.max(0.01, lengthM) }).states);
  const voltages = along.flatMap((states) => states.flatMap(({ loadV }) => loadV ?? []));
  const highest = Math.max(line.supplyV, line.leastLoadV);
  const lowest = Math.min(line.leastLoadV, ...voltages);
  // Some room, so that the line of the least voltage does not lie on the edge.
  const room = 0.08 * (highest - lowest || 1);
  const x = (lengthM: number) => left + ((right - left) * lengthM) / longestM;
  const y = (volts: number) =>
    bottom - ((bottom - top) * (volts - lowest + room)) / (highest - lowest + 2 * room);
  const curves = line.states.map(({ name }, index) =>
    stateCurve(
      name,
      along.map((states) => states[index]?.loadV),
      lengths,
      x,
      y,
    ),
  );
  return picture(
    {
      id: 'supply',
      height: bottom + 34,
      title: 'Voltage at the gateway over the length of the line',
      description: `From ${decimal(line.supplyV, 1)} volts at the supply; at least ${decimal(line.leastLoadV, 2)} volts are needed. The table below holds the figures at ${decimal(line.lengthM, 1)} metres.`,
    },
    [
      ...lengthTicks(longestM).map((lengthM) => lengthTick(lengthM, x)),
      ...[lowest, (lowest + highest) / 2, highest].map((volts) => voltTick(volts, y)),
      stroke('fit', x(line.lengthM), top, x(line.lengthM), bottom),
      stroke('limit', left, y(line.leastLoadV), right, y(line.leastLoadV)),
      ...placed(curves).map(curveAndName),
      label(4, 10, 'V', 'mark'),
      label(right, bottom + 29, 'metres of line', 'mark', 'end'),
    ],
  );
}

interface StateCurve {
  readonly name: string;
  readonly path: Markup;
  readonly endX: number;
  readonly endY: number;
}

type Scale = (value: number) => number;

/** A curve ends where no voltage holds any more. */
function stateCurve(
  name: string,
  volts: readonly (number | undefined)[],
  lengths: readonly number[],
  x: Scale,
  y: Scale,
): StateCurve {
  const points = volts.flatMap((each, index) =>
    each === undefined ? [] : [[x(lengths[index] ?? 0), y(each)] as const],
  );
  const outline = points.map(([px, py], index) => `${index === 0 ? 'M' : 'L'}${at(px)} ${at(py)}`).join('');
  const [endX, endY] = points.at(-1) ?? [left, bottom];
  return { name, path: markup`<path class="frame-line" d="${outline}"/>`, endX, endY };
}

function curveAndName({ path, name, endX, endY }: StateCurve): Markup {
  return join([path, label(endX + 4, endY + 4, name, 'mark')]);
}

const nameWidth = 44;
const nameHeight = 12;

/** Keeps names off the axis, and those that would lie on each other a line apart, upwards. */
function placed(curves: readonly StateCurve[]): readonly StateCurve[] {
  const done: StateCurve[] = [];
  for (const curve of curves.toSorted((a, b) => b.endY - a.endY)) {
    const near = done.filter(({ endX }) => Math.abs(endX - curve.endX) < nameWidth);
    const lowest = Math.min(bottom - 8, ...near.map(({ endY }) => endY - nameHeight));
    done.push({ ...curve, endY: Math.min(curve.endY, lowest) });
  }
  return done;
}

/** Round lengths, three to six of them. */
function lengthTicks(longestM: number): readonly number[] {
  const rough = longestM / 6;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = power * ([1, 2, 5, 10].find((factor) => factor * power >= rough) ?? 10);
  return Array.from({ length: Math.floor(longestM / step + 1e-9) + 1 }, (_, index) => index * step);
}

function lengthTick(lengthM: number, x: Scale): Markup {
  const digits = lengthM < 10 && lengthM % 1 !== 0 ? (lengthM < 1 ? 2 : 1) : 0;
  return join([
    stroke('grid', x(lengthM), top, x(lengthM), bottom),
    label(x(lengthM), bottom + 15, decimal(lengthM, digits), 'mark', 'middle'),
  ]);
}

function voltTick(volts: number, y: Scale): Markup {
  return join([
    stroke('grid', left, y(volts), right, y(volts)),
    label(left - 4, y(volts) + 4, decimal(volts, volts < 20 ? 1 : 0), 'mark', 'end'),
  ]);
}
