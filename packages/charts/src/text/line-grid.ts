/**
 * Where lines run, as counts on a coarse grid, so that asking what a label would cover costs a few
 * cells instead of every point of every line.
 */
import type { Box, LabelObstacle } from './place-labels.ts';

/** Cell size in pixels: half the height of a small label. */
const CELL = 6;

type Cells = ReadonlyMap<number, number>;

export interface LineGrid {
  /** How many points of lines lie in a box, the line `except` left out. */
  readonly covered: (box: Box, except?: string) => number;
}

export function lineGrid(lines: readonly LabelObstacle[]): LineGrid {
  const all = new Map<number, number>();
  const own = new Map<string, Cells>();
  for (const { id, points } of lines) {
    const cells = new Map<number, number>();
    for (const [x, y] of points) {
      const key = keyOf(Math.floor(x / CELL), Math.floor(y / CELL));
      cells.set(key, (cells.get(key) ?? 0) + 1);
      all.set(key, (all.get(key) ?? 0) + 1);
    }
    own.set(id, cells);
  }
  return {
    covered(box, except) {
      const mine = except === undefined ? undefined : own.get(except);
      let count = 0;
      for (let i = Math.floor(box.x0 / CELL); i <= Math.floor(box.x1 / CELL); i++) {
        for (let j = Math.floor(box.y0 / CELL); j <= Math.floor(box.y1 / CELL); j++) {
          const key = keyOf(i, j);
          count += (all.get(key) ?? 0) - (mine?.get(key) ?? 0);
        }
      }
      return count;
    },
  };
}

/** One number for a cell; a drawing is far smaller than a million cells across. */
const keyOf = (column: number, row: number): number => column * 1_000_003 + row;
