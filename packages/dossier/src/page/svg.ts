import { type Markup, markup } from './markup.js';

/** Width of every picture in its own units; at phone width one unit is about one pixel. */
export const pictureWidth = 360;

/** A coordinate with one decimal: enough for the eye, and pages stay small. */
export function at(coordinate: number): number {
  return Math.round(coordinate * 10) / 10;
}

/** A picture with its name and description for people who hear the page. */
export function picture(
  { id, height, title, description }: { id: string; height: number; title: string; description: string },
  content: readonly Markup[],
): Markup {
  return markup`<svg class="picture" viewBox="0 0 ${pictureWidth} ${at(height)}" role="img" aria-labelledby="${id}-title ${id}-text">
<title id="${id}-title">${title}</title><desc id="${id}-text">${description}</desc>
${content}
</svg>`;
}

/** A straight line. */
export function line(className: string, x1: number, y1: number, x2: number, y2: number): Markup {
  return markup`<line class="${className}" x1="${at(x1)}" y1="${at(y1)}" x2="${at(x2)}" y2="${at(y2)}"/>`;
}

/** A word or number in the picture. */
export function label(x: number, y: number, words: string, className = 'mark', anchor = 'start'): Markup {
  return markup`<text class="${className}" x="${at(x)}" y="${at(y)}" text-anchor="${anchor}">${words}</text>`;
}
