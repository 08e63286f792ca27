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

/**
 * @param strips - as read; unread steps become rows with an empty density
 * @returns text with a header and CRLF line ends, numbers in full; columns that would be empty
 * throughout are left out, `strip` and `density` never
 */
export function writeReadings(
  strips: readonly ReadingsStrip[],
  options: WriteOptions = {},
): string {
  const { delimiter = ',', decimalComma = false } = options;
  const rows = strips.flatMap((strip) => [
    ...strip.readings.map((reading) => cells(strip, reading)),
    ...strip.unexposedDensities.map((density) => cells(strip, { density })),
  ]);
  const columns = READINGS_COLUMNS.filter(
    (column) =>
      ['strip', 'log_exposure', 'density'].includes(column) ||
      rows.some((row) => (row[column] ?? null) !== null),
  );
  const text = (value: string | number | null | undefined): string => {
    if (typeof value === 'number' && decimalComma && delimiter !== ',') {
      return String(value).replace('.', ',');
    }
    return String(value ?? '');
  };
  const table = rows.map((row) => columns.map((column) => text(row[column])));
  const format = dsvFormat(delimiter);
  return [[...columns], ...table].map((row) => `${format.formatRow(row)}\r\n`).join('');
}

type Cells = Partial<Record<ReadingsColumn, string | number | null>>;

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
