import type { FeedlinePart, OtherRun } from '../feedlinePart.js';
import { chainPicture } from './chainPicture.js';
import { type Markup, markup } from './markup.js';
import { foldedTable, table } from './parts.js';
import { decimal, percent } from './wording.js';

/** The run of cable, part by part, and what other cables would do. */
export function feedlineSection(feedline: FeedlinePart): Markup {
  const { choices } = feedline;
  return markup`<section aria-labelledby="feedline">
<h2 id="feedline">The feedline</h2>
<p>From the gateway to the antenna ${decimal(feedline.cableLengthM, 1)} m of cable and its joints lose ${decimal(feedline.lossDb, 2)} dB,
by the spread of parts and makes between ${decimal(feedline.leastLossDb, 2)} and ${decimal(feedline.greatestLossDb, 2)} dB.
${feedline.joins ? 'Every joint mates.' : 'Not every part joins its neighbour: see the verdict for what is missing.'}</p>
<figure>${chainPicture(feedline)}<figcaption>Part by part, gateway above, antenna below. A bar is the loss of a part.</figcaption></figure>
${foldedTable('The parts and joints', 'Loss of each part and joint', ['Part or joint', 'Loss', 'Uncertainty', 'Share'], chainRows(feedline))}
${choices === undefined ? null : cableTable(choices)}
${feedline.otherRuns.length === 0 ? null : otherRuns(feedline)}
<p class="caution">Leave a drip loop below every entry, seal outdoor joints, and bond the arrestor to the building's earth by the local code: an arrestor
does not protect from a direct strike. Switch the radio off before a connector is opened; no work on the run in wind or thunder.</p>
</section>`;
}

function otherRuns(feedline: FeedlinePart): Markup {
  const { otherRuns: runs, lossDb } = feedline;
  const rows = [
    ['as planned', `${decimal(lossDb, 2)}\u00a0dB`, jointsInWords(feedline)],
    ...runs.map((run) => [run.name, `${decimal(run.lossDb, 2)}\u00a0dB`, jointsInWords(run)]),
  ];
  const pictures = runs.map(
    (run, index) => markup`<details><summary>${run.name}, part by part</summary>
<figure>${chainPicture(run, `chain-${index + 1}`)}</figure></details>`,
  );
  return markup`<h3>Other runs</h3>${table('The run beside others', ['Run', 'Loss', 'Joints'], rows)}${pictures}`;
}

function jointsInWords({ joins, joints }: Pick<OtherRun, 'joins' | 'joints'>): string {
  const broken = joints.filter(({ mates }) => !mates).length;
  return joins ? 'all mate' : broken === 1 ? 'one fails' : `${broken} fail`;
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
