import type { Dossier } from '../Dossier.js';
import type { DataRateRow } from '../lawPart.js';
import { type Markup, markup } from './markup.js';
import { table } from './parts.js';
import { decibels, duration, megahertz } from './wording.js';

/** Power and airtime against the law, data rate by data rate. */
export function lawSection({ law, plan }: Dossier): Markup {
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
