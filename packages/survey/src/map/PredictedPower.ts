import { checkInteger, checkObject, checkRange, InputError } from '@finial/units';
import { checkPosition } from '../groundDistance.js';
import type { Position } from '../Observation.js';
import type { PlanePlace } from './PlaneSample.js';

/** Where the cells of a map lie: a square grid on the azimuthal plane around the gateway, row 0 in the north, column 0 in the west. */
export interface MapFrame {
  /** Count of columns, odd, 1 to 6001: the gateway is in the middle. */
  readonly columns: number;
  /** Count of rows, odd, 1 to 6001. */
  readonly rows: number;
  /** Side of a cell in metres, 1 to 10 000. */
  readonly cellM: number;
  /** Centre of the middle cell: the gateway. */
  readonly origin: Position;
}

/** Received power that a model predicts over an area. */
export interface PredictedPower extends MapFrame {
  /** Power in dBm, row by row from the north-west corner, -1000 to 200; NaN where the model says nothing. */
  readonly powerDbm: Float32Array;
}

/** Refuses what is no prediction of power. */
export function checkPrediction(prediction: PredictedPower): PredictedPower {
  const { columns, rows, cellM, origin, powerDbm } = checkObject(prediction, 'prediction');
  checkOdd(columns, 'prediction.columns', 'columns');
  checkOdd(rows, 'prediction.rows', 'rows');
  checkRange(cellM, 'prediction.cellM', { min: 1, max: 10_000, unit: 'metres' });
  checkPosition(origin, 'prediction.origin');
  if (!(powerDbm instanceof Float32Array) || powerDbm.length !== columns * rows) {
    const isSeries = powerDbm instanceof Float32Array;
    throw new InputError({
      code: isSeries ? 'out-of-range' : 'wrong-type',
      argument: 'prediction.powerDbm',
      received: isSeries ? powerDbm.length : powerDbm,
      expected: `a Float32Array of ${columns * rows} powers, one for each cell`,
    });
  }
  for (let index = 0; index < powerDbm.length; index += 1) {
    const power = powerDbm[index] as number;
    if ((power >= -1000 && power <= 200) || Number.isNaN(power)) continue;
    checkRange(power, `prediction.powerDbm[${index}]`, { min: -1000, max: 200, unit: 'dBm' });
  }
  return prediction;
}

function checkOdd(value: number, argument: string, unit: string): void {
  checkInteger(value, argument, { min: 1, max: 6001, unit });
  if (value % 2 === 1) return;
  const expected = `an odd number of ${unit}, with the gateway in the middle`;
  throw new InputError({ code: 'out-of-range', argument, received: value, expected });
}

/** Centre of a cell on the plane, by the cell's place in the series. */
export function cellCentre({ columns, rows, cellM }: MapFrame, index: number): PlanePlace {
  const column = index % columns;
  const row = (index - column) / columns;
  return { eastM: (column - (columns - 1) / 2) * cellM, northM: ((rows - 1) / 2 - row) * cellM };
}

/** Places in the series of cells with data, evenly thinned to about `most` where there are more. */
export function thinnedCells({ columns, rows, powerDbm }: PredictedPower, most: number): number[] {
  const known = powerDbm.reduce((count, power) => count + (Number.isNaN(power) ? 0 : 1), 0);
  const cells: number[] = [];
  for (let stride = Math.max(1, Math.ceil(Math.sqrt(known / most))); ; stride -= 1) {
    const first = Math.floor(stride / 2);
    for (let row = first; row < rows; row += stride) {
      for (let column = first; column < columns; column += stride) {
        const index = row * columns + column;
        if (!Number.isNaN(powerDbm[index])) cells.push(index);
      }
    }
    // A few cells with data may all fall between the strides.
    if (cells.length > 0 || stride <= 1) return cells;
  }
}
