/** Files of readings and tables, read piece by piece. */
import { warning, type Warning } from '@wedgebook/core';
import {
  cgatsReader,
  inputFault,
  isCgats,
  notebookFromText,
  numberFromCell,
  readingsReader,
  recordReader,
  stripsFromDocument,
  type NotebookDocument,
  type ReadingsFile,
  type ReadingsStrip,
  type ReadOptions,
} from '@wedgebook/notebook';
import type { CommandIo } from '../io.ts';

/** How a file is named in messages. */
export const fileName = (file: string): string => (file === '-' ? 'standard input' : file);

/** What a file holds, by its content, whatever its name. */
export type Source =
  | {
      readonly kind: 'notebook';
      readonly document: NotebookDocument;
      readonly warnings: readonly Warning[];
    }
  | { readonly kind: 'readings'; readonly readings: ReadingsFile };

/**
 * Reads CSV and CGATS.17 piece by piece, a notebook as a whole.
 *
 * @throws {InputError} with file, row, column and remedy
 */
export async function readSource(
  file: string,
  io: CommandIo,
  options: Omit<ReadOptions, 'file'> = {},
): Promise<Source> {
  const name = fileName(file);
  const feeding = fed(file, io, (isExchange) =>
    isExchange ? cgatsReader(name) : readingsReader({ ...options, file: name }),
  );
  let step = await feeding.next();
  while (step.done !== true) step = await feeding.next();
  const read = step.value;
  return typeof read === 'string'
    ? notebookOf(read, name)
    : { kind: 'readings', readings: read.end() };
}

interface Reader {
  readonly push: (text: string) => void;
  readonly end: () => ReadingsFile;
}

/**
 * Feeds a reader with the pieces of a file, pausing after each.
 *
 * @param open - gives the reader for CGATS.17, or for CSV
 * @returns the reader, to be ended; or the whole text of a notebook
 */
async function* fed(
  file: string,
  io: CommandIo,
  open: (isExchange: boolean) => Reader,
): AsyncGenerator<undefined, Reader | string> {
  let reader: Reader | null = null;
  let whole: string | null = null;
  for await (const text of io.readText(file)) {
    if (whole === null && reader === null && text !== '') {
      if (isNotebook(text)) whole = '';
      else reader = open(isCgats(text));
    }
    if (whole !== null) whole += text;
    reader?.push(text);
    yield;
  }
  return whole ?? reader ?? open(false);
}

function notebookOf(whole: string, name: string): Source {
  const { document, mended } = notebookFromText(whole, { file: name });
  const warnings = mended.map(({ path, id }) => warning('reference-mended', { path, id }));
  return { kind: 'notebook', document, warnings };
}

/**
 * The strips of a file one by one, each as soon as it has ended.
 *
 * @param onWarnings - told at the end what concerns the file as a whole
 * @param ofNotebook - the strips of a notebook; for measuring them unless given
 * @throws {InputError} as `readSource`; also where a strip goes on after it has ended
 */
export async function* streamStrips(
  file: string,
  io: CommandIo,
  options: Omit<ReadOptions, 'file'>,
  onWarnings: (warnings: readonly Warning[]) => void,
  ofNotebook: (
    source: Source,
    file: string,
  ) => Pick<ReadingsFile, 'strips' | 'warnings'> = readingsOf,
): AsyncGenerator<ReadingsStrip> {
  const name = fileName(file);
  const ended: ReadingsStrip[] = [];
  const onStrip = (strip: ReadingsStrip) => ended.push(strip);
  const feeding = fed(file, io, (isExchange) =>
    isExchange
      ? cgatsReader(name, onStrip)
      : readingsReader({ ...options, file: name }, { onStrip }),
  );
  let step = await feeding.next();
  while (step.done !== true) {
    yield* ended.splice(0);
    step = await feeding.next();
  }
  if (typeof step.value !== 'string') {
    const { warnings } = step.value.end();
    yield* ended.splice(0);
    onWarnings(warnings);
    return;
  }
  const { strips, warnings } = ofNotebook(notebookOf(step.value, name), name);
  yield* strips;
  onWarnings(warnings);
}

/**
 * The strips of a file, from whatever holds them.
 *
 * @throws {InputError} as `readSource`
 */
export async function readReadingsFile(
  file: string,
  io: CommandIo,
  options: Omit<ReadOptions, 'file'> = {},
): Promise<ReadingsFile> {
  return readingsOf(await readSource(file, io, options), file);
}

/**
 * The strips of a source.
 *
 * @throws {InputError} where a notebook holds none
 */
export function readingsOf(source: Source, file: string): ReadingsFile {
  if (source.kind === 'readings') return source.readings;
  const { strips, warnings } = stripsFromDocument(source.document);
  if (strips.length === 0) throw inputFault.noRows({ file: fileName(file) });
  // That the rest of the notebook plays no part is plain here.
  const told = warnings.filter(({ code }) => code !== 'strips-alone-exchanged');
  return { strips, columns: [], warnings: [...source.warnings, ...told] };
}

const isNotebook = (text: string): boolean => /^\uFEFF?\s*\{/.test(text);

export interface ColumnsOfNumbers {
  /** One list for each column that was asked for, row by row. */
  readonly columns: readonly (readonly number[])[];
  /** Row of the file for each entry of the columns. */
  readonly rows: readonly number[];
  /** Rows left out because a cell was empty. */
  readonly incomplete: number;
}

/**
 * Columns of numbers from any table with a header.
 *
 * @param names - columns, matched without regard to case
 * @throws {InputError} as `readReadingsFile`
 */
export async function readColumns(
  file: string,
  names: readonly string[],
  io: CommandIo,
): Promise<ColumnsOfNumbers> {
  const place = { file: fileName(file) };
  const wanted = names.map((name) => name.trim().toLowerCase());
  const columns: number[][] = names.map(() => []);
  const rows: number[] = [];
  let at: readonly number[] = [];
  let width = 0;
  let commas = true;
  let incomplete = 0;
  const reader = recordReader(
    {
      score: (fields) => fields.filter((field) => wanted.includes(field.toLowerCase())).length,
      header: (fields, row, delimiter) => {
        const header = fields.map((field) => field.toLowerCase());
        at = wanted.map((name, index) => {
          const found = header.indexOf(name);
          if (found < 0) {
            throw inputFault.missingColumn({ ...place, row }, [names[index] ?? name], fields);
          }
          return found;
        });
        width = fields.length;
        commas = delimiter === ',';
      },
      record: (fields, row) => {
        if (fields.length > width && fields.slice(width).some((field) => field !== '')) {
          throw inputFault.extraFields({ ...place, row }, fields.length, width, commas);
        }
        const cells = at.map((index) => fields[index] ?? '');
        const numbers = cells.map((cell, index) =>
          cell === ''
            ? null
            : numberFromCell(cell, !commas, () => ({ ...place, row, column: names[index] ?? '' })),
        );
        if (numbers.includes(null)) {
          incomplete += 1;
          return;
        }
        rows.push(row);
        numbers.forEach((value, index) => {
          if (value !== null) columns[index]?.push(value);
        });
      },
    },
    place,
  );
  for await (const text of io.readText(file)) reader.push(text);
  reader.end();
  if (columns[0]?.length === 0) throw inputFault.noRows(place);
  return { columns, rows, incomplete };
}
