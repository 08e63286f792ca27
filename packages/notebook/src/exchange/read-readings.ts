/**
 * Strips from a file of readings: one row a reading, a header row, columns by name.
 *
 * Rows of one strip and step are replicates; a row with a density but neither log exposure nor
 * tablet density is an unexposed reading; a row without a density is an unread step. Rows belong
 * to one strip where name, channel, development and treatment agree.
 */
import { DENSITY_LIMITS, warning } from '@wedgebook/core';
import type { Channel } from '../document/document.ts';
import type { Place } from '../notebook-error.ts';
import { inputFault } from '../wording/input-fault.ts';
import {
  columnMap,
  recognisedColumns,
  type ColumnMap,
  type ReadingsColumn,
} from './readings-columns.ts';
import { numberFromCell } from './number-from-cell.ts';
import { PackedReadings } from './packed-readings.ts';
import type { ReadingsFile, ReadingsStrip } from './readings-strip.ts';
import { recordReader, type RecordReader } from './record-reader.ts';
import { listingWarnings } from './listing-warnings.ts';

export interface ReadOptions {
  /** Names the file in messages. */
  readonly file?: string;
  /** Whether a tablet is known, so that step numbers alone give the exposures. */
  readonly stepsSuffice?: boolean;
}

/** How strips are handed on before the file has ended. */
export interface StreamOptions {
  /** Called once for each strip, as soon as it has ended; `end` then returns none. */
  readonly onStrip: (strip: ReadingsStrip) => void;
  /** A strip has ended when readings of so many others have come since its own. */
  readonly openStrips?: number;
}

/** A stream holds so few strips that its text may be long: forty million readings or so. */
const MOST_STREAMED = 2_000_000_000;
const OPEN_STRIPS = 64;

type Mutable<T> = { -readonly [K in keyof T]: T[K] };
interface Draft extends Omit<
  Mutable<ReadingsStrip>,
  'readings' | 'unexposedDensities' | 'warnings'
> {
  readonly packed: PackedReadings;
  readonly unexposedDensities: number[];
  /** Rows that have a step but no exposure: a tablet shorter than the readings, perhaps. */
  readonly stepsUnexposed: { readonly step: number; readonly row: number }[];
}
/** What a row leaves out is as in the row before of the same name. */
type Lasting = Pick<
  ReadingsStrip,
  | 'name'
  | 'material'
  | 'channel'
  | 'minutes'
  | 'celsius'
  | 'processedOn'
  | 'control'
  | 'setting'
  | 'softSeconds'
  | 'hardSeconds'
>;

const CHANNELS = ['visual', 'blue', 'green', 'red', 'ultraviolet'] as const;
const MATERIALS = ['film', 'paper'] as const;
/** Accepted ranges of the columns; outside them a slip of the pen is certain. */
const RANGES = {
  step: [0, 10_000],
  tablet_density: [DENSITY_LIMITS.lowest, DENSITY_LIMITS.highest],
  density: [DENSITY_LIMITS.lowest, DENSITY_LIMITS.highest],
  log_exposure: [-12, 12],
  minutes: [0, 10_000],
  celsius: [-20, 100],
  parts_water: [0, 10_000],
  bath_minutes: [0, 10_000],
  bath_celsius: [-20, 100],
  soft_seconds: [0, 100_000],
  hard_seconds: [0, 100_000],
} as const satisfies Partial<Record<ReadingsColumn, readonly [number, number]>>;
type NumberColumn = keyof typeof RANGES;
/** Columns that tell the readings of a strip apart; the others tell strips apart. */
const OF_THE_READING: ReadonlySet<string> = new Set<ReadingsColumn>([
  'step',
  'tablet_density',
  'log_exposure',
  'density',
]);

/**
 * A reader that is fed with pieces of text and holds only the readings, not the text; with
 * `stream`, only those of a few strips.
 *
 * @throws {InputError} from `push` or `end`, with file, row, column and remedy
 */
