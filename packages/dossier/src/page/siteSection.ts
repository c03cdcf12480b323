import type { SitePart } from '../sitePart.js';
import { dayPicture } from './dayPicture.js';
import { type Markup, markup } from './markup.js';
import { foldedTable, table } from './parts.js';
import { decimal } from './wording.js';

/** Supply, heat and wind: whether the gateway outlives the year. */
export function siteSection({ supply, box, moisture, mast }: SitePart): Markup {
  return markup`<section aria-labelledby="site">
<h2 id="site">Power, heat and wind</h2>
${supply === undefined ? null : supplyBlock(supply)}
${box === undefined ? null : boxBlock(box)}
${moisture === undefined ? null : moistureBlock(moisture)}
${mast === undefined ? null : mastBlock(mast)}
<p class="caution">Estimates for planning. Mains, earthing and whatever stands on a roof follow the local code and belong to licensed people; the owner of the roof decides.</p>
</section>`;
}

function supplyBlock({ works, states, worstState, longestLengthM }: NonNullable<SitePart['supply']>): Markup {
  const rows = states.map(({ name, loadV, currentA, marginV }) => [
    name,
    loadV === undefined ? 'none holds' : `${decimal(loadV, 2)}\u00a0V`,
    currentA === undefined ? '–' : `${decimal(currentA, 2)}\u00a0A`,
    marginV === undefined ? '–' : `${decimal(marginV, 2)}\u00a0V`,
  ]);
  return markup`<h3>Supply</h3><p>${works ? `The line carries every state; ${worstState} is the tightest. It may be up to ${decimal(longestLengthM, 1)} m long.` : `The line does not carry ${worstState}: see the verdict.`}</p>
${table('What arrives at the gateway', ['State', 'Voltage', 'Current', 'To spare'], rows)}`;
}

function boxBlock(day: NonNullable<SitePart['box']>): Markup {
  const remedies = day.remedies.map(({ change, hottestInsideC, gainK }) => [
    change.replaceAll('-', ' '),
    `${decimal(hottestInsideC, 1)}\u00a0°C`,
    `${decimal(gainK, 1)}\u00a0K`,
  ]);
  const hours = day.hours.map(({ timeOfDaySeconds, airC, skinC, insideC }) => [
    `${decimal(timeOfDaySeconds / 3600, 0)}:00`,
    `${decimal(airC, 1)}\u00a0°C`,
    `${decimal(skinC, 1)}\u00a0°C`,
    `${decimal(insideC, 1)}\u00a0°C`,
  ]);
  return markup`<h3>Heat</h3>
<p>Inside it gets ${decimal(day.hottestInsideC, 1)} °C on that day (give or take ${decimal(day.uncertaintyK, 0)} K), ${decimal(Math.abs(day.marginK), 1)} K ${day.marginK < 0 ? 'above' : 'below'} the limit of ${decimal(day.electronicsLimitC, 0)} °C.</p>
<figure>${dayPicture(day)}<figcaption>Solid: inside. Dashed: air. Dotted: walls. Dashed red: limit of the electronics.</figcaption></figure>
${table('What a change would buy', ['Change', 'Hottest inside', 'Cooler by'], remedies)}
<details><summary>What each change is</summary><ul>${day.remedies.map(({ description }) => markup`<li>${description}</li>`)}</ul></details>
${foldedTable('Hour by hour', 'Temperatures through the day', ['Hour', 'Air', 'Walls', 'Inside'], hours)}`;
}

function moistureBlock(damp: NonNullable<SitePart['moisture']>): Markup {
  const bags =
    damp.neededUnitsCount === undefined
      ? 'A vented box follows the air outside; no bag can dry it.'
      : `To the next visit it takes ${decimal(Math.ceil(damp.neededUnitsCount), 0)} units of desiccant.`;
  return markup`<h3>Moisture</h3>
<p>The dew point is ${decimal(damp.dewPointC, 1)} °C; the walls lie below it for ${decimal(damp.condensationSeconds / 3600, 0)} hours of that day. ${bags}</p>`;
}

function mastBlock({
  pressure,
  parts,
  forceN,
  momentNm,
  hold,
  uncertaintyRatio,
}: NonNullable<SitePart['mast']>): Markup {
  const rows = parts.map((part) => [
    part.name,
    `${decimal(part.areaM2, 3)}\u00a0m²`,
    decimal(part.dragRatio, 2),
    `${decimal(part.forceN, 0)}\u00a0N`,
    `${decimal(part.momentNm, 0)}\u00a0N·m`,
  ]);
  const held =
    hold === undefined ? '' : ` It takes ${decimal(hold.ballastNeededKg, 0)} kg of ballast to hold it.`;
  return markup`<h3>Wind</h3>
<p>At ${decimal(pressure.speedMPerS, 0)} m/s (${pressure.code}) the wind pushes with ${decimal(forceN, 0)} N and tips with ${decimal(momentNm, 0)} N·m, give or take ${decimal(100 * uncertaintyRatio, 0)} %.${held}</p>
${table('The wind on each part', ['Part', 'Area', 'Drag', 'Force', 'Moment'], rows)}`;
}
