/**
 * Turns a pasted block into one step of undo: readings to their rows, unreadable cells kept as
 * typed in their places.
 */
import type { GridColumn, Strip } from '@wedgebook/notebook';
import type { ReadingUnit } from '../state/app.ts';
import { cellKey, type WorkCommand } from '../state/work.ts';
import { parseNumber, parseReading } from './parse-cell.ts';
import type { PastedBlock } from './parse-block.ts';

export interface PasteTarget {
  /** Row of the cell that received the paste. */
  readonly row: number;
  /** Replicate column, from 0. */
  readonly replicate: number;
}

export interface PasteResult {
  readonly command: WorkCommand;
  readonly rows: number;
  readonly readings: number;
  readonly wrong: number;
}

/** Column name used in the key of a kept entry. */
export function columnName(column: GridColumn): string {
  return column.kind === 'density' ? `d${column.replicate}` : column.kind;
}

/**
 * @param strip - the strip pasted into; not changed
 * @param block - see `parseBlock`
 * @param target - where the block's first reading goes when it names no steps
 * @param unit - unit of the readings
 * @param base - a meter's reading of the open light, for the units of meters
 */
export function blockCommands(
  strip: Strip,
  block: PastedBlock,
  target: PasteTarget,
  unit: ReadingUnit,
  base: number | null = null,
): PasteResult {
  const commands: WorkCommand[] = [];
  const stepColumn = block.columns.indexOf('step');
  const steps = strip.rows.map((row) => row.step);
  let readings = 0;
  let wrong = 0;

  const set = (row: number, column: GridColumn, typed: string) => {
    const key = cellKey(strip.id, row, columnName(column));
    const reading =
      column.kind === 'density' ? parseReading(typed, unit, base) : parseNumber(typed);
    const isWrong = reading.status === 'wrong';
    const value = reading.status === 'read' ? reading.value : null;
    if (isWrong) wrong += 1;
    if (column.kind === 'density' && value !== null) readings += 1;
    commands.push({ type: 'rows/set-cell', stripId: strip.id, row, column, value });
    commands.push({ type: 'typed/keep', key, text: isWrong ? typed : null });
  };

  block.rows.forEach((cells, index) => {
    const row = rowOf(cells[stepColumn], index);
    let replicate = target.replicate;
    block.columns.forEach((kind, column) => {
      const typed = cells[column] ?? '';
      switch (kind) {
        case 'reading':
          set(row, { kind: 'density', replicate }, typed);
          replicate += 1;
          break;
        case 'log-exposure':
          set(row, { kind: 'log-exposure' }, typed);
          break;
        case 'tablet-density':
          if (block.heads[column] !== undefined) setTablet(row, typed);
          break;
        case 'step':
        case 'ignored':
          break;
      }
    });
  });
  return { command: { type: 'several', commands }, rows: block.rows.length, readings, wrong };

  /** A named step goes to the row that has it; a new one to a row of its own at the end. */
  function rowOf(step: string | undefined, index: number): number {
    const number = step === undefined ? null : parseNumber(step);
    if (number?.status !== 'read' || !Number.isInteger(number.value)) return target.row + index;
    const at = steps.indexOf(number.value);
    if (at >= 0) return at;
    const row = steps.length;
    steps.push(number.value);
    const column: GridColumn = { kind: 'step' };
    const { value } = number;
    commands.push({ type: 'rows/set-cell', stripId: strip.id, row, column, value });
    return row;
  }

  /** The sheet's own tablet densities become log exposures of the rows. */
  function setTablet(row: number, typed: string): void {
    const density = parseNumber(typed);
    if (density.status !== 'read') return;
    const source = strip.exposure.kind === 'absolute' ? strip.exposure.sourceLogExposure : 0;
    if (source === null) return;
    const value = Math.round((source - density.value) * 1e6) / 1e6;
    const column: GridColumn = { kind: 'log-exposure' };
    commands.push({ type: 'rows/set-cell', stripId: strip.id, row, column, value });
  }
}
