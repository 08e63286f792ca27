/**
 * Turns a pasted block into one step of undo: readings to their rows, those of base + fog to theirs,
 * unreadable cells kept as typed in their places.
 */
import type { GridColumn, Strip } from '@wedgebook/notebook';
import type { ReadingUnit } from '../state/app.ts';
import { cellKey, type WorkCommand } from '../state/work.ts';
import { BASE_ROW, isBaseFog, stepFrom } from './row-names.ts';
import { parseNumber, parseReading } from './parse-cell.ts';
import type { BlockColumn, PastedBlock } from './parse-block.ts';

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
  /** Rows taken as base + fog. */
  readonly base: number;
  /** What stood for the step in rows that name none, and were left out. */
  readonly left: readonly string[];
}

/** Column name used in the key of a kept entry. */
export function columnName(column: GridColumn): string {
  return column.kind === 'density' ? `d${column.replicate}` : column.kind;
}

/** A row of the block: where it goes, or what stood for its step where that is no step. */
type Place = { readonly row: number } | { readonly left: string };

/**
 * @param strip - the strip pasted into; not changed
 * @param block - see `parseBlock`
 * @param target - where the block's first reading goes when it names no steps
 * @param unit - unit of the readings
 * @param base - a meter's reading of the open light, for the units of meters
 * @param tablet - densities of the strip's tablet; null where it has none
 */
export function blockCommands(
  strip: Strip,
  block: PastedBlock,
  target: PasteTarget,
  unit: ReadingUnit,
  base: number | null = null,
  tablet: readonly number[] | null = null,
): PasteResult {
  const commands: WorkCommand[] = [];
  const stepColumn = block.columns.indexOf('step');
  const steps = strip.rows.map((row) => row.step);
  const unexposed: (number | null)[] = [...strip.unexposedDensities];
  const perRow = block.columns.filter((kind) => kind === 'reading').length;
  const seen = new Map<number, number>();
  const left: string[] = [];
  let readings = 0;
  let wrong = 0;

  block.rows.forEach((cells, index) => {
    const place = placeOf(cells, index);
    if ('left' in place) {
      left.push(place.left);
      return;
    }
    const { row } = place;
    const isRead = cells.some((cell, column) => block.columns[column] === 'reading' && cell !== '');
    if (row === BASE_ROW && !isRead) return;
    // A step that comes again is read again: its readings stand beside the first ones.
    const times = seen.get(row) ?? 0;
    seen.set(row, times + 1);
    let replicate = (row < 0 ? 0 : target.replicate) + times * perRow;
    block.columns.forEach((kind, column) => {
      const typed = cells[column] ?? '';
      if (kind === 'reading') {
        setReading(row, replicate, typed);
        replicate += 1;
      } else if (row >= 0 && kind === 'log-exposure') setExposure(row, typed);
      else if (row >= 0 && kind === 'tablet-density' && !exposed(cells, 'log-exposure'))
        setTablet(row, typed);
    });
  });
  const baseRows = seen.get(BASE_ROW) ?? 0;
  if (baseRows > 0) {
    const unexposedDensities = unexposed.filter((density) => density !== null);
    commands.push({ type: 'strip/change', id: strip.id, changes: { unexposedDensities } });
  }
  const command: WorkCommand = { type: 'several', commands };
  return { command, rows: block.rows.length, readings, wrong, base: baseRows, left };

  /** By the step that is named; without a column of steps, one row below the other. */
  function placeOf(cells: readonly string[], index: number): Place {
    const named = stepColumn < 0 ? '' : (cells[stepColumn] ?? '').trim();
    const step = stepFrom(named);
    if (step !== null) return { row: rowOf(step) };
    const says = cells.some(
      (cell, column) => block.columns[column] !== 'reading' && isBaseFog(cell),
    );
    // As in a file of readings: one with neither step nor exposure is base + fog.
    const bare = stepColumn >= 0 && named === '' && !exposed(cells);
    if (says || bare) return { row: BASE_ROW };
    return named === '' ? { row: target.row + index } : { left: named };
  }

  /** The row that has a step; a new step gets a row of its own at the end. */
  function rowOf(step: number): number {
    const at = steps.indexOf(step);
    if (at >= 0) return at;
    const row = steps.length;
    steps.push(step);
    const column: GridColumn = { kind: 'step' };
    commands.push({ type: 'rows/set-cell', stripId: strip.id, row, column, value: step });
    return row;
  }

  function setReading(row: number, replicate: number, typed: string): void {
    const column: GridColumn = { kind: 'density', replicate };
    const reading = parseReading(typed, unit, base);
    const value = reading.status === 'read' ? reading.value : null;
    if (value !== null) readings += 1;
    keep(row, column, reading.status === 'wrong' ? typed : null);
    if (row >= 0) {
      commands.push({ type: 'rows/set-cell', stripId: strip.id, row, column, value });
    } else if (value !== null) unexposed[replicate] = value;
  }

  function setExposure(row: number, typed: string): void {
    const column: GridColumn = { kind: 'log-exposure' };
    const exposure = parseNumber(typed);
    const value = exposure.status === 'read' ? exposure.value : null;
    commands.push({ type: 'rows/set-cell', stripId: strip.id, row, column, value });
    keep(row, column, exposure.status === 'wrong' ? typed : null);
  }

  function keep(row: number, column: GridColumn, typed: string | null): void {
    if (typed !== null) wrong += 1;
    const key = cellKey(strip.id, row, columnName(column));
    commands.push({ type: 'typed/keep', key, text: typed });
  }

  /** Whether a row gives its exposure, or its exposure in one kind of column. */
  function exposed(cells: readonly string[], only?: BlockColumn): boolean {
    return block.columns.some(
      (kind, column) =>
        (only === undefined
          ? kind === 'log-exposure' || kind === 'tablet-density'
          : kind === only) && isNumber(cells[column] ?? ''),
    );
  }

  /** Tablet densities other than those of the strip's tablet become log exposures of the rows. */
  function setTablet(row: number, typed: string): void {
    const density = parseNumber(typed);
    if (density.status !== 'read') return;
    const source = strip.exposure.kind === 'absolute' ? strip.exposure.sourceLogExposure : 0;
    if (source === null) return;
    const known = tablet?.[(steps[row] ?? 0) - 1];
    const asKnown =
      known !== undefined && Math.abs(known - density.value) <= halfLastPlace(typed) + 1e-9;
    if (asKnown && (strip.rows[row]?.logExposure ?? null) === null) return;
    const value = Math.round((source - density.value) * 1e6) / 1e6;
    const column: GridColumn = { kind: 'log-exposure' };
    commands.push({ type: 'rows/set-cell', stripId: strip.id, row, column, value });
  }
}

const isNumber = (cell: string): boolean => parseNumber(cell).status === 'read';

/** What a figure may be off by, as it was written: 0.005 for two places. */
function halfLastPlace(typed: string): number {
  const places = /[.,](\d*)/.exec(typed)?.[1]?.length ?? 0;
  return 0.5 * 10 ** -places;
}
