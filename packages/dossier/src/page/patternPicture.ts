import { join, type Markup, markup } from './markup.js';
import { at, label, line, picture, pictureWidth } from './svg.js';
import { decibels, decimal } from './wording.js';

/** An elevation cut of an antenna's gain, with the direction of a node. */
export interface PatternCut {
  /** Elevations in degrees above the horizon, rising from -90 to 90. */
  readonly elevationDeg: readonly number[];
  /** Gain at each in dBi. */
  readonly gainDbi: readonly number[];
  /** Elevation of the node as the antenna sees it, in degrees. */
  readonly nodeElevationDeg: number;
  /** Gain towards the node in dBi. */
  readonly nodeGainDbi: number;
}

const centreX = 60;
const radius = 150;
const centreY = radius + 22;
/** Gains this far below the strongest are drawn in the middle. */
const depthDb = 30;

/** Half a circle of elevation: the antenna stands at the left, the horizon lies to the right. */
export function patternPicture(cut: PatternCut): Markup {
  const strongest = Math.max(...cut.gainDbi);
  const reach = (gainDbi: number) => radius * Math.max(0, 1 - (strongest - gainDbi) / depthDb);
  const rings = [0, 10, 20].map((below) => ring(reach(strongest - below), strongest - below));
  const outline = cut.elevationDeg
    .map((elevation, index) => spot(elevation, reach(cut.gainDbi[index] ?? strongest - depthDb)))
    .map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${at(x)} ${at(y)}`)
    .join('');
  return picture(
    {
      id: 'pattern',
      height: 2 * radius + 46,
      title: 'Gain of the antenna by elevation',
      description: `At most ${decibels(strongest, 'dBi')}; towards the node, at ${decimal(cut.nodeElevationDeg, 1)}°, ${decibels(cut.nodeGainDbi, 'dBi')}.`,
    },
    [
      ...rings,
      ...[-60, -30, 0, 30, 60].map(spoke),
      markup`<path class="lobe" d="${outline}Z"/>`,
      ...nodeMark(cut, reach),
    ],
  );
}

function spot(elevationDeg: number, length: number): [number, number] {
  const angle = (elevationDeg * Math.PI) / 180;
  return [centreX + length * Math.cos(angle), centreY - length * Math.sin(angle)];
}

function ring(length: number, gainDbi: number): Markup {
  const arc = `M${centreX} ${at(centreY - length)}A${at(length)} ${at(length)} 0 0 1 ${centreX} ${at(centreY + length)}`;
  return join([
    markup`<path class="ring" d="${arc}"/>`,
    label(centreX - 4, centreY - length + 4, decimal(gainDbi, 1), 'mark', 'end'),
  ]);
}

function spoke(elevationDeg: number): Markup {
  const [x, y] = spot(elevationDeg, radius);
  const [labelX, labelY] = spot(elevationDeg, radius + 6);
  return join([
    line('grid', centreX, centreY, x, y),
    label(labelX, labelY + 4, elevationDeg === 0 ? 'horizon' : `${decimal(elevationDeg, 0)}°`),
  ]);
}

function nodeMark(
  { nodeElevationDeg, nodeGainDbi }: PatternCut,
  reach: (gainDbi: number) => number,
): Markup[] {
  const [x, y] = spot(nodeElevationDeg, radius);
  const [dotX, dotY] = spot(nodeElevationDeg, reach(nodeGainDbi));
  return [
    line('limit', centreX, centreY, x, y),
    markup`<circle class="gateway" cx="${at(dotX)}" cy="${at(dotY)}" r="5"/>`,
    label(
      pictureWidth - 8,
      2 * radius + 40,
      `towards the node ${decibels(nodeGainDbi, 'dBi')}`,
      'name',
      'end',
    ),
  ];
}