export function readingsReader(
  options: ReadOptions = {},
  stream?: StreamOptions,
): {
  readonly push: (text: string) => void;
  readonly end: () => ReadingsFile;
} {
  const place: Place = options.file === undefined ? {} : { file: options.file };
  const drafts = new Map<string, Draft>();
  const lastOfName = new Map<string, Lasting>();
  const { onStrip, openStrips = OPEN_STRIPS } = stream ?? {};
  const closed = new Set<string>();
  let current: Draft | undefined;
  let read = false;
  let map: ColumnMap = { at: {}, ignored: [] };
  let width = 0;
  let decimalComma = false;
  let commas = false;

  const closeOldest = (): void => {
    const [oldest] = drafts;
    if (oldest === undefined || drafts.size <= openStrips) return;
    const [key, draft] = oldest;
    drafts.delete(key);
    closed.add(key);
    onStrip?.(stripOf(draft));
  };

  // The row at hand; the functions below read it, as making them anew for each row takes longer
  // than reading its numbers.
  let fields: readonly string[] = [];
  let row = 0;
  const cell = (column: ReadingsColumn): string => {
    const index = map.at[column];
    return index === undefined ? '' : (fields[index] ?? '');
  };
  const number = (column: NumberColumn, text = cell(column)): number | null => {
    if (text === '') return null;
    const value = numberFromCell(text, decimalComma, () => ({ ...place, row, column }));
    const [lowest, highest] = RANGES[column];
    if (!(value >= lowest && value <= highest)) {
      throw inputFault.outOfRange({ ...place, row, column }, value, lowest, highest);
    }
    return value;
  };
  const word = <T extends string>(column: ReadingsColumn, names: readonly T[]): T | null => {
    const text = cell(column).toLowerCase();
    if (text === '') return null;
    const name = names.find((candidate) => candidate === text);
    if (name === undefined) {
      throw inputFault.notAName({ ...place, row, column }, cell(column), names);
    }
    return name;
  };

  /** The strip that the row at hand belongs to. */
  const draftOfRow = (): Draft => {
    const name = map.at.strip === undefined ? '1' : cell('strip');
    if (name === '') throw inputFault.noStripName({ ...place, row, column: 'strip' });
    const treatmentText = cell('treatment').toLowerCase();
    const treatment = treatmentText === '' || treatmentText === 'none' ? null : treatmentText;
    const before = lastOfName.get(name);
    const described = {
      name,
      material: word('material', MATERIALS) ?? before?.material ?? null,
      channel: word<Channel>('channel', CHANNELS) ?? before?.channel ?? null,
      minutes: number('minutes') ?? before?.minutes ?? null,
      celsius: number('celsius') ?? before?.celsius ?? null,
      treatment,
      partsWater: number('parts_water', partsText(cell('parts_water'), { ...place, row })),
      bathMinutes: number('bath_minutes'),
      bathCelsius: number('bath_celsius'),
      processedOn: dayFrom(cell('processed_on'), { ...place, row }) ?? before?.processedOn ?? null,
      control:
        (word('control', ['yes', 'no']) ?? (before?.control === true ? 'yes' : 'no')) === 'yes',
      ...printedAt(
        cell('setting') || (before?.setting ?? null),
        number('soft_seconds') ?? before?.softSeconds ?? null,
        number('hard_seconds') ?? before?.hardSeconds ?? null,
      ),
    };
    const key = Object.values(described).join('\u0000');
    let draft = drafts.get(key);
    if (draft === undefined) {
      if (closed.has(key)) throw inputFault.stripGoesOn({ ...place, row }, name);
      draft = {
        ...described,
        // A part of the key: the name itself would hold on to the piece of text it was cut from.
        name: key.slice(0, name.length),
        packed: new PackedReadings(),
        unexposedDensities: [],
        stepsUnexposed: [],
        unread: 0,
        firstRow: row,
        lastRow: row,
      };
      drafts.set(key, draft);
    }
    if (draft !== current) {
      lastOfName.set(draft.name, { ...described, name: draft.name });
      if (onStrip !== undefined) {
        // The strip that was read longest ago stands first.
        drafts.delete(key);
        drafts.set(key, draft);
        closeOldest();
      }
      current = draft;
    }
    return draft;
  };

  /** Columns that say which strip a row belongs to, and what the row before had there. */
  let describing: readonly number[] = [];
  let rowBefore: readonly string[] | null = null;
  const isAsBefore = (): boolean => {
    if (rowBefore === null) return false;
    for (const index of describing) if (fields[index] !== rowBefore[index]) return false;
    return true;
  };

  const readRecord = (given: readonly string[], at: number): void => {
    fields = given;
    row = at;
    if (fields.length > width && fields.slice(width).some((field) => field !== '')) {
      throw inputFault.extraFields({ ...place, row }, fields.length, width, commas);
    }
    // What is the same text is the same strip, without being read again.
    const draft = current !== undefined && isAsBefore() ? current : draftOfRow();
    rowBefore = fields;
    read = true;
    draft.lastRow = row;

    const step = number('step');
    const tabletDensity = number('tablet_density');
    const logExposure = number('log_exposure');
    const density = number('density');
    const exposed =
      tabletDensity !== null ||
      logExposure !== null ||
      (options.stepsSuffice === true && step !== null && step > 0);
    if (density === null) draft.unread += 1;
    if (exposed) draft.packed.push({ step, tabletDensity, logExposure, density, row });
    else if (density !== null) {
      draft.unexposedDensities.push(density);
      if (step !== null && step > 0) draft.stepsUnexposed.push({ step, row });
    }
  };

  const records: RecordReader = recordReader(
    {
      score: recognisedColumns,
      header: (fields, row, delimiter) => {
        map = columnMap(fields, { ...place, row }, options.stepsSuffice === true);
        width = fields.length;
        describing = Object.entries(map.at).flatMap(([column, index]) =>
          OF_THE_READING.has(column) ? [] : [index],
        );
        commas = delimiter === ',';
        decimalComma = !commas;
      },
      record: readRecord,
    },
    place,
    stream === undefined ? undefined : MOST_STREAMED,
  );

  return {
    push: records.push,
    end: () => {
      records.end();
      if (!read) throw inputFault.noRows(place);
      // In the order of the file, though the one that was read last stands last.
      const strips = [...drafts.values()].toSorted((a, b) => a.firstRow - b.firstRow).map(stripOf);
      drafts.clear();
      if (onStrip !== undefined) strips.splice(0).forEach(onStrip);
      return {
        strips,
        columns: Object.keys(map.at),
        warnings:
          map.ignored.length === 0
            ? []
            : [warning('columns-ignored', { columns: map.ignored.join(', ') })],
      };
    },
  };
}

