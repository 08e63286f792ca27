/**
 * Strips as a file of readings.
 *
 * Sources: [RFC4180]. Deviations: with semicolons a decimal comma can be written.
 */
import { dsvFormat } from 'd3-dsv';
import { READINGS_COLUMNS, type ReadingsColumn } from './readings-columns.ts';
import type { ReadingsStrip, StepReading } from './readings-strip.ts';

export interface WriteOptions {
  readonly delimiter?: ',' | ';' | '\t';
  /** Write decimal commas; not between commas. */
  readonly decimalComma?: boolean;
}

/** Columns that are written though they may be empty throughout. */
const ALWAYS: ReadonlySet<string> = new Set(['strip', 'log_exposure', 'density']);

/**
 * A file of readings, strip by strip, once its columns are known.
 *
 * @param columns - as `columnsFor` gives them
 * @returns the header, and the rows of each strip; lines end by CRLF, numbers are written in full
 */
export function readingsWriter(
  columns: readonly ReadingsColumn[],
  { delimiter = ',', decimalComma = false }: WriteOptions = {},
): { readonly header: string; readonly rows: (strip: ReadingsStrip) => string } {
  const format = dsvFormat(delimiter);
  const line = (row: readonly string[]): string => `${format.formatRow([...row])}\r\n`;
  const text = (value: string | number | null | undefined): string => {
    if (typeof value === 'number' && decimalComma && delimiter !== ',') {
      return String(value).replace('.', ',');
    }
    return String(value ?? '');
  };
  return {
    header: line(columns),
    rows: (strip) =>
      rowsOf(strip)
        .map((row) => line(columns.map((column) => text(row[column]))))
        .join(''),
  };
}

/**
 * Columns of a file of strips, gathered strip by strip: those that would be empty throughout are left
 * out, `strip`, `log_exposure` and `density` never.
 */
export function columnsFor(): {
  readonly add: (strip: ReadingsStrip) => void;
  readonly columns: () => readonly ReadingsColumn[];
} {
  const filled = new Set(ALWAYS);
  return {
    add: (strip) => {
      const open = READINGS_COLUMNS.filter((column) => !filled.has(column));
      for (const row of rowsOf(strip)) {
        for (const column of open) if ((row[column] ?? null) !== null) filled.add(column);
      }
    },
    columns: () => READINGS_COLUMNS.filter((column) => filled.has(column)),
  };
}

/**
 * @param strips - as read; unread steps become rows with an empty density
 * @returns text with a header
 */
export function writeReadings(
  strips: readonly ReadingsStrip[],
  options: WriteOptions = {},
): string {
  const found = columnsFor();
  strips.forEach(found.add);
  const writer = readingsWriter(found.columns(), options);
  return [writer.header, ...strips.map(writer.rows)].join('');
}

type Cells = Partial<Record<ReadingsColumn, string | number | null>>;

function rowsOf(strip: ReadingsStrip): Cells[] {
  return [
    ...strip.readings.map((reading) => cells(strip, reading)),
    ...strip.unexposedDensities.map((density) => cells(strip, { density })),
  ];
}

function cells(strip: ReadingsStrip, reading: Partial<StepReading>): Cells {
  return {
    strip: strip.name,
    material: strip.material,
    step: reading.step ?? null,
    tablet_density: reading.tabletDensity ?? null,
    log_exposure: reading.logExposure ?? null,
    density: reading.density ?? null,
    channel: strip.channel,
    minutes: strip.minutes,
    celsius: strip.celsius,
    treatment: strip.treatment,
    parts_water: strip.partsWater,
    bath_minutes: strip.bathMinutes,
    bath_celsius: strip.bathCelsius,
    processed_on: strip.processedOn ?? null,
    control: strip.control === true ? 'yes' : null,
    setting: strip.setting ?? null,
    soft_seconds: strip.softSeconds ?? null,
    hard_seconds: strip.hardSeconds ?? null,
  };
}
