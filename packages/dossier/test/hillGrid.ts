const columns = 60;
const rows = 40;
const cellDeg = 0.001;
const west = -37.43;
const south = 41.18;

/** A text grid round the example's roof; the height of a cell is asked for by column and row from the north-west. */
export function grid(heightOf: (column: number, row: number) => number): string {
  const lines = Array.from({ length: rows }, (_, row) =>
    Array.from({ length: columns }, (_, column) => heightOf(column, row)).join(' '),
  );
  return `ncols ${columns}\nnrows ${rows}\nxllcorner ${west}\nyllcorner ${south}\ncellsize ${cellDeg}\nNODATA_value -9999\n${lines.join('\n')}\n`;
}
