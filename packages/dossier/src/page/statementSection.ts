import type { CoverageStatement } from '@finial/survey';
import { type Markup, markup } from './markup.js';
import { foldedTable } from './parts.js';

/** What may be published, and what not. */
export function statementSection({
  sentences,
  notClaimed,
  provedCount,
  openCount,
  refutedCount,
  spots,
}: CoverageStatement): Markup {
  const open = spots.filter(({ verdict }) => verdict === 'open');
  return markup`<section aria-labelledby="statement">
<h2 id="statement">What may be published</h2>
<ul class="claims">${sentences.map((sentence) => markup`<li>${sentence}</li>`)}</ul>
<p>${provedCount} spots proved, ${refutedCount} refuted, ${openCount} with too few frames to tell.</p>
<h3>Not claimed</h3><ul>${notClaimed.map((sentence) => markup`<li>${sentence}</li>`)}</ul>
${
  open.length === 0
    ? null
    : foldedTable(
        'Spots that need more frames',
        'Frames still to be sent, all of them received, to prove a spot',
        ['Spot', 'Received', 'Sent', 'Further frames'],
        open.map(({ spot, received, sent, furtherFrames }) => [
          spot,
          String(received),
          String(sent),
          furtherFrames === undefined ? '–' : String(furtherFrames),
        ]),
      )
}
</section>`;
}
