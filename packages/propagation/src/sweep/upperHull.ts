/**
 * Upper convex hull of points that arrive from left to right, kept as a stack: the vertices seen from above, each with the slope of
 * the edge that leads to it. Slopes fall from bottom to top. Nothing is allocated after the start.
 */
export class UpperHull {
  /** How many vertices there are. */
  count = 0;
  /** Distance of each vertex. */
  readonly x: Float64Array;
  /** Height of each vertex. */
  readonly y: Float64Array;
  /** Slope of the edge from the vertex before; infinite at the first. */
  readonly slope: Float64Array;

  constructor(capacity: number) {
    this.x = new Float64Array(capacity);
    this.y = new Float64Array(capacity);
    this.slope = new Float64Array(capacity);
  }

  /** Forgets all points. */
  clear(): void {
    this.count = 0;
  }

  /** Adds a point to the right of all others. */
  push(x: number, y: number): void {
    let top = this.count;
    let slope = Infinity;
    while (top > 0) {
      slope = (y - (this.y[top - 1] as number)) / (x - (this.x[top - 1] as number));
      if (slope < (this.slope[top - 1] as number)) break;
      top -= 1;
      slope = Infinity;
    }
    this.x[top] = x;
    this.y[top] = y;
    this.slope[top] = slope;
    this.count = top + 1;
  }

  /** Vertex that a line from a point right of the hull touches: the steepest as seen from there. The hull must not be empty. */
  tangentFrom(x: number, y: number): number {
    // The edge into vertex j, carried on to x, falls with j. The tangent goes to the first vertex whose next edge passes at or below the
    // point. Receivers mostly see a near vertex, so the search starts at the top in steps that double.
    let above = this.count;
    let step = 1;
    let low = above - 1;
    while (low > 0 && this.edgeAt(low, x) <= y) {
      above = low;
      low = Math.max(0, low - step);
      step *= 2;
    }
    while (above - low > 1) {
      const middle = (low + above) >> 1;
      if (this.edgeAt(middle, x) <= y) above = middle;
      else low = middle;
    }
    return low;
  }

  /** Vertex that is highest above a line of the given slope. The hull must not be empty. */
  highestAbove(slope: number): number {
    let above = this.count;
    let low = 0;
    while (above - low > 1) {
      const middle = (low + above) >> 1;
      if ((this.slope[middle] as number) <= slope) above = middle;
      else low = middle;
    }
    return low;
  }

  /** Height at x of the edge that leads to a vertex. */
  private edgeAt(vertex: number, x: number): number {
    return (this.y[vertex] as number) + (this.slope[vertex] as number) * (x - (this.x[vertex] as number));
  }
}
