/**
 * Strips from any table, by what the user says that each column holds. The table is written anew
 * with the columns' own names, and read as every file of readings is: one reader, one set of
 * checks.
 */
import { tsvFormatRows } from 'd3-dsv';
import { InputError } from '../notebook-error.ts';
import { READINGS_COLUMNS, type ReadingsColumn } from './readings-columns.ts';
import type { ReadingsFile } from './readings-strip.ts';
import { readReadings } from './read-readings.ts';

/** What a column of a table holds: a column of readings, the densities of a strip, or nothing. */
export type ColumnRole = ReadingsColumn | 'strip_density' | 'ignored';

export const COLUMN_ROLES: readonly ColumnRole[] = [
  'ignored',
  ...READINGS_COLUMNS,
  'strip_density',
];

/** A table as cut into cells. */
export interface RawTable {
  /** Names of the columns; empty where there is no header row. */
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** Why roles make no readings. */
export type RolesFault = 'no-density' | 'no-exposure' | 'both-densities' | 'twice';

/** Names in use for columns; the first that fits counts. */
const NAMES: readonly (readonly [RegExp, ColumnRole])[] = [
  [/^(step|no\.?|nr\.?|n|#|field|patch)$/, 'step'],
  [/^(tablet|wedge)[ _-]?(d|dens|density)?$/, 'tablet_density'],
  [/^(rel(ative)?[ ._]*)?(log[ _-]?(exposure|h|e)|lg ?h)\b/, 'log_exposure'],
  [/^(bath|toner).*(min|time)/, 'bath_minutes'],
  [/^(bath|toner).*(°|temp|celsius)/, 'bath_celsius'],
  [/^(min|minutes?|time|dev.*(time|min).*)( ?[([].*)?$/, 'minutes'],
  [/^(°? ?c|celsius|temp.*)$/, 'celsius'],
  [/^(strip|film|name|sample|id)([ _-]?(name|no\.?|id))?$/, 'strip'],
  [/^(material|kind)$/, 'material'],
  [/^(channel|colou?r|filter)$/, 'channel'],
  [/^(treatment|toner|bath)$/, 'treatment'],
  [/^(dilution|water|parts[ _-]?(of[ _-]?)?water)$/, 'parts_water'],
  [/^(date|day|processed.*)$/, 'processed_on'],
  [/^control$/, 'control'],
  [/^(setting|grade)$/, 'setting'],
  [/^soft\b/, 'soft_seconds'],
  [/^hard\b/, 'hard_seconds'],
  [/^(density|reading|read|d|dens|net|od)[ _-]*\d*( ?[([].*)?$/, 'density'],
];

/**
 * What the columns of a table most likely hold, for the user to correct.
 *
 * @returns one role for each column, from its name, else from its numbers
 */
export function guessRoles({ heads, rows }: RawTable): ColumnRole[] {
  const width = Math.max(0, heads.length, ...rows.map((row) => row.length));
  const taken = new Set<ColumnRole>();
  const roles = Array.from({ length: width }, (_, column): ColumnRole | null => {
    const head = (heads[column] ?? '').trim().toLowerCase();
    const role = head === '' ? undefined : NAMES.find(([pattern]) => pattern.test(head))?.[1];
    if (role === undefined || (role !== 'density' && taken.has(role))) return null;
    taken.add(role);
    return role;
  });
  const numbers = (column: number) => rows.map((row) => numberOf(row[column] ?? ''));
  if (!taken.has('step')) {
    const step = roles.findIndex((role, column) => role === null && countsUp(numbers(column)));
    if (step >= 0) roles[step] = 'step';
  }
  // Densities that no name tells: each of several columns is most likely a strip of its own.
  const open = roles.flatMap((role, column) =>
    role === null && mostlyNumbers(numbers(column)) ? [column] : [],
  );
  if (!taken.has('density')) {
    for (const column of open) roles[column] = open.length === 1 ? 'density' : 'strip_density';
  }
  return roles.map((role) => role ?? 'ignored');
}

/** @returns why these roles make no readings, or null where they do */
export function rolesFault(roles: readonly ColumnRole[]): RolesFault | null {
  const has = (role: ColumnRole) => roles.includes(role);
  if (!has('density') && !has('strip_density')) return 'no-density';
  if (has('density') && has('strip_density')) return 'both-densities';
  if (!has('step') && !has('tablet_density') && !has('log_exposure')) return 'no-exposure';
  const single = roles.filter((role) => role !== 'ignored' && !isDensity(role));
  return new Set(single).size < single.length ? 'twice' : null;
}

/**
 * Reads a table by its columns' roles. Several columns of density are replicates; several of
 * strips are a strip each, named by its column.
 *
 * @param roles - without a fault; see `rolesFault`
 * @throws {InputError} as `readReadings`; the row counts from the table's first
 */
export function readMatched(
  table: RawTable,
  roles: readonly ColumnRole[],
  options: { readonly file?: string } = {},
): ReadingsFile {
  const columns = roles.map((role, column) => ({ role, column }));
  const densities = columns.filter(({ role }) => isDensity(role));
  const perStrip = roles.includes('strip_density');
  const others = columns.filter(
    ({ role }) => role !== 'ignored' && !isDensity(role) && !(perStrip && role === 'strip'),
  );
  const named = roles.indexOf('strip');
  const headers = [...others.map(({ role }) => role), ...(perStrip ? ['strip'] : []), 'density'];
  const firstRow = table.heads.length > 0 ? 2 : 1;
  const lines: string[][] = [headers];
  /** Row of the table for each line written, by its number from 1. */
  const rowOf: number[] = [0, firstRow - 1];
  table.rows.forEach((cells, index) => {
    const cell = (column: number) => (cells[column] ?? '').replaceAll(/\s+/g, ' ').trim();
    for (const { column } of densities) {
      const head = table.heads[column]?.trim() ?? '';
      const own = head === '' ? String(column + 1) : head;
      const strip = named < 0 || cell(named) === '' ? own : `${cell(named)} ${own}`;
      const fixed = others.map((other) => cell(other.column));
      lines.push([...fixed, ...(perStrip ? [strip] : []), cell(column)]);
      rowOf.push(firstRow + index);
    }
  });
  try {
    return readReadings(tsvFormatRows(lines), { ...options, stepsSuffice: true });
  } catch (error) {
    if (!(error instanceof InputError) || error.place.row === undefined) throw error;
    const place = { ...error.place, row: rowOf[error.place.row] ?? error.place.row };
    throw new InputError(error.code, place, error.fault, error.remedy);
  }
}

const isDensity = (role: ColumnRole): boolean => role === 'density' || role === 'strip_density';

function numberOf(cell: string): number | null {
  const text = cell.trim().replace('−', '-').replace(',', '.');
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : null;
}

const mostlyNumbers = (values: readonly (number | null)[]): boolean =>
  values.length > 0 && values.filter((value) => value !== null).length > values.length / 2;

/** Whole numbers that go on by one, also where each comes several times or they begin anew. */
function countsUp(values: readonly (number | null)[]): boolean {
  const [first, ...rest] = values;
  if (rest.length === 0 || !values.every((value) => value !== null && Number.isInteger(value))) {
    return false;
  }
  const steps = rest.map((value, i) => Number(value) - Number(values[i]));
  return (
    steps.some((step) => step === 1) &&
    steps.every((step, i) => step === 0 || step === 1 || rest[i] === first)
  );
}
