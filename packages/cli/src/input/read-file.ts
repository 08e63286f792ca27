/** Files of readings and tables, read piece by piece. */
import {
  inputFault,
  numberFromCell,
  readingsReader,
  recordReader,
  type ReadingsFile,
  type ReadOptions,
} from '@wedgebook/notebook';
import type { CommandIo } from '../io.ts';

/** How a file is named in messages. */
export const fileName = (file: string): string => (file === '-' ? 'standard input' : file);

/** @throws {InputError} with file, row, column and remedy */
export async function readReadingsFile(
  file: string,
  io: CommandIo,
  options: Omit<ReadOptions, 'file'> = {},
): Promise<ReadingsFile> {
  const reader = readingsReader({ ...options, file: fileName(file) });
  for await (const text of io.readText(file)) reader.push(text);
  return reader.end();
}

export interface ColumnsOfNumbers {
  /** One list for each column that was asked for, row by row. */
  readonly columns: readonly (readonly number[])[];
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
            throw inputFault.missingColumn({ ...place, row }, [names[index] ?? name]);
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
  return { columns, incomplete };
}
