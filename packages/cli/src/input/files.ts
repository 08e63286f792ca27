/** The files of a verb that takes many: files, directories, standard input. */
import { inputFault } from '@wedgebook/notebook';
import type { CommandIo } from '../io.ts';
import { USAGE } from '../text.ts';
import { UsageError } from '../usage-error.ts';
import type { Arguments } from './arguments.ts';

/**
 * @returns the files in the order given, those of a directory by name
 * @throws {UsageError} where none is given, or standard input twice
 * @throws {InputError} where a directory holds no file of readings
 */
export async function manyFiles(
  { positionals }: Arguments,
  io: CommandIo,
): Promise<readonly string[]> {
  if (positionals.length === 0) throw new UsageError(USAGE.someFile);
  if (positionals.filter((file) => file === '-').length > 1) {
    throw new UsageError(USAGE.stdinTwice);
  }
  const files: string[] = [];
  for (const file of positionals) {
    const inside = await io.filesIn(file);
    if (inside?.length === 0) throw inputFault.emptyDirectory({ file });
    files.push(...(inside ?? [file]));
  }
  return files;
}
