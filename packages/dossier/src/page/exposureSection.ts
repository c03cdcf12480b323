import type { Dossier } from '../Dossier.js';
import { type Markup, markup } from './markup.js';
import { decibels, decimal, distance } from './wording.js';

/** How far to keep from the antenna. */
export function exposureSection({ exposure, linkBudget }: Dossier): Markup {
  return markup`<section aria-labelledby="exposure">
<h2 id="exposure">Keeping away from the antenna</h2>
<p>With ${decibels(linkBudget.downlink.eirpDbm, 'dBm')} EIRP the power density falls to the limit of ${decimal(exposure.limitWPerM2, 2)} W/m² at ${distance(exposure.distanceM)};
keep ${distance(exposure.recommendedDistanceM)} or more while it transmits.</p>
<p class="caution">Switch the gateway off before anyone works at the antenna. Work on a roof needs fall protection; keep mast and antenna clear of
overhead lines; bonding and lightning protection follow the local electrical code and a licensed practitioner.</p>
</section>`;
}
