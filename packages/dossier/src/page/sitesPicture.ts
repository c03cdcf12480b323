import { scaleLinear } from 'd3-scale';
import type { SitesPart } from '../sitesPart.js';
import { join, type Markup, markup } from './markup.js';
import { at, label, line, picture, pictureWidth } from './svg.js';
import { decimal } from './wording.js';

const rowHeight = 34;
const top = 6;
const left = 8;

/** One bar for each site: the area it serves, fastest data rate first, in the colours of the map. */
export function sitesPicture({ rows }: SitesPart): Markup {
  const greatest = Math.max(1, ...rows.map(({ servedM2 }) => servedM2));
  const x = scaleLinear()
    .domain([0, greatest / 1e6])
    .nice(4)
    .range([left, pictureWidth - 10]);
  const bottom = top + rows.length * rowHeight;
  const bars = rows.map(({ name, dataRateAreas, servedM2 }, index) => {
    const y = top + index * rowHeight;
    let from = 0;
    const pieces = dataRateAreas.map(({ areaM2 }, rate) => {
      const start = from;
      from += areaM2 / 1e6;
      const width = Math.max(0, x(from) - x(start));
      return markup`<rect class="cover-${Math.min(5, rate)}" x="${at(x(start))}" y="${y + 17}" width="${at(width)}" height="11"/>`;
    });
    return join([
      label(left, y + 12, name, 'name'),
      label(pictureWidth - 10, y + 12, `${decimal(servedM2 / 1e6, 1)} km²`, 'name', 'end'),
      ...pieces,
    ]);
  });
  const ticks = x
    .ticks(4)
    .map((each) =>
      join([
        line('grid', x(each), top, x(each), bottom + 2),
        label(x(each), bottom + 15, decimal(each, 0), 'mark', 'middle'),
      ]),
    );
  const description = rows
    .map(({ name, servedM2 }) => `${name}: ${decimal(servedM2 / 1e6, 1)} km²`)
    .join('; ');
  return picture({ id: 'sites', height: bottom + 22, title: 'Area served by each site', description }, [
    ...ticks,
    ...bars,
  ]);
}
