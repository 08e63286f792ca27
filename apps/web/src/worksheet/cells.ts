/** What the worksheet shows in each cell, and where the keys lead. */
import type { GridColumn, Strip } from '@wedgebook/notebook';
import type { ReadingUnit } from '../state/app.ts';
import { cellKey, type AsTyped } from '../state/work.ts';
import { columnName } from './block-commands.ts';
import { formatReading, parseNumber, parseReading, shortest } from './parse-cell.ts';

/** Address of a cell: row -1 is the base + fog row. */
export interface Cell {
  readonly row: number;
  readonly column: GridColumn;
}

/** Where a strip's readings begin. */
export const FIRST_CELL: Cell = { row: 0, column: { kind: 'density', replicate: 0 } };

/** An entry being typed, before it leaves the field. */
export interface Typing {
  readonly key: string;
  readonly text: string;
}

export interface CellView {
  readonly key: string;
  readonly shown: string;
  /** Why the entry cannot be read, or null. */
  readonly fault: string | null;
}

/** Replicate columns that a strip needs: at least two, and one more than are used, up to six. */
export function replicateCount(strip: Strip): number {
  const used = Math.max(
    strip.unexposedDensities.length,
    ...strip.rows.map((row) => row.densities.length),
    1,
  );
  return Math.max(2, used);
}

/** Value in the document under a cell. */
export function valueOf(strip: Strip, { row, column }: Cell): number | null {
  if (row < 0) {
    return column.kind === 'density' ? (strip.unexposedDensities[column.replicate] ?? null) : null;
  }
  const cells = strip.rows[row];
  if (cells === undefined) return null;
  if (column.kind === 'density') return cells.densities[column.replicate] ?? null;
  return column.kind === 'log-exposure' ? cells.logExposure : cells.step;
}

/** What a cell shows: an unreadable entry as typed, else what is being typed, else the value. */
export function viewCell(
  strip: Strip,
  cell: Cell,
  unit: ReadingUnit,
  asTyped: AsTyped | undefined,
  typing: Typing | null,
  base: number | null = null,
): CellView {
  const key = cellKey(strip.id, cell.row, columnName(cell.column));
  const isReading = cell.column.kind === 'density';
  const parse = (typed: string) =>
    isReading ? parseReading(typed, unit, base) : parseNumber(typed);
  const kept = asTyped?.[key];
  if (kept !== undefined) {
    const parsed = parse(kept);
    return { key, shown: kept, fault: parsed.status === 'wrong' ? parsed.sentence : null };
  }
  const value = valueOf(strip, cell);
  if (typing?.key === key) {
    const parsed = parse(typing.text);
    const typed = parsed.status === 'read' ? parsed.value : null;
    const same = typed === value || (typed !== null && value !== null && near(typed, value));
    if (same) return { key, shown: typing.text, fault: null };
  }
  if (value === null) return { key, shown: '', fault: null };
  return {
    key,
    shown: isReading ? formatReading(value, unit, base) : shortest(value, 3, 4),
    fault: null,
  };
}

const near = (a: number, b: number) => Math.abs(a - b) < 1e-9;

/** A place on the sheet: row -1 is base + fog, column 0 the log exposure. */
export interface Position {
  readonly row: number;
  readonly column: number;
}

/** Rows of steps, and columns with the one of log exposures. */
export interface SheetSize {
  readonly rows: number;
  readonly columns: number;
}

/** Where the entry after this one goes: the next step, then the top of the next column. */
export function cellAfter(
  { row, column }: Position,
  { rows, columns }: SheetSize,
): Position | null {
  if (row + 1 < rows) return { row: row + 1, column };
  return column + 1 < columns ? { row: 0, column: column + 1 } : null;
}

/** The first step without a reading, in the first column that has one such; null where all are read. */
export function firstOpenCell(strip: Strip): Position | null {
  for (let replicate = 0; replicate < replicateCount(strip); replicate++) {
    const row = strip.rows.findIndex(({ densities }) => (densities[replicate] ?? null) === null);
    if (row >= 0) return { row, column: replicate + 1 };
  }
  return null;
}

/** Cell that a key leads to from another, or null where the key stays in the cell. */
export function nextCell(
  from: Position,
  key: string,
  caret: { readonly atStart: boolean; readonly atEnd: boolean },
  size: SheetSize,
): Position | null {
  const { row, column } = from;
  const go = (r: number, c: number) =>
    r >= -1 && r < size.rows && c >= 0 && c < size.columns ? { row: r, column: c } : null;
  switch (key) {
    case 'ArrowUp':
      return go(row - 1, column);
    case 'ArrowDown':
      return go(row + 1, column);
    case 'Enter':
      // Also at the last step: an instrument that types would go on in the same cell.
      return cellAfter(from, size);
    case 'ArrowLeft':
      return caret.atStart ? go(row, column - 1) : null;
    case 'ArrowRight':
      return caret.atEnd ? go(row, column + 1) : null;
    default:
      return null;
  }
}
