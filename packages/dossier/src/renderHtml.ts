import type { SweepPoint, SweepReading } from '@finial/antenna';
import type { LinkDirection } from '@finial/radio';
import type { AntennaPart, PatternPart, SweepCurves } from './antennaPart.js';
import type { Dossier } from './Dossier.js';
import type { FeedlinePart } from './feedlinePart.js';
import type { DataRateRow } from './lawPart.js';
import { chainPicture } from './page/chainPicture.js';
import { levelDiagram } from './page/levelDiagram.js';
import { levelOverDistance } from './page/levelOverDistance.js';
import { type Markup, markup } from './page/markup.js';
import { findingList, foldedTable, table } from './page/parts.js';
import { patternPicture } from './page/patternPicture.js';
import { deliveryClasses, spotMap } from './page/spotMap.js';
import { stylesheet, stylesheetHash } from './page/stylesheet.js';
import { sweepPicture } from './page/sweepPicture.js';
import { decibels, decimal, distance, duration, megahertz, percent } from './page/wording.js';
import type { SpotSummary, WalkPart } from './walkPart.js';

/**
 * The dossier as one HTML page that needs nothing else: no network, no script. Every text of the plan and the files is
 * escaped, and the page's content security policy admits its own style sheet and nothing more.
 *
 * @param dossier - as {@link assembleDossier} returns it
 * @returns the page's text
 * @example
 * ```ts
 * import { assembleDossier, parsePlan, renderHtml } from '@finial/dossier';
 *
 * const plan = parsePlan(`{
 *   "version": 1, "name": "Chapel <loft>", "region": "EU868", "jurisdiction": "EU",
 *   "gateway": {
 *     "position": { "latitudeDeg": 41.2, "longitudeDeg": -37.4 }, "antennaHeightM": 9,
 *     "conductedPowerDbm": 14, "feedlineLossDb": 1.5, "antennaGainDbi": 2.15, "noiseFigureDb": 4
 *   },
 *   "node": {
 *     "heightM": 1.5, "conductedPowerDbm": 14, "antennaGainDbi": -2, "noiseFigureDb": 6,
 *     "uplink": { "dataRate": 3, "frequencyHz": 868100000, "applicationBytes": 12 }, "intervalSeconds": 600
 *   },
 *   "link": { "distanceM": 3000 }
 * }`);
 * const page = renderHtml(await assembleDossier(plan, {}));
 * page.includes('Chapel &lt;loft&gt;'); // → true
 * ```
 */
export function renderHtml(dossier: Dossier): string {
  const { plan, verdict } = dossier;
  const policy = `default-src 'none'; style-src 'sha256-${stylesheetHash}'; base-uri 'none'; form-action 'none'`;
  const page = markup`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${plan.name}: gateway dossier</title>
<style>${{ markupText: stylesheet }}</style>
</head>
<body>
<div class="page">
<header>
<p class="crest">Finial · gateway dossier</p>
<h1>${plan.name}</h1>
<p class="facts">${placeInWords(plan.gateway.position.latitudeDeg, plan.gateway.position.longitudeDeg)} · antenna ${distance(plan.gateway.antennaHeightM)} above ground · ${plan.region}, law: ${plan.jurisdiction}</p>
</header>
<main>
<section class="verdict ${verdict.severity}" aria-labelledby="verdict">
<h2 id="verdict">Verdict</h2>
<p class="lead">${verdict.sentence}</p>
${findingList(verdict.findings)}
</section>
${linkBudgetSection(dossier)}
${lawSection(dossier)}
${exposureSection(dossier)}
${dossier.feedline === undefined ? null : feedlineSection(dossier.feedline)}
${dossier.antenna === undefined ? null : antennaSection(dossier.antenna)}
${dossier.walk === undefined ? null : walkSection(dossier, dossier.walk)}
${missingSection(dossier)}
${footSection(dossier)}
</main>
</div>
</body>
</html>
`;
  return page.markupText;
}

