/**
 * Where lines run, as counts on a coarse grid, so that asking what a label would cover costs a few
 * cells instead of every point of every line.
 */
import type { Box, LabelObstacle } from './place-labels.ts';

/** Cell size in pixels: half the height of a small label. */
const CELL = 6;

export interface LineGrid {
  /** Points of lines in a box within the bounds, each by its line's weight, the line `except` left out. */
  readonly covered: (box: Box, except?: string) => number;
}

/** Column and row of each cell that a line passes, and how many of its points in a row lie there. */
type Cells = Int32Array;

/** Cells by line: of a family of curves all but one stay from one keystroke to the next. */
const known = new WeakMap<LabelObstacle['points'], Cells>();

/** @param bounds - the area that is asked about */
export function lineGrid(lines: readonly LabelObstacle[], bounds: Box): LineGrid {
  const left = cellOf(bounds.x0);
  const top = cellOf(bounds.y0);
  const columns = cellOf(bounds.x1) - left + 1;
  const rows = cellOf(bounds.y1) - top + 1;
  const counts = new Uint32Array(Math.max(0, columns * rows));
  for (const { points, weight = 1 } of lines) {
    const cells = cellsOf(points);
    for (let k = 0; k < cells.length; k += 3) {
      const column = (cells[k] ?? 0) - left;
      const row = (cells[k + 1] ?? 0) - top;
      if (column < 0 || column >= columns || row < 0 || row >= rows) continue;
      const at = column * rows + row;
      counts[at] = (counts[at] ?? 0) + weight * (cells[k + 2] ?? 0);
    }
  }
  return {
    covered(box, except) {
      const from = { column: cellOf(box.x0), row: cellOf(box.y0) };
      const to = { column: cellOf(box.x1), row: cellOf(box.y1) };
      let count = 0;
      for (let column = from.column; column <= to.column; column++) {
        for (let row = from.row; row <= to.row; row++) {
          count += counts[(column - left) * rows + row - top] ?? 0;
        }
      }
      if (except === undefined) return count;
      for (const { id, points, weight = 1 } of lines) {
        if (id !== except) continue;
        const cells = cellsOf(points);
        for (let k = 0; k < cells.length; k += 3) {
          const column = cells[k] ?? 0;
          const row = cells[k + 1] ?? 0;
          if (column < from.column || column > to.column) continue;
          if (row >= from.row && row <= to.row) count -= weight * (cells[k + 2] ?? 0);
        }
      }
      return count;
    },
  };
}

const cellOf = (pixel: number): number => Math.floor(pixel / CELL);

function cellsOf(points: LabelObstacle['points']): Cells {
  const before = known.get(points);
  if (before !== undefined) return before;
  const cells = new Int32Array(3 * points.length);
  let used = 0;
  for (const [x, y] of points) {
    const column = cellOf(x);
    const row = cellOf(y);
    if (used === 0 || cells[used - 3] !== column || cells[used - 2] !== row) {
      cells[used] = column;
      cells[used + 1] = row;
      used += 3;
    }
    cells[used - 1] = (cells[used - 1] ?? 0) + 1;
  }
  const all = cells.slice(0, used);
  known.set(points, all);
  return all;
}
