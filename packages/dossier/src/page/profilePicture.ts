import { scaleLinear } from 'd3-scale';
import { area, line as curve } from 'd3-shape';
import { join, type Markup, markup } from './markup.js';
import { at, label, line, picture, pictureWidth } from './svg.js';
import { decimal, distance } from './wording.js';

/** The ground between gateway and node, with the curve of the Earth laid on it, so that a ray is a straight line. */
export interface DrawnProfile {
  readonly distanceM: readonly number[];
  /** Ground with the bulge of the Earth in metres. */
  readonly raisedM: readonly number[];
  /** Lower edge of the first Fresnel zone in metres. */
  readonly fresnelLowerM: readonly number[];
  readonly gatewayHeightM: number;
  readonly nodeHeightM: number;
  /** The place that stands highest into the path. */
  readonly worst?: { readonly distanceM: number; readonly raisedM: number } | undefined;
  readonly description: string;
}

const left = 40;
const right = pictureWidth - 10;
const top = 14;
const bottom = 190;

/** Ground, straight ray and Fresnel zone between gateway (left) and node (right). */
export function profilePicture(
  profile: DrawnProfile,
  name: { readonly id: string; readonly title: string } = {
    id: 'profile',
    title: 'Ground between gateway and node',
  },
): Markup {
  const { distanceM, raisedM, fresnelLowerM, gatewayHeightM, nodeHeightM, worst, description } = profile;
  const lengthM = distanceM.at(-1) ?? 1;
  const ends = [gatewayHeightM, nodeHeightM];
  const x = scaleLinear().domain([0, lengthM]).range([left, right]);
  const y = scaleLinear()
    .domain([Math.min(...raisedM, ...fresnelLowerM), Math.max(...raisedM, ...ends) + 5])
    .nice(5)
    .range([bottom, top]);
  const points = distanceM.map((each, index) => [each, raisedM[index] as number] as const);
  const zone = distanceM.map((each, index) => [each, fresnelLowerM[index] as number] as const);
  const ground = area<readonly [number, number]>(
    ([each]) => at(x(each)),
    bottom,
    ([, height]) => at(y(height)),
  );
  const lower = curve<readonly [number, number]>(
    ([each]) => at(x(each)),
    ([, height]) => at(y(height)),
  );
  return picture({ ...name, height: bottom + 30, description }, [
    ...axes(x, y),
    markup`<path class="hill" d="${ground(points) ?? ''}"/>`,
    markup`<path class="noise" fill="none" d="${lower(zone) ?? ''}"/>`,
    line('ray', x(0), y(gatewayHeightM), x(lengthM), y(nodeHeightM)),
    markup`<circle class="gateway" cx="${at(x(0))}" cy="${at(y(gatewayHeightM))}" r="4"/>`,
    markup`<circle class="spot share-0" cx="${at(x(lengthM))}" cy="${at(y(nodeHeightM))}" r="4"/>`,
    ...(worst === undefined
      ? []
      : [
          markup`<path class="unjoined" d="M${at(x(worst.distanceM)) - 4} ${at(y(worst.raisedM)) - 4}l8 8m0 -8l-8 8"/>`,
        ]),
  ]);
}

type Scale = ((value: number) => number) & { ticks(count?: number): number[] };

function axes(x: Scale, y: Scale): Markup[] {
  const heights = y.ticks(5).map((height) => {
    const grid = line('grid', left, y(height), right, y(height));
    return join([grid, label(left - 5, y(height) + 4, decimal(height, 0), 'mark', 'end')]);
  });
  const distances = x
    .ticks(4)
    .filter((each) => each > 0)
    .map((each) => label(Math.min(x(each), right - 14), bottom + 16, distance(each), 'mark', 'middle'));
  return [...heights, ...distances, label(left - 32, 10, 'm', 'mark')];
}
