import { encode } from 'fast-png';
import type { Position } from '../position.js';
import type { ReliefPart } from '../reliefPart.js';
import { type Markup, markup } from './markup.js';
import { at } from './svg.js';

const reliefId = 'relief';

/** Light of level ground under the sun at 45 degrees: there the picture stays clear. */
const levelPercent = 71;
/** Strongest shade and light, of 255: the colours of a map must stay readable under them. */
const strongestShade = 150;
const strongestLight = 110;

/** The picture of the relief, to stand once in the page; maps show it by {@link reliefUnder}. */
export function reliefStore(relief: ReliefPart): Markup {
  return markup`<svg class="store" aria-hidden="true"><defs><image id="${reliefId}" width="1" height="1" preserveAspectRatio="none" href="${pngAddress(relief)}"/></defs></svg>`;
}

/** The relief laid on a map. */
export function reliefUnder(
  { bounds }: ReliefPart,
  place: (position: Position) => readonly [number, number],
): Markup {
  const [left, top] = place({ latitudeDeg: bounds.northDeg, longitudeDeg: bounds.westDeg });
  const [right, bottom] = place({ latitudeDeg: bounds.southDeg, longitudeDeg: bounds.eastDeg });
  return markup`<use href="#${reliefId}" transform="translate(${at(left)} ${at(top)}) scale(${at(right - left)} ${at(bottom - top)})"/>`;
}

/** Black where the ground turns away from the light and white where it faces it, both transparent, so that it suits light and dark pages. */
function pngAddress({ columns, rows, litPercent }: ReliefPart): string {
  const data = new Uint8Array(columns * rows * 2);
  litPercent.forEach((lit, cell) => {
    if (lit === null) return;
    const isLight = lit > levelPercent;
    const share = isLight ? (lit - levelPercent) / (100 - levelPercent) : 1 - lit / levelPercent;
    data[2 * cell] = isLight ? 255 : 0;
    data[2 * cell + 1] = Math.round(share * (isLight ? strongestLight : strongestShade));
  });
  const png = encode({ width: columns, height: rows, data, channels: 2, depth: 8 });
  let letters = '';
  for (const byte of png) letters += String.fromCharCode(byte);
  return `data:image/png;base64,${btoa(letters)}`;
}
