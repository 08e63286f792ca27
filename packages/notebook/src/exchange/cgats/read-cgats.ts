/**
 * Strips from a CGATS.17 (ISO 28178) text file, read leniently: any header, any order of columns,
 * one table or several, one density column or several (each a strip of its own channel).
 *
 * Sources: [CGATS17]. Deviations: a decimal comma is read; a wrong NUMBER_OF_SETS is a warning.
 */
import { DENSITY_LIMITS, warning, type Warning } from '@wedgebook/core';
import type { Channel } from '../../document/document.ts';
import type { Place } from '../../notebook-error.ts';
import { inputFault } from '../../wording/input-fault.ts';
import { listingWarnings } from '../listing-warnings.ts';
import { numberFromCell } from '../number-from-cell.ts';
import type { ReadingsFile, ReadingsStrip, StepReading } from '../readings-strip.ts';
import {
  DENSITY_COLUMNS,
  LOG_EXPOSURE_COLUMN,
  MAJOR_FILTER_COLUMN,
  STEP_COLUMN,
  type STRIP_KEYWORDS,
  TABLET_DENSITY_COLUMN,
  CONTROL_KEYWORD,
  UNEXPOSED_KEYWORD,
} from './cgats-names.ts';
import { cgatsTokens, type CgatsToken } from './cgats-tokens.ts';

const DENSITIES = [DENSITY_LIMITS.lowest, DENSITY_LIMITS.highest] as const;

interface CgatsTable {
  readonly header: ReadonlyMap<string, string>;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly CgatsToken[])[];
  readonly line: number;
}

/** Whether a text is of this format: its data sections say so. */
export function isCgats(text: string): boolean {
  return /^\s*BEGIN_DATA_FORMAT\b/im.test(text);
}

/**
 * @param text - the whole file
 * @param file - names it in messages
 * @throws {InputError} where a section is missing, a row is short, or a value is no number
 */
export function readCgats(text: string, file?: string): ReadingsFile {
  const place: Place = file === undefined ? {} : { file };
  const warnings: Warning[] = [];
  const tables = tablesOf(cgatsTokens(text), place);
  const strips = tables.flatMap((table, index) => {
    const declared = Number(table.header.get('NUMBER_OF_SETS') ?? NaN);
    const found = table.rows.length;
    if (Number.isFinite(declared) && declared !== found) {
      warnings.push(warning('rows-miscounted', { declared, found }));
    }
    return stripsOfTable(table, String(index + 1), place);
  });
  if (strips.length === 0) throw inputFault.noRows(place);
  return { strips, columns: [...new Set(tables.flatMap(({ columns }) => columns))], warnings };
}

function tablesOf(tokens: readonly CgatsToken[], place: Place): CgatsTable[] {
  const tables: CgatsTable[] = [];
  let header = new Map<string, string>();
  let columns: readonly string[] = [];
  let at = 0;
  const section = (end: string): CgatsToken[] => {
    const begin = tokens[at];
    const stop = tokens.findIndex(({ text }, i) => i > at && text.toUpperCase() === end);
    if (stop < 0) {
      throw inputFault.cgatsIncomplete({ ...place, row: begin?.line ?? 1 }, end.slice(4));
    }
    const inside = tokens.slice(at + 1, stop);
    at = stop + 1;
    return inside;
  };
  for (let token = tokens[at]; token !== undefined; token = tokens[at]) {
    const key = token.text.toUpperCase();
    if (key === 'BEGIN_DATA_FORMAT') {
      columns = section('END_DATA_FORMAT').map(({ text }) => text.toUpperCase());
    } else if (key === 'BEGIN_DATA') {
      const { line } = token;
      if (columns.length === 0) {
        throw inputFault.cgatsIncomplete({ ...place, row: line }, 'DATA_FORMAT');
      }
      const rows = rowsOf(section('END_DATA'), columns.length, place);
      tables.push({ header, columns, rows, line });
      header = new Map();
      columns = [];
    } else {
      // KEY value, the value on the same line; a word alone is the type of the file.
      const value = tokens[at + 1];
      const hasValue = value?.line === token.line;
      if (hasValue && key !== 'KEYWORD' && key !== 'DATA_FORMAT_IDENTIFIER') {
        header.set(key, value.text);
      }
      at += 1;
      while (tokens[at]?.line === token.line) at += 1;
    }
  }
  if (tables.length === 0) throw inputFault.cgatsIncomplete(place, 'DATA');
  return tables;
}

