/**
 * Reads a block copied from a spreadsheet, a letter or a program: tabs, semicolons, commas or runs
 * of spaces between the cells, decimal point or comma, with or without a header row, steps down or
 * across. Nothing is guessed in silence: what each column was taken for is returned in words.
 */
import { parseNumber } from './parse-cell.ts';
import { countsUp, countsDown, stepsOf } from './row-names.ts';
import { withDecimalCommas } from './decimal-commas.ts';

/** What a column of the pasted block can hold. */
export const BLOCK_COLUMNS = [
  'step',
  'tablet-density',
  'log-exposure',
  'reading',
  'ignored',
] as const;
export type BlockColumn = (typeof BLOCK_COLUMNS)[number];

export interface PastedBlock {
  /** One entry per column. */
  readonly columns: readonly BlockColumn[];
  /** Heads as pasted, where there was a header row; empty otherwise. */
  readonly heads: readonly string[];
  /** Lines above the table that are no part of it, such as its title; empty where there are none. */
  readonly titles: readonly string[];
  /** Cells as pasted, row by row, header row removed. */
  readonly rows: readonly (readonly string[])[];
  readonly turned: boolean;
  /** Whether the steps run from the last to the first. */
  readonly reversed: boolean;
  /** Whether names or numbers leave no doubt what the columns are; else the user is asked. */
  readonly certain: boolean;
}

