import { type Markup, markup } from './markup.js';

/** Width of every picture in its own units; at phone width one unit is about one pixel. */
export const pictureWidth = 360;

/** A coordinate with one decimal: enough for the eye, and pages stay small. */
export function at(coordinate: number): number {
  return Math.round(coordinate * 10) / 10;
}

/** What is around a picture. */
export interface PictureFrame {
  /** Its own in the page. */
  readonly id: string;
  /** In units of {@link pictureWidth}. */
  readonly height: number;
  readonly title: string;
  readonly description: string;
  /** True where parts of it are links: then it is a group, since the parts of an image cannot be reached. */
  readonly hasLinks?: boolean | undefined;
}

/** A picture with its name and description for people who hear the page. */
export function picture(
  { id, height, title, description, hasLinks = false }: PictureFrame,
  content: readonly Markup[],
): Markup {
  return markup`<svg class="picture" viewBox="0 0 ${pictureWidth} ${at(height)}" role="${hasLinks ? 'group' : 'img'}" aria-labelledby="${id}-title ${id}-text">
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
