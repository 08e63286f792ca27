/** The columns of a file of readings, and how a header is matched to them. */
import type { Place } from '../notebook-error.ts';
import { inputFault } from '../wording/input-fault.ts';

export const READINGS_COLUMNS = [
  'strip',
  'material',
  'step',
  'tablet_density',
  'log_exposure',
  'density',
  'channel',
  'minutes',
  'celsius',
  'treatment',
  'parts_water',
  'bath_minutes',
  'bath_celsius',
  'processed_on',
  'control',
  'setting',
  'soft_seconds',
  'hard_seconds',
] as const;
export type ReadingsColumn = (typeof READINGS_COLUMNS)[number];

const KNOWN: ReadonlySet<string> = new Set(READINGS_COLUMNS);

/** What a column may also be called. */
const ALIASES: Readonly<Record<string, ReadingsColumn>> = { date: 'processed_on' };

/** Lower case, with blanks and hyphens as underscores: "Tablet density" is `tablet_density`. */
const columnName = (field: string): string => {
  const name = field
    .trim()
    .toLowerCase()
    .replaceAll(/[\s-]+/g, '_');
  return ALIASES[name] ?? name;
};

/** @returns how many columns of a header are known */
export const recognisedColumns = (fields: readonly string[]): number =>
  fields.filter((field) => KNOWN.has(columnName(field))).length;

const isWord = (field: string): boolean => /^\s*\p{Letter}/u.test(field);

export interface ColumnMap {
  /** Index of each known column that is there. */
  readonly at: Readonly<Partial<Record<ReadingsColumn, number>>>;
  readonly ignored: readonly string[];
}

/**
 * @param stepsSuffice - whether a tablet is known, so that step numbers give the exposures
 * @throws {InputError} `no-header`, `missing-column`, `double-column`
 */
export function columnMap(
  fields: readonly string[],
  place: Place,
  stepsSuffice: boolean,
): ColumnMap {
  // Words that are no column names we know are still a header; figures are the first reading.
  if (recognisedColumns(fields) === 0 && !fields.every(isWord)) {
    throw inputFault.noHeader(place, ['strip', 'tablet_density', 'density']);
  }
  const at: Partial<Record<ReadingsColumn, number>> = {};
  const ignored: string[] = [];
  fields.forEach((field, index) => {
    const name = columnName(field);
    if (!KNOWN.has(name)) {
      if (field !== '') ignored.push(field);
      return;
    }
    const column = name as ReadingsColumn;
    if (at[column] !== undefined) throw inputFault.doubleColumn({ ...place, column });
    at[column] = index;
  });
  if (at.density === undefined) {
    throw inputFault.missingColumn(place, ['density'], ignored.length === 0 ? [] : fields);
  }
  if (at.tablet_density === undefined && at.log_exposure === undefined) {
    if (at.step === undefined || !stepsSuffice) {
      throw inputFault.missingColumn(
        place,
        ['log_exposure', 'tablet_density'],
        [],
        at.step === undefined
          ? 'Add one of the two'
          : 'Add one of the two, or name the tablet that the steps belong to',
      );
    }
  }
  return { at, ignored };
}
