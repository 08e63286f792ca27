/**
 * The data section of a CGATS.17 table while it is read: numbers, row by row, of each density column,
 * and the strips that they are in the end.
 */
import { DENSITY_LIMITS } from '@wedgebook/core';
import type { Channel } from '../../document/document.ts';
import type { Place } from '../../notebook-error.ts';
import { inputFault } from '../../wording/input-fault.ts';
import { listingWarnings } from '../listing-warnings.ts';
import { numberFromCell } from '../number-from-cell.ts';
import { PackedReadings } from '../packed-readings.ts';
import type { ReadingsStrip } from '../readings-strip.ts';
import {
  CONTROL_KEYWORD,
  DENSITY_COLUMNS,
  LOG_EXPOSURE_COLUMN,
  MAJOR_FILTER_COLUMN,
  STEP_COLUMN,
  type STRIP_KEYWORDS,
  TABLET_DENSITY_COLUMN,
  UNEXPOSED_KEYWORD,
} from './cgats-names.ts';
import type { CgatsToken } from './cgats-tokens.ts';

type Limits = readonly [number, number];
const DENSITIES: Limits = [DENSITY_LIMITS.lowest, DENSITY_LIMITS.highest];
const LOG_EXPOSURES: Limits = [-12, 12];

export interface TableDraft {
  /** Takes the words of any line; a row may go over several, as the format is free. */
  readonly take: (token: CgatsToken) => void;
  /** @throws {InputError} where the last row is short */
  readonly end: () => { readonly strips: ReadingsStrip[]; readonly rows: number };
}

/**
 * @param header - keywords and values that stood before the data
 * @param columns - of the data format, upper case
 * @param number - of the table in the file, for want of a name
 * @param line - on which the data begin
 * @throws {InputError} where there is no density column
 */
export function tableDraft(
  header: ReadonlyMap<string, string>,
  columns: readonly string[],
  number: string,
  line: number,
  place: Place,
): TableDraft {
  const channels = channelsOf(columns, { ...place, row: line });
  const packed = channels.map(() => new PackedReadings());
  const [stepAt, tabletAt, exposureAt] = [
    STEP_COLUMN,
    TABLET_DENSITY_COLUMN,
    LOG_EXPOSURE_COLUMN,
  ].map((name) => columns.indexOf(name)) as [number, number, number];
  let row: CgatsToken[] = [];
  let rows = 0;
  // Names that are no step numbers, and no exposures either: the rows are the steps, in their order.
  let stepsCounted = false;
  const hasExposures = tabletAt >= 0 || exposureAt >= 0;
  let firstRow = line;
  let lastRow = line;

  const value = (column: number, limits: Limits): number | null => {
    const token = row[column];
    if (column < 0 || token === undefined) return null;
    const at = { ...place, row: token.line, column: columns[column] ?? '' };
    return within(
      numberFromCell(token.text, true, () => at),
      limits,
      at,
    );
  };

  const takeRow = (): void => {
    const step = Number(row[stepAt]?.text ?? NaN);
    lastRow = row[0]?.line ?? line;
    if (rows === 0) firstRow = lastRow;
    rows += 1;
    if (!hasExposures && !(step > 0)) stepsCounted = true;
    const exposure = {
      step: Number.isFinite(step) ? step : null,
      tabletDensity: value(tabletAt, DENSITIES),
      logExposure: value(exposureAt, LOG_EXPOSURES),
    };
    channels.forEach(([, column], index) => {
      packed[index]?.push({ ...exposure, density: value(column, DENSITIES), row: lastRow });
    });
    row = [];
  };

  return {
    take: (token) => {
      row.push(token);
      if (row.length === columns.length) takeRow();
    },
    end: () => {
      const [first] = row;
      if (first !== undefined) {
        throw inputFault.cgatsRow({ ...place, row: first.line }, row.length, columns.length);
      }
      const described = describedBy(header, number);
      const unexposedDensities = unexposedOf(header, place);
      const strips = channels.map(([channel], index): ReadingsStrip => {
        const read = packed[index] ?? new PackedReadings();
        const readings = stepsCounted ? counted(read) : read;
        const strip = { ...described, channel, unexposedDensities, unread: 0, firstRow, lastRow };
        return {
          ...strip,
          warnings: listingWarnings({ ...strip, readings: readings.unpacked() }),
          get readings() {
            return readings.unpacked();
          },
        };
      });
      return { strips, rows };
    },
  };
}

/** The readings with their places as steps. */
function counted(read: PackedReadings): PackedReadings {
  const readings = new PackedReadings();
  read.unpacked().forEach((reading, index) => {
    readings.push({ ...reading, step: index + 1 });
  });
  return readings;
}

/** The density columns; that of the filter that responds most only where no channel is named. */
function channelsOf(
  columns: readonly string[],
  place: Place,
): readonly (readonly [Channel | null, number])[] {
  const channels = Object.entries(DENSITY_COLUMNS)
    .map(([channel, name]) => [channel as Channel, columns.indexOf(name)] as const)
    .filter(([, at]) => at >= 0);
  if (channels.length > 0) return channels;
  const major = columns.indexOf(MAJOR_FILTER_COLUMN);
  if (major >= 0) return [[null, major]];
  throw inputFault.missingColumn(place, [...Object.values(DENSITY_COLUMNS), MAJOR_FILTER_COLUMN]);
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
    ...(header.has('SETTING') && { setting: header.get('SETTING') ?? null }),
    ...((header.has('SOFT_SECONDS') || header.has('HARD_SECONDS')) && {
      softSeconds: figure('SOFT_SECONDS'),
      hardSeconds: figure('HARD_SECONDS'),
    }),
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

function within(value: number, [lowest, highest]: Limits, at: Place): number {
  if (!(value >= lowest && value <= highest)) {
    throw inputFault.outOfRange(at, value, lowest, highest);
  }
  return value;
}
