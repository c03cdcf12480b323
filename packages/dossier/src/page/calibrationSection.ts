import type { CalibrationPart } from '../calibrationPart.js';
import type { CoveragePart } from '../coveragePart.js';
import type { Plan } from '../plan.js';
import type { ReliefPart } from '../reliefPart.js';
import { type Markup, markup } from './markup.js';
import { foldedTable, table } from './parts.js';
import { predictedAgainstMeasured } from './predictedAgainstMeasured.js';
import { receptionMap } from './receptionMap.js';
import { errorClasses, residualMap } from './residualMap.js';
import { decibels, decimal, distance } from './wording.js';

/** How far the prediction was off, what both say together, and where to walk next. */
export function calibrationSection(
  plan: Plan,
  coverage: CoveragePart,
  relief: ReliefPart | undefined,
  calibration: CalibrationPart,
): Markup {
  const { verdict, before, after, within, spots, heardSpots, remainingSpreadDb, residuals } = calibration;
  const scores =
    after === undefined
      ? ''
      : `Off by ${decibels(before.rmseDb, 'dB')} from spot to spot as it came, by ${decibels(after.rmseDb, 'dB')} once corrected by the other spots.`;
  return markup`<section aria-labelledby="calibration">
<h2 id="calibration">The prediction against the walk</h2>
<p class="lead">${verdict}</p>
<p>${within.map((each) => each.verdict).join(' ')} ${scores}
${spots} spots, ${spots - heardSpots} of them deaf; ${decibels(remainingSpreadDb, 'dB')} from spot to spot remain.</p>
<div class="pair">
<figure>${predictedAgainstMeasured(calibration)}<figcaption>On the line: as predicted; below it: worse. Arrows: nothing arrived, the level lies at most there.</figcaption></figure>
<figure>${residualMap(plan.gateway.position, coverage, relief, calibration)}${errorLegend()}
<figcaption>Error of the prediction at each spot. Dashed: nothing arrived, the error is at least this.</figcaption></figure>
</div>
<figure>${receptionMap(plan.gateway.position, coverage, relief, calibration)}${bandLegend(calibration)}
<figcaption>Probability that a frame at SF${calibration.spreadingFactor} gets through: prediction and walk together. Numbers: where to walk next.</figcaption></figure>
${table('Where to walk next', ['Place', 'Latitude', 'Longitude', 'Distance', 'Map uncertainty'], nextRows(calibration))}
${foldedTable('The spots', 'Predicted and measured level by spot', ['Spot', 'Distance', 'Predicted', 'Error', 'After correction'], residuals.map(residualCells))}
</section>`;
}

function nextRows({ nextSpots }: CalibrationPart): string[][] {
  return nextSpots.map((spot, index) => [
    String(index + 1),
    spot.latitudeDeg.toFixed(5),
    spot.longitudeDeg.toFixed(5),
    distance(spot.distanceM),
    `${decimal(spot.uncertaintyBeforeDb, 2)} to ${decimal(spot.uncertaintyAfterDb, 2)}\u00a0dB`,
  ]);
}

function residualCells(spot: CalibrationPart['residuals'][number]): string[] {
  return [
    spot.spot,
    spot.distanceM === undefined ? '' : distance(spot.distanceM),
    decibels(spot.predictedDbm, 'dBm'),
    decibels(spot.errorDb, 'dB'),
    decibels(spot.remainingErrorDb, 'dB'),
  ];
}

function errorLegend(): Markup {
  const entries = errorClasses.map(
    ({ name }, index) =>
      markup`<li><svg viewBox="0 0 12 12" aria-hidden="true"><circle class="error error-${index}" cx="6" cy="6" r="5"/></svg>${name}</li>`,
  );
  return markup`<ul class="legend" aria-label="Error of the prediction">${entries}</ul>`;
}

function bandLegend({ bands }: CalibrationPart): Markup {
  const entries = bands
    .map(
      ({ name, areaM2 }, index) =>
        markup`<li><svg viewBox="0 0 12 12" aria-hidden="true"><rect class="cover sure-${index}" width="12" height="12" rx="2"/></svg>${name}, ${decimal(areaM2 / 1e6, 1)} km²</li>`,
    )
    .toReversed();
  return markup`<ul class="legend" aria-label="Probability of reception">${entries}</ul>`;
}