function placeInWords(latitudeDeg: number, longitudeDeg: number): string {
  const north = `${Math.abs(latitudeDeg).toFixed(5)}° ${latitudeDeg < 0 ? 'S' : 'N'}`;
  return `${north}, ${Math.abs(longitudeDeg).toFixed(5)}° ${longitudeDeg < 0 ? 'W' : 'E'}`;
}

function linkBudgetSection({ linkBudget }: Dossier): Markup {
  const { uplink, downlink } = linkBudget;
  return markup`<section aria-labelledby="link">
<h2 id="link">Link budget over ${distance(linkBudget.distanceM)}</h2>
<p>Each row changes the level by what it says. The dashed red line is the weakest level that can be decoded, the dotted grey one the noise.
The margin is what hills, houses and fading may still take.</p>
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

function lawSection({ law, plan }: Dossier): Markup {
  const { uplink } = law;
  return markup`<section aria-labelledby="law">
<h2 id="law">Law and airtime</h2>
<p>A frame with ${plan.node.uplink.applicationBytes} application bytes at DR${plan.node.uplink.dataRate} lasts ${duration(uplink.timeOnAir.totalSeconds)}
and leaves with ${decibels(uplink.eirpDbm, 'dBm')} EIRP on ${megahertz(plan.node.uplink.frequencyHz)}.
${uplink.minimumIntervalSeconds === undefined ? 'No rule of this law sets a pause between frames.' : `By the law's duty cycle or dwell time such a frame may start every ${duration(uplink.minimumIntervalSeconds)} at most.`}
The plan sends one every ${duration(plan.node.intervalSeconds)}.</p>
${table('The same payload at each uplink data rate', ['Data rate', 'Modulation', 'Most bytes', 'Airtime', 'Least interval', 'Permitted'], law.dataRates.map(dataRateCells))}
${refusedDataRates(law.dataRates)}
<p class="caution">Findings state what the named texts say, not legal advice; the law of the place decides. Entries marked unverified were not read in the document itself.</p>
</section>`;
}

function refusedDataRates(rows: readonly DataRateRow[]): Markup | null {
  const refused = rows.filter(({ reason }) => reason !== undefined);
  if (refused.length === 0) return null;
  return markup`<ul>${refused.map(({ dataRate, reason }) => markup`<li>DR${dataRate} is not permitted: ${reason}</li>`)}</ul>`;
}

function dataRateCells(row: DataRateRow): string[] {
  const { airtimeSeconds, minimumIntervalSeconds } = row;
  return [
    `DR${row.dataRate}`,
    row.modulation,
    String(row.longestPayloadBytes),
    airtimeSeconds === undefined ? 'does not fit' : duration(airtimeSeconds),
    minimumIntervalSeconds === undefined ? '–' : duration(minimumIntervalSeconds),
    row.permitted ? 'yes' : 'no',
  ];
}

function exposureSection({ exposure, linkBudget }: Dossier): Markup {
  return markup`<section aria-labelledby="exposure">
<h2 id="exposure">Keeping away from the antenna</h2>
<p>With ${decibels(linkBudget.downlink.eirpDbm, 'dBm')} EIRP the power density falls to the limit of ${decimal(exposure.limitWPerM2, 2)} W/m² at ${distance(exposure.distanceM)};
keep ${distance(exposure.recommendedDistanceM)} or more while it transmits.</p>
<p class="caution">Switch the gateway off before anyone works at the antenna. Work on a roof needs fall protection; keep mast and antenna clear of
overhead lines; bonding and lightning protection follow the local electrical code and a licensed practitioner.</p>
</section>`;
}

function feedlineSection(feedline: FeedlinePart): Markup {
  const { choices } = feedline;
  return markup`<section aria-labelledby="feedline">
<h2 id="feedline">The feedline</h2>
<p>From the gateway to the antenna ${decimal(feedline.cableLengthM, 1)} m of cable and its joints lose ${decimal(feedline.lossDb, 2)} dB,
by the spread of parts and makes between ${decimal(feedline.leastLossDb, 2)} and ${decimal(feedline.greatestLossDb, 2)} dB.
${feedline.joins ? 'Every joint mates.' : 'Not every part joins its neighbour: see the verdict for what is missing.'}</p>
<figure>${chainPicture(feedline)}<figcaption>Part by part, gateway above, antenna below. A bar is the loss of a part.</figcaption></figure>
${foldedTable('The parts and joints', 'Loss of each part and joint', ['Part or joint', 'Loss', 'Uncertainty', 'Share'], chainRows(feedline))}
${choices === undefined ? null : cableTable(choices)}
<p class="caution">Leave a drip loop below every entry, seal outdoor joints, and bond the arrestor to the building's earth by the local code: an arrestor
does not protect from a direct strike. Switch the radio off before a connector is opened; no work on the run in wind or thunder.</p>
</section>`;
}

function chainRows({ parts, joints }: FeedlinePart): string[][] {
  const cells = (
    name: string,
    loss: { lossDb: number; lossUncertaintyDb: number; shareOfLossRatio: number },
  ) => [
    name,
    `${decimal(loss.lossDb, 2)}\u00a0dB`,
    `±${decimal(loss.lossUncertaintyDb, 2)}\u00a0dB`,
    percent(loss.shareOfLossRatio),
  ];
  return parts.flatMap((part, index) => {
    const joint = joints[index];
    return joint === undefined
      ? [cells(part.name, part)]
      : [cells(part.name, part), cells(joint.between, joint)];
  });
}

function cableTable({ rows }: NonNullable<FeedlinePart['choices']>): Markup {
  const cells = rows.map((row) => [
    row.designation,
    `${decimal(row.cableLossDb, 2)}\u00a0dB`,
    percent(row.rangeRatio),
    `${decimal(row.outerDiameterM * 1000, 1)}\u00a0mm`,
    `${decimal(row.bendRadiusM * 1000, 0)}\u00a0mm`,
    row.status,
  ]);
  return foldedTable(
    'Other cables',
    'The longest run of cable in each of the catalogue',
    ['Cable', 'Loss', 'Range left', 'Diameter', 'Least bend', 'Figures'],
    cells,
  );
}

function missingSection({ missing }: Dossier): Markup | null {
  if (missing.length === 0) return null;
  return markup`<section aria-labelledby="missing"><h2 id="missing">Not in this dossier</h2>
<ul>${missing.map(({ part, adds }) => markup`<li>${part}: ${adds}</li>`)}</ul></section>`;
}

function antennaSection({ sweep, curves, trim, pattern }: AntennaPart): Markup {
  return markup`<section aria-labelledby="antenna">
<h2 id="antenna">The antenna</h2>
${trim === undefined ? null : markup`<p class="lead">${trim.reason}</p>`}
<div class="pair">
${sweep === undefined || curves === undefined ? null : sweepFigure(sweep, curves)}
${pattern === undefined ? null : patternFigure(pattern)}
</div>
${sweep === undefined ? null : foldedTable('The sweep', 'What the last sweep shows', ['At', 'Frequency', 'VSWR', 'Return loss', 'Mismatch loss', 'Resistance', 'Reactance'], sweepRows(sweep))}
${pattern === undefined ? null : foldedTable('The pattern', 'Gain by elevation', ['Elevation', 'Gain'], patternRows(pattern))}
<p class="caution">Trim on the bench, not on the mast. Switch the radio off first; keep antenna and mast clear of overhead lines, and do not work up there in wind or thunder.</p>
</section>`;
}

function sweepFigure(sweep: SweepReading, curves: SweepCurves): Markup {
  const { tenDbBand } = sweep;
  const series = {
    ...curves,
    targetHz: sweep.targetHz,
    resonanceHz: sweep.resonanceHz,
    band: tenDbBand && { lowerHz: tenDbBand.lowerHz, upperHz: tenDbBand.upperHz },
  };
  return markup`<figure>${sweepPicture(series)}<figcaption>VSWR above, impedance below, over frequency in MHz. Shaded: at most a tenth of the power comes back.</figcaption></figure>`;
}

function patternFigure(pattern: PatternPart): Markup {
  const cut = {
    elevationDeg: pattern.patternElevationDeg,
    gainDbi: pattern.patternGainDbi,
    nodeElevationDeg: pattern.elevationDeg,
    nodeGainDbi: pattern.gainDbi,
  };
  return markup`<figure>${patternPicture(cut)}<figcaption>Gain by elevation. The node lies at ${decimal(pattern.elevationDeg, 1)}° and gets ${decibels(pattern.belowMaximumDb, 'dB')} less than the strongest direction.</figcaption></figure>`;
}

function sweepRows(sweep: SweepReading): string[][] {
  const points: [string, SweepPoint][] = [
    ['lowest VSWR', sweep.atResonance],
    ['wanted', sweep.atTarget],
    ...sweep.channels.map((point): [string, SweepPoint] => ['channel', point]),
  ];
  const shown = (value: number | undefined, unit: string, digits = 1) =>
    value === undefined ? '–' : `${decimal(value, digits)}${unit}`;
  return points.map(([name, point]) => [
    name,
    megahertz(point.frequencyHz),
    shown(point.vswr, '', 2),
    shown(point.returnLossDb, '\u00a0dB'),
    shown(point.mismatchLossDb, '\u00a0dB', 2),
    shown(point.resistanceOhm, '\u00a0Ω'),
    shown(point.reactanceOhm, '\u00a0Ω'),
  ]);
}

/** Every fifth degree: what a person reads off; the dossier's JSON holds all of it. */
function patternRows({ patternElevationDeg, patternGainDbi }: PatternPart): string[][] {
  return patternElevationDeg.flatMap((elevation, index) =>
    elevation % 5 === 0 ? [[`${decimal(elevation, 0)}°`, decibels(patternGainDbi[index] ?? 0, 'dBi')]] : [],
  );
}

function walkSection({ plan }: Dossier, walk: WalkPart): Markup {
  const { delivery } = walk;
  return markup`<section aria-labelledby="walk">
<h2 id="walk">The walk</h2>
<p>${delivery.received} of ${delivery.sent} frames arrived: ${percent(delivery.ratio)}, at ${walk.spots.length} spots.
${walk.skipped.length === 0 ? '' : `${walk.skipped.length} of ${walk.rows} rows could not be used.`}</p>
<div class="pair">
<figure>${spotMap(plan.gateway.position, walk.spots)}${deliveryLegend()}<figcaption>Share of frames received at each spot.</figcaption></figure>
<figure>${levelOverDistance(walk)}<figcaption>Effective signal power of each received frame over distance; ticks below: frames that never arrived. ${fitInWords(walk)}</figcaption></figure>
</div>
${foldedTable('The spots', 'Delivery by spot, 95 % Wilson interval; mean levels of received frames', ['Spot', 'Distance', 'Received', 'Sent', 'Ratio', 'Interval', 'RSSI', 'SNR'], walk.spots.map(spotCells))}
</section>`;
}

function fitInWords({ fit }: WalkPart): string {
  if (fit === undefined) return '';
  return `The line falls with exponent ${decimal(fit.exponent, 2)} and leaves a spread of ${decibels(fit.shadowingDb, 'dB')}; it knows nothing of the missed frames.`;
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
  ];
}

function footSection({ assumptions, sources }: Dossier): Markup {
  return markup`<section aria-labelledby="sources">
<h2 id="sources">Assumptions and sources</h2>
<h3>Taken for granted</h3><ul>${assumptions.map((text) => markup`<li>${text}</li>`)}</ul>
<h3>Documents</h3><ul>${sources.map((text) => markup`<li>${text}</li>`)}</ul>
</section>`;
}
