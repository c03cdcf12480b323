import type { MastLoad, MastPart } from '@finial/site';
import { join, type Markup, markup } from '../../../packages/dossier/src/page/markup.js';
import { at, label, line, picture, pictureWidth } from '../../../packages/dossier/src/page/svg.js';
import { decimal } from '../../../packages/dossier/src/page/wording.js';

const top = 16;
const ground = 236;
const mastX = 190;
const longestArrow = 110;
const lineHeight = 13;

/** The mast from the side with the push of the wind on each part. Heights are to scale, widths are drawn wider than they are. */
export function mastPicture(parts: readonly MastPart[], load: MastLoad): Markup {
  const highestM = Math.max(...parts.map(({ centreM, heightM }) => centreM + heightM / 2));
  const strongestN = Math.max(1e-9, ...load.parts.map(({ forceN }) => forceN));
  const y = (heightM: number) => ground - ((ground - top) * heightM) / highestM;
  const words = spread(parts.map(({ centreM }) => y(centreM)));
  return picture(
    {
      id: 'mast',
      height: ground + 30,
      title: 'The mast and the wind on its parts',
      description: `${decimal(load.forceN, 0)} newtons in all, ${decimal(load.momentNm, 0)} newton metres about the foot; the table below lists the parts.`,
    },
    [
      line('chain-line', 20, ground, pictureWidth - 20, ground),
      ...parts.map((part) => outline(part, y)),
      ...parts.map((part, index) => {
        const { forceN = 0 } = load.parts[index] ?? {};
        const arrowY = words[index] ?? y(part.centreM);
        return join([
          arrow(arrowY, (longestArrow * forceN) / strongestN),
          label(mastX + 34, arrowY + 4, `${part.name}, ${decimal(forceN, 0)} N`, 'name'),
        ]);
      }),
      label(20, ground + 18, `about the foot ${decimal(load.momentNm, 0)} N·m`, 'name'),
      label(pictureWidth - 20, ground + 18, `top at ${decimal(highestM, 1)} m`, 'mark', 'end'),
    ],
  );
}

function outline({ shape, widthM, heightM, centreM }: MastPart, y: (heightM: number) => number): Markup {
  const width =
    shape === 'flat' ? Math.min(52, Math.max(14, 90 * widthM)) : Math.min(16, Math.max(3, 160 * widthM));
  const upper = y(centreM + heightM / 2);
  const height = Math.max(2, y(centreM - heightM / 2) - upper);
  return markup`<rect class="chain-part" x="${at(mastX - width / 2)}" y="${at(upper)}" width="${at(width)}" height="${at(height)}" rx="2"/>`;
}

function arrow(y: number, length: number): Markup {
  const end = mastX - 30;
  const head = `M${end} ${at(y)}l-8 -4v8z`;
  return join([
    line('limit', end - Math.max(10, length), y, end - 6, y),
    markup`<path class="bar loss" d="${head}"/>`,
  ]);
}

/** Arrows that would lie on each other stand a line apart. */
function spread(heights: readonly number[]): readonly number[] {
  const order = heights.map((height, index) => ({ height, index })).sort((a, b) => a.height - b.height);
  const placed = [...heights];
  let next = top;
  for (const { height, index } of order) {
    next = Math.max(height, next);
    placed[index] = next;
    next += lineHeight;
  }
  return placed;
}
