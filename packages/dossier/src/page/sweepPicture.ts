import { reflectionCoefficientToVswr } from '@finial/radio';
import { scaleLinear } from 'd3-scale';
import { line as path } from 'd3-shape';
import { join, type Markup, markup } from './markup.js';
import { at, label, line, picture, pictureWidth } from './svg.js';
import { decimal, megahertz } from './wording.js';

/** A sweep as its picture needs it; all series have the same length. */
export interface SweepSeries {
  /** Frequencies in hertz, rising. */
  readonly frequencyHz: readonly number[];
  /** Magnitude of the reflection coefficient at each. */
  readonly reflectionCoefficient: readonly number[];
  /** Resistance in ohm at each; left out where the sweep has no phase. */
  readonly resistanceOhm?: readonly number[] | undefined;
  /** Reactance in ohm at each; left out where the sweep has no phase. */
  readonly reactanceOhm?: readonly number[] | undefined;
  /** The sweeps before the last cuts, oldest first. */
  readonly earlier?: readonly Pick<SweepSeries, 'frequencyHz' | 'reflectionCoefficient'>[] | undefined;
  /** Where the antenna shall work, in hertz. */
  readonly targetHz: number;
  /** Where it resonates, in hertz; left out where the sweep shows no minimum. */
  readonly resonanceHz?: number | undefined;
  /** Edges of the band in which at most a tenth of the power comes back, in hertz; an edge beyond the sweep is left out. */
  readonly band?:
    | { readonly lowerHz?: number | undefined; readonly upperHz?: number | undefined }
    | undefined;
}

const left = 34;
const right = pictureWidth - 8;
const vswrPanel = { top: 12, bottom: 150 };
const impedancePanel = { top: 186, bottom: 316 };
const highestVswr = 6;

/** Standing-wave ratio and impedance over frequency, with resonance and target marked. */
export function sweepPicture(series: SweepSeries): Markup {
  const { frequencyHz, targetHz, resonanceHz } = series;
  const hasPhase = series.resistanceOhm !== undefined && series.reactanceOhm !== undefined;
  const x = scaleLinear()
    .domain([frequencyHz[0] as number, frequencyHz.at(-1) ?? 1])
    .range([left, right]);
  const bottom = hasPhase ? impedancePanel.bottom : vswrPanel.bottom;
  return picture(
    {
      id: 'sweep',
      height: bottom + 26,
      title: 'Standing-wave ratio and impedance of the antenna over frequency',
      description: `${resonanceHz === undefined ? '' : `Best at ${megahertz(resonanceHz)}, `}wanted at ${megahertz(targetHz)}; the table below holds the figures.`,
    },
    [
      band(series, x),
      ...frequencyAxis(x, bottom),
      ...vswrCurves(series, x),
      ...(hasPhase ? impedanceCurves(series, x) : []),
      line('limit', x(targetHz), vswrPanel.top, x(targetHz), bottom),
      label(x(targetHz) + 3, vswrPanel.top + 9, 'wanted', 'name'),
      ...(resonanceHz === undefined ? [] : resonanceMark(x(resonanceHz), bottom)),
    ],
  );
}

function resonanceMark(x: number, bottom: number): Markup[] {
  return [line('fit', x, vswrPanel.top, x, bottom), label(x - 3, vswrPanel.top + 9, 'best', 'name', 'end')];
}

type Scale = (value: number) => number;

function band({ band: edges, frequencyHz }: SweepSeries, x: Scale): Markup {
  if (edges === undefined) return markup``;
  const from = x(edges.lowerHz ?? frequencyHz[0] ?? 0);
  const to = x(edges.upperHz ?? frequencyHz.at(-1) ?? 0);
  const height = vswrPanel.bottom - vswrPanel.top;
  return markup`<rect class="band" x="${at(from)}" y="${vswrPanel.top}" width="${at(to - from)}" height="${height}"/>`;
}

function frequencyAxis(x: Scale & { ticks(count: number): number[] }, bottom: number): Markup[] {
  return x.ticks(5).map((frequencyHz) => {
    const grid = line('grid', x(frequencyHz), vswrPanel.top, x(frequencyHz), bottom);
    return join([grid, label(x(frequencyHz), bottom + 14, decimal(frequencyHz / 1e6, 0), 'mark', 'middle')]);
  });
}

function vswrCurves(series: SweepSeries, x: Scale): Markup[] {
  const y = scaleLinear().domain([1, highestVswr]).range([vswrPanel.bottom, vswrPanel.top]).clamp(true);
  return [
    ...levels([1, 2, 3, 4, 5, 6], y),
    label(left, vswrPanel.top - 3, `VSWR (above ${highestVswr} drawn at the top)`),
    ...(series.earlier ?? []).map((each) => curve('earlier', vswrPoints(each, x, y))),
    curve('frame-line', vswrPoints(series, x, y)),
  ];
}

/** A sweep before a cut may reach beyond the last one: what lies outside the picture is left out. */
function vswrPoints(
  { frequencyHz, reflectionCoefficient }: Pick<SweepSeries, 'frequencyHz' | 'reflectionCoefficient'>,
  x: Scale,
  y: Scale,
): [number, number][] {
  const points = frequencyHz.map((each, index): [number, number] => [
    x(each),
    y(drawnVswr(reflectionCoefficient[index] as number)),
  ]);
  return points.filter(([px]) => px >= left && px <= right);
}

/** VSWR of a reflection, for drawing only: where all or more comes back it is off the picture. */
function drawnVswr(coefficient: number): number {
  return coefficient < 0.999 ? reflectionCoefficientToVswr(coefficient) : highestVswr;
}

function impedanceCurves(
  { frequencyHz, resistanceOhm = [], reactanceOhm = [] }: SweepSeries,
  x: Scale,
): Markup[] {
  const reach = Math.min(200, Math.max(60, ...resistanceOhm.map(Math.abs), ...reactanceOhm.map(Math.abs)));
  const y = scaleLinear()
    .domain([-reach, reach])
    .nice()
    .range([impedancePanel.bottom, impedancePanel.top])
    .clamp(true);
  const points = (ohms: readonly number[]) =>
    frequencyHz.map((each, index) => [x(each), y(ohms[index] as number)] as const);
  return [
    ...levels(y.ticks(5), y),
    label(left, impedancePanel.top - 5, 'Ω: resistance solid, reactance dashed'),
    curve('frame-line', points(resistanceOhm)),
    curve('frame-line dashed', points(reactanceOhm)),
  ];
}

function levels(values: readonly number[], y: Scale): Markup[] {
  return values.map((value) =>
    join([
      line('grid', left, y(value), right, y(value)),
      label(left - 5, y(value) + 4, decimal(value, 0), 'mark', 'end'),
    ]),
  );
}

function curve(className: string, points: readonly (readonly [number, number])[]): Markup {
  const draw = path<readonly [number, number]>()
    .x(([px]) => at(px))
    .y(([, py]) => at(py));
  return markup`<path class="${className}" d="${draw([...points]) ?? ''}"/>`;
}
