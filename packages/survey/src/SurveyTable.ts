/** One row of a walk log before its cells are understood. */
export interface SurveyRow {
  /** Line where the row begins, counted from 1. */
  readonly line: number;
  /** Cells in the order of the header; `undefined` where a GeoJSON feature lacks the property. */
  readonly cells: readonly unknown[];
  /** The row as it stood in the file. */
  readonly text: string;
}

/** A row that could not even be cut into cells. */
export interface BrokenRow {
  readonly line: number;
  readonly column?: number | undefined;
  readonly text: string;
  /** What was wanted, in words. */
  readonly expected: string;
  /** What came. */
  readonly received: unknown;
  /** The field that is wrong, or empty for the whole row. */
  readonly field: string;
}

/** A walk log as a table: what CSV and GeoJSON have in common. */
export interface SurveyTable {
  /** Names of the columns, or of the properties that occur. */
  readonly header: readonly string[];
  /** What a column is called in this format, for messages. */
  readonly columnWord: 'column' | 'property';
  /** Line of the header, counted from 1; `undefined` in GeoJSON. */
  readonly headerLine: number | undefined;
  /** True where latitude and longitude are the first two cells whatever the header says (GeoJSON geometry). */
  readonly positionFirst: boolean;
  readonly rows: readonly SurveyRow[];
  readonly broken: readonly BrokenRow[];
}
