/**
 * How far a fact has been confirmed.
 *
 * - `read`: the document, or the page of it that carries the fact, was read
 * - `quoted`: a public text quotes the document; the document itself was not read
 * - `stack`: taken from the source text of end-node MAC stacks that were compared with each other
 * - `memory`: not checked against any document; never decides that something must stop
 */
export type CitationStatus = 'read' | 'quoted' | 'stack' | 'memory';

/** Where a fact comes from. */
export interface Citation {
  /** Title or number of the document, with the clause or table. */
  readonly document: string;
  /** Edition or date of the document; `edition not recorded` where it is unknown. */
  readonly edition: string;
  /** How far the fact has been confirmed. */
  readonly status: CitationStatus;
}

const statusInWords: Readonly<Record<CitationStatus, string>> = {
  read: 'read',
  quoted: 'as quoted by others',
  stack: 'from MAC stack sources',
  memory: 'from memory, unverified',
};

/**
 * A citation in one line, as findings carry it.
 *
 * @example
 * ```ts
 * import { citationText } from '@finial/lora';
 *
 * citationText({ document: 'RP001 table 3', edition: '1.0.3revA', status: 'read' }); // → 'RP001 table 3 (1.0.3revA; read)'
 * ```
 */
export function citationText(citation: Citation): string {
  return `${citation.document} (${citation.edition}; ${statusInWords[citation.status]})`;
}
