/** A rectangle of a plane, in whatever unit its coordinates have. */
export interface Rectangle {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** A point of a plane, written over by each look-up. */
export interface PlanePoint {
  x: number;
  y: number;
}

/**
 * A smooth map from one plane to another, solved exactly at nodes and linear between them: a geodesic for each of a million cells would
 * take longer than their losses. Unchecked.
 *
 * With nodes s apart on an Earth of radius R the error is about s² (1 + tan |latitude|) / 8R: centimetres for a kilometre.
 */
export class PlaneMap {
  readonly #values: Float64Array;
  readonly #across: number;
  readonly #perX: number;
  readonly #perY: number;

  constructor(
    private readonly area: Rectangle,
    intervals: number,
    exact: (x: number, y: number) => PlanePoint,
  ) {
    const { left, right, top, bottom } = area;
    this.#across = intervals + 1;
    this.#perX = intervals / (right - left);
    this.#perY = intervals / (bottom - top);
    this.#values = new Float64Array(2 * this.#across * this.#across);
    for (let row = 0, place = 0; row <= intervals; row++) {
      for (let column = 0; column <= intervals; column++) {
        const point = exact(left + column / this.#perX, top + row / this.#perY);
        this.#values[place++] = point.x;
        this.#values[place++] = point.y;
      }
    }
  }

  /** Writes the image of a point into `into`. */
  locate(x: number, y: number, into: PlanePoint): void {
    const column = (x - this.area.left) * this.#perX;
    const row = (y - this.area.top) * this.#perY;
    const last = this.#across - 2;
    const whole = Math.min(Math.max(Math.floor(column), 0), last);
    const wholeRow = Math.min(Math.max(Math.floor(row), 0), last);
    const [shareX, shareY] = [column - whole, row - wholeRow];
    const start = 2 * (wholeRow * this.#across + whole);
    into.x = this.#between(start, shareX, shareY);
    into.y = this.#between(start + 1, shareX, shareY);
  }

  #between(start: number, shareX: number, shareY: number): number {
    const values = this.#values;
    const below = start + 2 * this.#across;
    const [nw, ne] = [values[start] as number, values[start + 2] as number];
    const [sw, se] = [values[below] as number, values[below + 2] as number];
    const north = nw + shareX * (ne - nw);
    return north + shareY * (sw + shareX * (se - sw) - north);
  }
}

/** How many intervals keep the nodes within a kilometre of each other: enough for any cell, few enough for any radius. */
export function intervalsFor(radiusM: number): number {
  return Math.min(Math.max(Math.ceil((2 * radiusM) / 1000), 64), 512);
}
