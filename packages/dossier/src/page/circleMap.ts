import type { AreaPolygons } from '../contourAreas.js';
import type { Position } from '../position.js';
import type { ReliefPart } from '../reliefPart.js';
import { areaPath, gatewayMark, metresFrom, ring, ringRadii, scaleBar } from './localMap.js';
import { type Markup, markup } from './markup.js';
import { reliefUnder } from './reliefImage.js';
import { at, label, picture, pictureWidth } from './svg.js';

const margin = 8;
const middle = pictureWidth / 2;
const height = pictureWidth + 22;

/** Turns a position into coordinates of the picture. */
export type Placing = (position: Position) => readonly [number, number];

/** A map of everything within a radius. */
export interface CircleMap {
  readonly id: string;
  readonly title: string;
  readonly description: string;
  /** True where {@link CircleMap.marks | marks} are links. */
  readonly hasLinks?: boolean | undefined;
  readonly gateway: Position;
  readonly radiusM: number;
  /** Where anything is known. */
  readonly knownPolygons: AreaPolygons;
  readonly relief: ReliefPart | undefined;
  /** Coloured areas, under the relief. */
  readonly areas: (place: Placing) => readonly Markup[];
  /** Marks over the relief. */
  readonly marks: (place: Placing) => readonly Markup[];
}

/** Draws it: known ground, areas, relief, rings of distance, marks, gateway, scale and north. */
export function circleMap(map: CircleMap): Markup {
  const { radiusM, relief } = map;
  const scale = (middle - margin) / radiusM;
  const place: Placing = (position) => {
    const { east, north } = metresFrom(map.gateway, position);
    return [middle + east * scale, middle - north * scale];
  };
  const rim = `cx="${middle}" cy="${middle}" r="${at(radiusM * scale)}"`;
  return picture({ ...map, height }, [
    markup`<clipPath id="${map.id}-rim"><circle ${{ markupText: rim }}/></clipPath>`,
    markup`<circle class="unknown" ${{ markupText: rim }}/>`,
    areaPath('known ground', map.knownPolygons, 'ground', place),
    ...map.areas(place),
    markup`<g clip-path="url(#${map.id}-rim)">${relief && reliefUnder(relief, place)}</g>`,
    ...ringRadii(radiusM).map((each) => ring(middle, middle, each, scale)),
    ...map.marks((position) => place(position)),
    gatewayMark(middle, middle),
    ...scaleBar(scale, height),
    label(pictureWidth - 12, 16, 'N ↑', 'name', 'end'),
  ]);
}

/** Whether a place lies on the map. */
export function isOnMap([x, y]: readonly [number, number]): boolean {
  return Math.hypot(x - middle, y - middle) <= middle - margin;
}
