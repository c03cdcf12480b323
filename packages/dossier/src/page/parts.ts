import type { Finding } from '@finial/units';
import { join, type Markup, markup } from './markup.js';

/** What must stop and what to fix, gravest first as given; the notes, which are many, folded below. */
export function verdictList(findings: readonly Finding[]): Markup {
  if (findings.length === 0) return markup`<p>No findings.</p>`;
  const notes = findings.filter(({ severity }) => severity === 'note');
  const grave = findings.filter(({ severity }) => severity !== 'note');
  const title = notes.length === 1 ? 'One note' : `${notes.length} notes`;
  return markup`${grave.length === 0 ? null : findingList(grave)}
${notes.length === 0 ? null : markup`<details><summary>${title}: what to know, and cautions</summary>${findingList(notes)}</details>`}`;
}

function findingList(findings: readonly Finding[]): Markup {
  const items = findings.map(
    (
      finding,
    ) => markup`<li><span class="weight ${finding.severity}">${finding.severity}</span>${finding.message}
<span class="source">${comparison(finding)}Source: ${finding.source}</span></li>`,
  );
  return markup`<ul class="findings">${items}</ul>`;
}

function comparison({ measured, limit }: Finding): string {
  if (measured === undefined) return '';
  return limit === undefined ? `${measured}. ` : `${measured} against ${limit}. `;
}

/** Row names beyond this many characters get room for more than a word in a line. */
const longestOneWord = 12;

/** Cells of a row, in words or as markup; the first names the row. */
export type TableRow = readonly (string | Markup)[];

/** A table that scrolls by itself where the page is narrow, reachable by keyboard. */
export function table(caption: string, head: readonly string[], rows: readonly TableRow[]): Markup {
  const titles = head.map((title) => markup`<th scope="col">${title}</th>`);
  const body = rows.map((row) => {
    const cells = row.map((cell, index) =>
      index === 0 ? markup`<th scope="row">${cell}</th>` : markup`<td>${cell}</td>`,
    );
    return markup`<tr>${join(cells, '')}</tr>`;
  });
  const named = rows.some(([first]) => typeof first !== 'string' || first.length > longestOneWord);
  return markup`<div class="scroll" tabindex="0" role="region" aria-label="${caption}"><table class="${named ? 'named' : 'plain'}"><caption>${caption}</caption>
<thead><tr>${join(titles, '')}</tr></thead><tbody>${body}</tbody></table></div>`;
}

/** Numbers behind a picture, folded away until asked for. */
export function foldedTable(
  summary: string,
  caption: string,
  head: readonly string[],
  rows: readonly TableRow[],
): Markup {
  return markup`<details><summary>${summary}</summary>${table(caption, head, rows)}</details>`;
}
