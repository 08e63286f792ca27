/** Changes to the rows of one strip: cells, replicates, pasted blocks. */
import { InvalidArgumentError } from '@wedgebook/core';
import type { GridColumn, RowCommand } from './command.ts';
import type { StripRow } from './document.ts';
import { changed, insertedAt, removedAt, replacedAt, requireIndex } from './lists.ts';

/** The most rows and replicates a strip may grow to by typing or pasting. */
export const MOST_ROWS = 1000;
const MOST_REPLICATES = 50;

/**
 * @returns the rows with the command carried out; the same array where nothing changes
 * @throws {InvalidArgumentError} if an index is no whole number, or far outside any real strip
 */
export function applyRowCommand(
  rows: readonly StripRow[],
  command: RowCommand,
): readonly StripRow[] {
  if ('row' in command) requireIndex('applyCommand', command.row);
  switch (command.type) {
    case 'rows/set-cell': {
      const { row, column, value } = command;
      return replacedAt(grownTo(rows, row + 1), row, (old) => withCell(old, column, value));
    }
    case 'rows/set-replicates': {
      const { row, densities } = command;
      requireAtMost('densities', densities.length, MOST_REPLICATES);
      densities.forEach(requireFiniteOrNull);
      return replacedAt(grownTo(rows, row + 1), row, (old) => changed(old, { densities }));
    }
    case 'rows/paste':
      return pasted(rows, command);
    case 'rows/insert': {
      requireAtMost('rows', rows.length + command.rows.length, MOST_ROWS);
      return insertedAt(rows, command.row, command.rows);
    }
    case 'rows/remove':
      return removedAt(rows, command.row, command.count);
    case 'rows/reverse-readings':
      return rows.map((row, index) =>
        changed(row, { densities: rows[rows.length - 1 - index]?.densities ?? row.densities }),
      );
  }
}

function pasted(
  rows: readonly StripRow[],
  { row, column, block }: Extract<RowCommand, { type: 'rows/paste' }>,
): readonly StripRow[] {
  const first = columnNumber(column);
  let next = grownTo(rows, row + block.length);
  block.forEach((cells, down) => {
    cells.forEach((value, across) => {
      const target = columnAt(first + across);
      next = replacedAt(next, row + down, (old) => withCell(old, target, value));
    });
  });
  return next;
}

function withCell(row: StripRow, column: GridColumn, value: number | null): StripRow {
  requireFiniteOrNull(value);
  switch (column.kind) {
    case 'step':
      // A step without a number would have no exposure: an emptied cell leaves it as it was.
      return value === null ? row : changed(row, { step: value });
    case 'log-exposure':
      return changed(row, { logExposure: value });
    case 'density': {
      requireIndex('applyCommand', column.replicate);
      requireAtMost('column.replicate', column.replicate + 1, MOST_REPLICATES);
      const missing = Math.max(0, column.replicate - row.densities.length);
      const densities = [...row.densities, ...Array<null>(missing).fill(null)];
      densities[column.replicate] = value;
      return changed(row, { densities });
    }
  }
}

/** Adds unread rows to the end, the step numbers going on from the last. */
function grownTo(rows: readonly StripRow[], length: number): readonly StripRow[] {
  requireIndex('applyCommand', length);
  requireAtMost('row', length, MOST_ROWS);
  if (length <= rows.length) return rows;
  const last = rows.at(-1)?.step ?? 0;
  const added = Array.from({ length: length - rows.length }, (_, index): StripRow => {
    return { step: last + index + 1, logExposure: null, densities: [] };
  });
  return [...rows, ...added];
}

const columnNumber = (column: GridColumn): number => {
  if (column.kind === 'step') return 0;
  return column.kind === 'log-exposure' ? 1 : 2 + column.replicate;
};
const columnAt = (number: number): GridColumn => {
  if (number === 0) return { kind: 'step' };
  return number === 1 ? { kind: 'log-exposure' } : { kind: 'density', replicate: number - 2 };
};

function requireFiniteOrNull(value: number | null): void {
  if (!(value === null || Number.isFinite(value))) {
    throw new InvalidArgumentError('applyCommand', 'value', value, 'a finite number or null');
  }
}

function requireAtMost(argument: string, received: number, most: number): void {
  if (!(received <= most)) {
    throw new InvalidArgumentError('applyCommand', argument, received, `at most ${most}`);
  }
}