function rowsOf(tokens: readonly CgatsToken[], width: number, place: Place): CgatsToken[][] {
  const rows: CgatsToken[][] = [];
  for (let i = 0; i < tokens.length; i += width) rows.push(tokens.slice(i, i + width));
  const last = rows.at(-1);
  if (last !== undefined && last.length < width) {
    throw inputFault.cgatsRow({ ...place, row: last[0]?.line ?? 1 }, last.length, width);
  }
  return rows;
}

function stripsOfTable(table: CgatsTable, number: string, place: Place): ReadingsStrip[] {
  const { header, columns, rows, line } = table;
  const channels: (readonly [Channel | null, number])[] = Object.entries(DENSITY_COLUMNS)
    .map(([channel, name]): [Channel | null, number] => [channel as Channel, columns.indexOf(name)])
    .filter(([, at]) => at >= 0);
  const major = columns.indexOf(MAJOR_FILTER_COLUMN);
  if (channels.length === 0 && major >= 0) channels.push([null, major]);
  if (channels.length === 0) {
    const names = [...Object.values(DENSITY_COLUMNS), MAJOR_FILTER_COLUMN];
    throw inputFault.missingColumn({ ...place, row: line }, names);
  }
  const value = (row: readonly CgatsToken[], column: number, limits: readonly [number, number]) => {
    const token = row[column];
    if (column < 0 || token === undefined) return null;
    const at = { ...place, row: token.line, column: columns[column] ?? '' };
    return within(
      numberFromCell(token.text, true, () => at),
      limits,
      at,
    );
  };
  return channels.map(([channel, column]) => {
    const readings = rows.map((row): StepReading => {
      const step = Number(row[columns.indexOf(STEP_COLUMN)]?.text ?? NaN);
      return {
        step: Number.isFinite(step) ? step : null,
        tabletDensity: value(row, columns.indexOf(TABLET_DENSITY_COLUMN), DENSITIES),
        logExposure: value(row, columns.indexOf(LOG_EXPOSURE_COLUMN), [-12, 12]),
        density: value(row, column, DENSITIES),
        row: row[0]?.line ?? line,
      };
    });
    const described = describedBy(header, number);
    const strip = {
      ...described,
      channel,
      readings,
      unexposedDensities: unexposedOf(header, place),
      unread: 0,
      firstRow: readings[0]?.row ?? line,
      lastRow: readings.at(-1)?.row ?? line,
    };
    return { ...strip, warnings: listingWarnings(strip) };
  });
}

/** What the private keywords tell; a file from elsewhere has none of them. */
function describedBy(
  header: ReadonlyMap<string, string>,
  number: string,
): Pick<ReadingsStrip, (typeof STRIP_KEYWORDS)[keyof typeof STRIP_KEYWORDS] | 'control'> {
  const figure = (keyword: string): number | null => {
    const written = header.get(keyword);
    const value = Number(written ?? NaN);
    return written === undefined || written === '' || !Number.isFinite(value) ? null : value;
  };
  const material = header.get('MATERIAL')?.toLowerCase();
  const treatment = header.get('TREATMENT')?.toLowerCase();
  return {
    name: header.get('STRIP') ?? header.get('FILE_DESCRIPTOR') ?? number,
    material: material === 'film' || material === 'paper' ? material : null,
    minutes: figure('DEVELOPMENT_MINUTES'),
    celsius: figure('DEVELOPMENT_CELSIUS'),
    treatment: treatment === undefined || treatment === 'none' ? null : treatment,
    partsWater: figure('PARTS_WATER'),
    bathMinutes: figure('BATH_MINUTES'),
    bathCelsius: figure('BATH_CELSIUS'),
    ...(header.has('PROCESSED_ON') && { processedOn: header.get('PROCESSED_ON') ?? null }),
    ...(header.get(CONTROL_KEYWORD)?.toLowerCase() === 'yes' && { control: true }),
  };
}

function unexposedOf(header: ReadonlyMap<string, string>, place: Place): number[] {
  return (header.get(UNEXPOSED_KEYWORD) ?? '')
    .split(/\s+/)
    .filter((word) => word !== '')
    .map((word) => {
      const at = { ...place, column: UNEXPOSED_KEYWORD };
      return within(
        numberFromCell(word, true, () => at),
        DENSITIES,
        at,
      );
    });
}

function within(value: number, [lowest, highest]: readonly [number, number], at: Place): number {
  if (!(value >= lowest && value <= highest)) {
    throw inputFault.outOfRange(at, value, lowest, highest);
  }
  return value;
}
