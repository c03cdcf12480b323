import type { LinkDirection } from '@finial/radio';
import type { Dossier } from '../Dossier.js';
import type { LinkCertainty } from '../linkBudgetPart.js';
import { levelDiagram } from './levelDiagram.js';
import { type Markup, markup } from './markup.js';
import { foldedTable } from './parts.js';
import { decibels, distance, percent } from './wording.js';

/** The link budget as two pictures and a table. */
export function linkBudgetSection({ linkBudget }: Dossier): Markup {
  const { uplink, downlink, certainty } = linkBudget;
  return markup`<section aria-labelledby="link">
<h2 id="link">Link budget over ${distance(linkBudget.distanceM)}</h2>
<p>The path loss is that of ${linkBudget.pathModel}. Each row changes the level by what it says. The dashed red line is the weakest level that can be decoded, the dotted grey one the noise.
The margin is what hills, houses and fading may still take.</p>
${certainty === undefined ? null : markup`<p>${certaintyInWords(certainty)}</p>`}
<div class="pair">
<figure>${levelDiagram('uplink', 'Uplink: node to gateway', uplink)}<figcaption>Uplink, node to gateway: margin ${decibels(uplink.marginDb, 'dB')}.</figcaption></figure>
<figure>${levelDiagram('downlink', 'Downlink: gateway to node', downlink)}<figcaption>Downlink, gateway to node: margin ${decibels(downlink.marginDb, 'dB')}.</figcaption></figure>
</div>
${foldedTable('The numbers', 'Link budget, item by item', ['Item', 'Value', 'Level after it'], [...budgetRows('up', uplink), ...budgetRows('down', downlink)])}
</section>`;
}

function budgetRows(way: string, direction: LinkDirection): string[][] {
  const items = direction.items.map(({ name, kind, valueDb, levelDbm }) => [
    `${way}: ${name}`,
    kind === 'power' ? decibels(valueDb, 'dBm') : decibels(kind === 'loss' ? -valueDb : valueDb, 'dB'),
    decibels(levelDbm, 'dBm'),
  ]);
  return [
    ...items,
    [`${way}: noise at the receiver`, '', decibels(direction.noisePowerDbm, 'dBm')],
    [`${way}: SNR, required SNR`, decibels(direction.snrDb, 'dB'), decibels(direction.requiredSnrDb, 'dB')],
    [`${way}: most path loss that still works`, decibels(direction.maximumPathLossDb, 'dB'), ''],
  ];
}

function certaintyInWords({
  uplinkRatio,
  downlinkRatio,
  locationSigmaDb,
  modelErrorDb,
}: LinkCertainty): string {
  const spread = `${decibels(locationSigmaDb, 'dB')} from place to place and ${decibels(modelErrorDb, 'dB')} for the model`;
  return `With a spread of ${spread} the uplink works with a probability of ${percent(uplinkRatio)}, the downlink with ${percent(downlinkRatio)}.`;
}
