import type { Dossier } from '../Dossier.js';
import type { SpotSummary, WalkPart } from '../walkPart.js';
import { levelOverDistance } from './levelOverDistance.js';
import { type Markup, markup } from './markup.js';
import { foldedTable } from './parts.js';
import { deliveryClasses, spotMap } from './spotMap.js';
import { decibels, decimal, distance, percent } from './wording.js';

/** The walk: spots, levels and what never arrived. */
export function walkSection({ plan }: Dossier, walk: WalkPart): Markup {
  const { delivery } = walk;
  return markup`<section aria-labelledby="walk">
<h2 id="walk">The walk</h2>
<p>${delivery.received} of ${delivery.sent} frames arrived: ${percent(delivery.ratio)}, at ${walk.spots.length} spots.
${walk.skipped.length === 0 ? '' : `${walk.skipped.length} of ${walk.rows} rows could not be used.`}</p>
<div class="pair">
<figure>${spotMap(plan.gateway.position, walk.spots)}${deliveryLegend()}<figcaption>Share of frames received at each spot.</figcaption></figure>
<figure>${levelOverDistance(walk)}<figcaption>Effective signal power of each received frame over distance; ticks below: frames that never arrived. ${fitInWords(walk)}</figcaption></figure>
</div>
${foldedTable('The spots', 'Delivery by spot, 95 % Wilson interval; mean levels of received frames, and what they had to spare', ['Spot', 'Distance', 'Received', 'Sent', 'Ratio', 'Interval', 'RSSI', 'SNR', 'To spare'], walk.spots.map(spotCells))}
</section>`;
}

function fitInWords({ fit }: WalkPart): string {
  if (fit === undefined) return '';
  return `The line falls with exponent ${decimal(fit.exponent, 2)} and leaves a spread of ${decibels(fit.shadowingDb, 'dB')}; ${fit.censoring === undefined ? 'it knows nothing of missed frames' : `${fit.censoring.missedFrames} missed frames count as levels that the gateway cannot read`}.`;
}

function deliveryLegend(): Markup {
  const entries = deliveryClasses.map(
    ({ name }, index) =>
      markup`<li><svg viewBox="0 0 12 12" aria-hidden="true"><circle class="spot share-${index}" cx="6" cy="6" r="5"/></svg>${name}</li>`,
  );
  return markup`<ul class="legend" aria-label="Share of frames received">${entries}</ul>`;
}

function spotCells(spot: SpotSummary): string[] {
  return [
    spot.spot,
    spot.distanceM === undefined ? '' : distance(spot.distanceM),
    String(spot.received),
    String(spot.sent),
    percent(spot.ratio),
    `${percent(spot.lowerRatio)} to ${percent(spot.upperRatio)}`,
    spot.meanRssiDbm === undefined ? '–' : decibels(spot.meanRssiDbm, 'dBm'),
    spot.meanSnrDb === undefined ? '–' : decibels(spot.meanSnrDb, 'dB'),
    spot.meanMarginDb === undefined ? '–' : decibels(spot.meanMarginDb, 'dB'),
  ];
}