/** The strip of a draft; its readings are unpacked when they are asked for. */
function stripOf({ stepsUnexposed, packed, ...draft }: Draft): ReadingsStrip {
  const odd = stepsUnexposed.map((row) => warning('unexposed-step', row));
  const warnings = [...listingWarnings({ ...draft, readings: packed.unpacked() }), ...odd];
  return {
    ...draft,
    warnings,
    get readings() {
      return packed.unpacked();
    },
  };
}

/**
 * Reads a whole text at once.
 *
 * @throws {InputError} as `readingsReader`
 */
export function readReadings(text: string, options: ReadOptions = {}): ReadingsFile {
  const reader = readingsReader(options);
  reader.push(text);
  return reader.end();
}

/** A day as YYYY-MM-DD; null for an empty cell. */
function dayFrom(text: string, place: Place): string | null {
  if (text === '') return null;
  const at = /^\d{4}-\d{2}-\d{2}$/.test(text) ? Date.parse(`${text}T00:00:00Z`) : NaN;
  // 30 February would be taken for 1 March.
  if (!Number.isFinite(at) || new Date(at).toISOString().slice(0, 10) !== text) {
    throw inputFault.notADay({ ...place, column: 'processed_on' }, text);
  }
  return text;
}

/** Parts of water: `3` and `1+3` are alike; `1:3` is not clear. */
function partsText(text: string, place: Place): string {
  if (/^1\s*[:/]/.test(text)) {
    throw inputFault.dilution({ ...place, column: 'parts_water' }, text);
  }
  return text.replace(/^1\s*\+\s*/, '');
}

/** How a paper strip was printed; nothing at all where the file does not say. */
function printedAt(
  setting: string | null,
  softSeconds: number | null,
  hardSeconds: number | null,
): Pick<ReadingsStrip, 'setting' | 'softSeconds' | 'hardSeconds'> {
  return {
    ...(setting !== null && { setting }),
    ...((softSeconds !== null || hardSeconds !== null) && { softSeconds, hardSeconds }),
  };
}
