import type { LinkDirection } from '@finial/radio';
import { scaleLinear } from 'd3-scale';
import { join, type Markup, markup } from './markup.js';
import { at, label, line, picture, pictureWidth } from './svg.js';
import { decibels, decimal } from './wording.js';

const rowHeight = 30;
const top = 8;
const barHeight = 9;

/**
 * The link budget of one direction as a picture: one row per gain or loss, each bar running from the level before it to the
 * level after it, and the noise and the weakest decodable level as lines through all rows.
 */
export function levelDiagram(id: string, title: string, direction: LinkDirection): Markup {
  const limitDbm = direction.noisePowerDbm + direction.requiredSnrDb;
  const levels = direction.items.map(({ levelDbm }) => levelDbm);
  const x = scaleLinear()
    .domain([Math.min(limitDbm, direction.noisePowerDbm, ...levels) - 6, Math.max(...levels) + 6])
    .nice()
    .range([8, pictureWidth - 8]);
  const bottom = top + direction.items.length * rowHeight;
  const ticks = x.ticks(5).map((level) => {
    const grid = line('grid', x(level), top, x(level), bottom + 4);
    return join([grid, label(x(level), bottom + 17, decimal(level, 0), 'mark', 'middle')]);
  });
  return picture({ id, height: bottom + 46, title, description: spoken(direction, limitDbm) }, [
    ...ticks,
    ...thresholds(direction.noisePowerDbm, limitDbm, x, bottom),
    ...direction.items.map((item, index) => row(direction, item, index, x)),
    marginBar(direction, limitDbm, x, bottom + 27),
  ]);
}

type Scale = (levelDbm: number) => number;

function row(
  direction: LinkDirection,
  item: LinkDirection['items'][number],
  index: number,
  x: Scale,
): Markup {
  const y = top + index * rowHeight;
  const before = direction.items[index - 1]?.levelDbm ?? item.levelDbm;
  const from = Math.min(x(before), x(item.levelDbm));
  const width = Math.max(2, Math.abs(x(before) - x(item.levelDbm)));
  const value =
    item.kind === 'power'
      ? decibels(item.valueDb, 'dBm')
      : signed(item.kind === 'gain' ? item.valueDb : -item.valueDb);
  return join([
    label(8, y + 11, item.name, 'name'),
    label(pictureWidth - 8, y + 11, value, 'name', 'end'),
    markup`<rect class="bar ${item.kind}" x="${at(from)}" y="${y + 16}" width="${at(width)}" height="${barHeight}" rx="1.5"/>`,
  ]);
}

function thresholds(noiseDbm: number, limitDbm: number, x: Scale, bottom: number): Markup[] {
  return [
    line('noise', x(noiseDbm), top, x(noiseDbm), bottom + 4),
    line('limit', x(limitDbm), top, x(limitDbm), bottom + 4),
  ];
}

/** What is left above the limit (or missing below it), as its own bar under the axis. */
function marginBar(direction: LinkDirection, limitDbm: number, x: Scale, y: number): Markup {
  const from = Math.min(x(limitDbm), x(direction.receivedPowerDbm));
  const width = Math.max(2, Math.abs(x(limitDbm) - x(direction.receivedPowerDbm)));
  const kind = direction.marginDb >= 0 ? 'spare' : 'short';
  const words = `${kind === 'spare' ? 'margin' : 'missing'} ${decibels(Math.abs(direction.marginDb), 'dB')}`;
  return join([
    markup`<rect class="bar ${kind}" x="${at(from)}" y="${y}" width="${at(width)}" height="6" rx="1.5"/>`,
    label(
      at(from + width) > 250 ? from : from + width + 5,
      at(from + width) > 250 ? y + 17 : y + 7,
      words,
      'name',
    ),
  ]);
}

function signed(valueDb: number): string {
  return valueDb > 0 ? `+${decibels(valueDb, 'dB')}` : decibels(valueDb, 'dB');
}

function spoken(direction: LinkDirection, limitDbm: number): string {
  const received = decibels(direction.receivedPowerDbm, 'dBm');
  const limit = decibels(limitDbm, 'dBm');
  return `The signal arrives with ${received}; the weakest level that can be decoded is ${limit}. The table below holds every step.`;
}
