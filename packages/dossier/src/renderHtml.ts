import type { Dossier } from './Dossier.js';
import { antennaSection } from './page/antennaSection.js';
import { beaconSection } from './page/beaconSection.js';
import { calibrationSection } from './page/calibrationSection.js';
import { coverageSection } from './page/coverageSection.js';
import { exposureSection } from './page/exposureSection.js';
import { feedlineSection } from './page/feedlineSection.js';
import { lawSection } from './page/lawSection.js';
import { linkBudgetSection } from './page/linkBudgetSection.js';
import { type Markup, markup } from './page/markup.js';
import { verdictList } from './page/parts.js';
import { reliefStore } from './page/reliefImage.js';
import { siteSection } from './page/siteSection.js';
import { statementSection } from './page/statementSection.js';
import { stylesheet, stylesheetHash } from './page/stylesheet.js';
import { terrainSection } from './page/terrainSection.js';
import { walkSection } from './page/walkSection.js';
import { distance } from './page/wording.js';

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
  const policy = `default-src 'none'; img-src data:; style-src 'sha256-${stylesheetHash}'; base-uri 'none'; form-action 'none'`;
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
${dossier.terrain?.relief === undefined ? null : reliefStore(dossier.terrain.relief)}
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
${verdictList(verdict.findings)}
</section>
${linkBudgetSection(dossier)}
${lawSection(dossier)}
${exposureSection(dossier)}
${dossier.feedline === undefined ? null : feedlineSection(dossier.feedline)}
${dossier.antenna === undefined ? null : antennaSection(dossier.antenna)}
${dossier.site === undefined ? null : siteSection(dossier.site)}
${dossier.terrain === undefined ? null : terrainSection(dossier.terrain)}
${dossier.coverage === undefined || dossier.terrain === undefined ? null : coverageSection(plan, dossier.coverage, dossier.terrain, dossier.walk)}
${dossier.walk === undefined ? null : walkSection(dossier, dossier.walk)}
${dossier.calibration === undefined || dossier.coverage === undefined ? null : calibrationSection(plan, dossier.coverage, dossier.terrain?.relief, dossier.calibration)}
${dossier.beacon === undefined ? null : beaconSection(dossier.beacon)}
${dossier.walk?.statement === undefined ? null : statementSection(dossier.walk.statement)}
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

function missingSection({ missing }: Dossier): Markup | null {
  if (missing.length === 0) return null;
  return markup`<section aria-labelledby="missing"><h2 id="missing">Not in this dossier</h2>
<ul>${missing.map(({ part, adds }) => markup`<li>${part}: ${adds}</li>`)}</ul></section>`;
}

function footSection({ assumptions, sources }: Dossier): Markup {
  return markup`<section aria-labelledby="sources">
<h2 id="sources">Assumptions and sources</h2>
<h3>Taken for granted</h3><ul>${assumptions.map((text) => markup`<li>${text}</li>`)}</ul>
<h3>Documents</h3><ul>${sources.map((text) => markup`<li>${text}</li>`)}</ul>
</section>`;
}