const HEADS: readonly (readonly [RegExp, BlockColumn])[] = [
  [/^(step|no\.?|nr\.?|n|#|field|patch|stufe|palier|paso)$/i, 'step'],
  [/^(tablet|wedge|keil|coin|cuña)([ _-]?(d|density|dichte))?$/i, 'tablet-density'],
  [/^(rel(ative)?[ .]*)?(log[ _-]?(exposure|h|e)|lg ?h)\b.*$/i, 'log-exposure'],
  [
    /^(density|reading|read|d|dens|net|transmittance|stops?|dichte|densité|densidad|densità)[ _-]*\d*(\s*\(.*\))?$/i,
    'reading',
  ],
];

/**
 * @param pasted - text from the clipboard
 * @param tablet - densities of the strip's tablet, to know its column again; null where unknown
 * @returns the block, or null where the text is a single cell
 */
export function parseBlock(pasted: string, tablet: readonly number[] | null): PastedBlock | null {
  const lines = pasted
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\r|\n/)
    .filter((line) => line.trim() !== '');
  const split = splitter(lines);
  const cut = lines.map((line) => split(line).map((cell) => unquoted(cell)));
  const joined = /[.;\t]/.test(pasted) ? null : withDecimalCommas(cut);
  let table = joined ?? cut;
  const titles = titlesOf(table);
  table = withoutEmptyEdges(table.slice(titles.length));
  const width = Math.max(0, ...table.map((row) => row.length));
  if (table.length <= 1 && width <= 1) return null;
  // Steps run down a sheet of readings: a block that is much wider than tall lies on its side.
  const turned =
    width > table.length && (table.length === 1 ? width > 3 : width >= 2 * table.length);
  if (turned) table = transposed(table, width);
  const heads = hasHeader(table) ? (table[0] ?? []) : [];
  const rows = heads.length > 0 ? table.slice(1) : table;
  const columns = columnsOf(rows, heads, tablet);
  // Commas that part columns and decimals alike leave a doubt, whatever the names say.
  const certain = joined === null && isCertain(columns, heads, rows);
  const reversed = countsDown(rows, columns.indexOf('step'));
  return { columns, heads, titles, rows, turned, reversed, certain };
}

/** Lines of words above the header row, or alone in their line above rows of several cells. */
function titlesOf(table: readonly (readonly string[])[]): string[] {
  const lines = table.map((row) => row.filter((cell) => cell !== ''));
  const first = lines.findIndex((cells) =>
    cells.some((cell) => parseNumber(cell).status === 'read'),
  );
  const above = lines.slice(0, Math.max(0, first));
  const hasNames = (above.at(-1) ?? []).some(isHead);
  const alone = above.findIndex((cells) => cells.length > 1);
  const wide = (lines[first] ?? []).length > 1;
  const count = hasNames ? above.length - 1 : !wide ? 0 : alone < 0 ? above.length : alone;
  return above.slice(0, count).map((cells) => cells.join(' '));
}

const isHead = (cell: string): boolean => HEADS.some(([pattern]) => pattern.test(cell));

/** Chooses the delimiter from the whole text. */
function splitter(lines: readonly string[]): (line: string) => string[] {
  const by = (delimiter: string | RegExp) => (line: string) => line.split(delimiter);
  if (lines.some((line) => line.includes('\t'))) return by('\t');
  if (lines.some((line) => line.includes(';'))) return by(';');
  if (lines.some((line) => line.includes(','))) {
    // A comma between cells, unless every comma can only be a decimal one.
    const numbers = lines.filter((line) => /\d/.test(line) && !/[a-z]/i.test(line));
    const spaced = numbers.every((line) =>
      line
        .trim()
        .split(/\s+/)
        .every((cell) => /^[+−-]?\d*,?\d+$/.test(cell)),
    );
    if (!spaced) return by(',');
  }
  return by(/\s{2,}|\s(?=[\d+.,−-])/);
}

const unquoted = (cell: string) =>
  cell
    .trim()
    .replace(/^"(.*)"$/, '$1')
    .replaceAll('""', '"')
    .trim();

/** Drops columns that are empty throughout at either side, as a careless selection leaves them. */
function withoutEmptyEdges(table: string[][]): string[][] {
  const used = (index: number) => table.some((row) => (row[index] ?? '') !== '');
  const width = Math.max(0, ...table.map((row) => row.length));
  let first = 0;
  let last = width;
  while (first < last && !used(first)) first += 1;
  while (last > first && !used(last - 1)) last -= 1;
  return table.map((row) => row.slice(first, last));
}

function transposed(table: readonly (readonly string[])[], width: number): string[][] {
  return Array.from({ length: width }, (_, column) => table.map((row) => row[column] ?? ''));
}

/** A header row holds words, and the row below it a number. */
function hasHeader(table: readonly (readonly string[])[]): boolean {
  const [first = [], second = []] = table;
  const words = first.filter((cell) => parseNumber(cell).status === 'wrong').length;
  const numbers = second.filter((cell) => parseNumber(cell).status === 'read').length;
  const named = first.some(isHead);
  return words > 0 && numbers > 0 && (named || words === first.filter((c) => c !== '').length);
}

function columnsOf(
  rows: readonly (readonly string[])[],
  heads: readonly string[],
  tablet: readonly number[] | null,
): BlockColumn[] {
  const width = Math.max(0, heads.length, ...rows.map((row) => row.length));
  const named = Array.from(
    { length: width },
    (_, index) => HEADS.find(([pattern]) => pattern.test(heads[index] ?? ''))?.[1],
  );
  const values = (index: number) =>
    rows.map((row) => {
      const cell = parseNumber(row[index] ?? '');
      return cell.status === 'read' ? cell.value : null;
    });
  const columns = named.map((name, index): BlockColumn => {
    if (name !== undefined) return name;
    if (heads.length > 0 && named.includes('reading')) return 'ignored';
    if (width > 1 && index === 0 && countsUp(stepsOf(rows))) return 'step';
    // A column of words beside numbers is a remark.
    const read = (at: number) => values(at).some((value) => value !== null);
    return read(index) || !named.some((_, other) => read(other)) ? 'reading' : 'ignored';
  });
  // A column that repeats the tablet is the tablet, whatever stands beside it.
  const readings = columns.filter((column) => column === 'reading').length;
  return columns.map((column, index) =>
    column === 'reading' && readings > 1 && tablet !== null && isTablet(values(index), tablet)
      ? 'tablet-density'
      : column,
  );
}

/** Mean difference of replicates, as a part of the range of the readings, that is no doubt yet. */
const LIKE_REPLICATES = 0.15;

/** Readings are known by their name, as the only column of numbers, or as like each other. */
function isCertain(
  columns: readonly BlockColumn[],
  heads: readonly string[],
  rows: PastedBlock['rows'],
): boolean {
  const single = columns.filter((column) => column !== 'reading' && column !== 'ignored');
  const readings = columns.flatMap((column, index) => (column === 'reading' ? [index] : []));
  const [first, ...others] = readings;
  if (first === undefined || new Set(single).size < single.length) return false;
  if (readings.some((index) => isReading(heads[index] ?? ''))) return true;
  const values = (index: number) =>
    rows.map((row) => {
      const cell = parseNumber(row[index] ?? '');
      return cell.status === 'read' ? cell.value : null;
    });
  const own = values(first);
  const known = own.filter((value) => value !== null);
  if (heads.length > 0 || known.length <= own.length / 2) return others.length === 0;
  const range = Math.max(...known) - Math.min(...known);
  return others.every((index) => {
    const differences = values(index).flatMap((value, row) => {
      const beside = own[row] ?? null;
      return value === null || beside === null ? [] : [Math.abs(value - beside)];
    });
    const sum = differences.reduce((total, each) => total + each, 0);
    return differences.length > 0 && sum <= LIKE_REPLICATES * range * differences.length;
  });
}

const isReading = (head: string): boolean =>
  HEADS.some(([pattern, column]) => column === 'reading' && pattern.test(head));

function isTablet(values: readonly (number | null)[], tablet: readonly number[]): boolean {
  // A row of base + fog, or a step that was left out, has no density of the tablet.
  if (values.filter((value) => value !== null).length < 4) return false;
  const near = (densities: readonly number[]) =>
    values.every((value, index) => {
      const density = densities[index];
      return value === null || (density !== undefined && Math.abs(value - density) <= 0.02);
    });
  return near(tablet) || near(tablet.toReversed());
}
