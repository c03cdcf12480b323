import type { CoveragePart } from '../coveragePart.js';
import type { Plan } from '../plan.js';
import type { SitesPart } from '../sitesPart.js';
import type { TerrainPart } from '../terrainPart.js';
import type { WalkPart } from '../walkPart.js';
import { bandClass, coverageMap, heardClasses } from './coverageMap.js';
import { type Markup, markup } from './markup.js';
import { foldedTable, table } from './parts.js';
import { sitesPicture } from './sitesPicture.js';
import { decibels, decimal, distance, percent } from './wording.js';

/** Where the node is heard by prediction, data rate by data rate, with the walk's spots on the map. */
export function coverageSection(
  plan: Plan,
  coverage: CoveragePart,
  terrain: TerrainPart,
  walk: WalkPart | undefined,
): Markup {
  const { bands, radiusM, cellM } = coverage;
  const widest = bands[0];
  return markup`<section aria-labelledby="coverage">
<h2 id="coverage">Predicted coverage</h2>
<p>Uplinks of the plan's node, over the ground of the elevation files, ${distance(radiusM)} around and every ${distance(cellM)}.
${widest === undefined ? '' : `Within it ${squareKilometres(widest.areaM2)} are heard at ${widest.name} at the median place.`}
Half of the places of a colour get less, and the model may err by 12 dB: a walk decides.</p>
<figure>${coverageMap(plan.gateway.position, coverage, terrain, walk?.spots ?? [])}${bandLegend(coverage)}${walk === undefined ? null : spotLegend()}
<figcaption>Fastest data rate that is heard, at the median place. ${walk === undefined ? '' : 'Dots: the spots of the walk, by the share of frames received; each leads to its ground.'} Outside the shaded ground there is no elevation data.</figcaption></figure>
${foldedTable('The areas', 'Predicted area by data rate', ['Data rate', 'Needed power', 'Area', 'Share'], bands.map(cellsOf))}
${coverage.sites === undefined ? null : sitesOf(coverage.sites)}
</section>`;

  function cellsOf({ name, neededPowerDbm, areaM2 }: CoveragePart['bands'][number]): string[] {
    return [
      name,
      decibels(neededPowerDbm, 'dBm'),
      squareKilometres(areaM2),
      percent(areaM2 / Math.max(1, coverage.knownAreaM2)),
    ];
  }
}

function sitesOf(sites: SitesPart): Markup {
  const cells = sites.rows.map((row) => [
    row.name,
    `${decimal(row.antennaHeightM, 1)}\u00a0m`,
    squareKilometres(row.servedM2),
    squareKilometres(row.exclusiveM2),
    sites.points.length === 0 ? '–' : percent(row.servedWeightRatio),
  ]);
  return markup`<h3>Other sites</h3>
<figure>${sitesPicture(sites)}<figcaption>Area in km² that each site serves, by the fastest data rate, in the colours of the map.</figcaption></figure>
${table('What each site wins', ['Site', 'Height', 'Serves', 'Alone', 'Points'], cells)}`;
}

function bandLegend({ bands }: CoveragePart): Markup {
  const entries = bands
    .map(
      ({ name }, index) =>
        markup`<li><svg viewBox="0 0 12 12" aria-hidden="true"><rect class="cover cover-${bandClass(index, bands.length)}" width="12" height="12" rx="2"/></svg>${name}</li>`,
    )
    .toReversed();
  return markup`<ul class="legend" aria-label="Fastest data rate heard">${entries}</ul>`;
}

function spotLegend(): Markup {
  const entries = heardClasses.map(
    ({ name, mark }) =>
      markup`<li><svg viewBox="0 0 12 12" aria-hidden="true"><circle class="heard-spot ${mark}" cx="6" cy="6" r="4.5"/></svg>${name}</li>`,
  );
  return markup`<ul class="legend" aria-label="Share of frames received at the spots">${entries}</ul>`;
}

function squareKilometres(areaM2: number): string {
  return `${decimal(areaM2 / 1e6, areaM2 < 1e7 ? 2 : 1)}\u00a0km²`;
}
