import { type Markup, markup } from '../../../packages/dossier/src/page/markup.js';

/** What stands for what in a picture: a shape in the picture's own classes, and its name. */
export interface LegendEntry {
  readonly name: string;
  readonly className: string;
}

/** A legend to stand below a picture; dots where the picture has dots, else squares. */
export function legend(label: string, shape: 'dot' | 'square', entries: readonly LegendEntry[]): Markup {
  const items = entries.map(({ name, className }) => {
    const drawn =
      shape === 'dot'
        ? markup`<circle class="${className}" cx="6" cy="6" r="5"/>`
        : markup`<rect class="${className}" width="12" height="12" rx="2"/>`;
    return markup`<li><svg viewBox="0 0 12 12" aria-hidden="true">${drawn}</svg>${name}</li>`;
  });
  return markup`<ul class="legend" aria-label="${label}">${items}</ul>`;
}
