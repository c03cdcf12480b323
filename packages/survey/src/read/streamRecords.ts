import {
  type CsvRows,
  csvTable,
  csvTableBelow,
  isComment,
  likelySeparator,
  longestRow,
} from '../csvTable.js';
import type { SurveyTable } from '../SurveyTable.js';
import { ndjsonTable } from './ndjsonTable.js';
import { noRows, noteSeen, placesOf, refuseUnseen, type TableSource } from './readRecords.js';
import { type ReadRows, readTable } from './readTable.js';
import { linesOfChunks, type TextChunks, type TextLine } from './textLines.js';

/** Rows are cut in lots of about this many characters: enough to spread the cost of a call, and little to hold. */
const lotCharacters = 65_536;

/** Reads rows as the text comes in; of the text, one lot at a time is held in memory. */
export async function* streamRecords<Item>(
  chunks: TextChunks,
  source: TableSource<Item>,
): AsyncGenerator<ReadRows<Item>> {
  const { settings, kind, absentIsZero, wanted } = source;
  const seen = new Set<string>();
  let places: ReturnType<typeof placesOf> | undefined;
  let rows = 0;
  let wholeRows = 0;
  let headerLine: number | undefined;
  for await (const table of source.format === 'ndjson'
    ? ndjsonLots(chunks, source)
    : csvLots(chunks, source)) {
    places ??= placesOf(table, source);
    headerLine = table.headerLine;
    rows += table.rows.length + table.broken.length;
    wholeRows += table.rows.length;
    if (source.format === 'ndjson') noteSeen(table, places, seen);
    const reading = { places, decimal: settings.decimal, isGuarded: source.format === 'csv', absentIsZero };
    yield readTable(table, (row) => kind.itemOfRow(row, reading), places, settings);
  }
  if (rows === 0) throw noRows(source, headerLine);
  if (source.format === 'ndjson' && wholeRows > 0) refuseUnseen(wanted, seen, settings.file);
}

async function* ndjsonLots<Item>(
  chunks: TextChunks,
  { wanted, kind, each, settings }: TableSource<Item>,
): AsyncGenerator<SurveyTable> {
  for await (const lines of linesOfChunks(chunks, settings.file)) {
    yield ndjsonTable(lines, { wanted, rules: kind.rules, each });
  }
}

async function* csvLots<Item>(
  chunks: TextChunks,
  { settings }: TableSource<Item>,
): AsyncGenerator<SurveyTable> {
  const { commentPrefix } = settings;
  let above: CsvRows | undefined;
  const lot = new CsvLot();
  for await (const lines of linesOfChunks(chunks, settings.file)) {
    for (const { line, text } of lines) {
      if (above === undefined) {
        if (text.trim() === '' || isComment(text, commentPrefix)) continue;
        const separator = settings.separator ?? likelySeparator(text, commentPrefix);
        const table = csvTable(text, settings);
        above = { header: table.header, headerLine: line, separator };
        yield { ...table, headerLine: line };
        continue;
      }
      lot.add({ line, text });
      if (lot.isFull()) yield csvTableBelow(lot.text(), above, lot.linesBefore, settings);
      if (lot.isFull()) lot.clear();
    }
  }
  if (above !== undefined && !lot.isEmpty()) {
    yield csvTableBelow(lot.text(), above, lot.linesBefore, settings);
  }
}

/** Lines of CSV until a row ends: a quote that is still open carries a row over the end of its line. */
class CsvLot {
  linesBefore = 0;
  #lines: string[] = [];
  #characters = 0;
  #openSince: number | undefined;

  add({ line, text }: TextLine): void {
    if (this.#lines.length === 0) this.linesBefore = line - 1;
    this.#lines.push(text);
    this.#characters += text.length + 1;
    const quotes = text.split('"').length - 1;
    if (quotes % 2 === 1) this.#openSince = this.#openSince === undefined ? this.#characters : undefined;
  }

  /** Full at the end of a row; a quote that stays open for longer than any row was never meant to be closed. */
  isFull(): boolean {
    if (this.#characters < lotCharacters) return false;
    return this.#openSince === undefined || this.#characters - this.#openSince > longestRow;
  }

  isEmpty(): boolean {
    return this.#lines.length === 0;
  }

  text(): string {
    return this.#lines.join('\n');
  }

  clear(): void {
    this.#lines = [];
    this.#characters = 0;
    this.#openSince = undefined;
  }
}
