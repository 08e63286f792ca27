/** The questions about the columns of a pasted block and of a file, and the keeping of the answers. */
import { COLUMN_ROLES, rolesFault, type ColumnRole, type RawTable } from '@wedgebook/notebook';
import { columns as t } from '../text/columns.ts';
import { askColumns } from './column-match.ts';
import type { BlockColumn, PastedBlock } from './parse-block.ts';
import { rememberedRoles, rememberRoles } from './remembered-columns.ts';

/**
 * @param block - as guessed
 * @returns what the user says that its columns are, or null where nothing shall be taken
 */
export async function askBlock(block: PastedBlock): Promise<readonly BlockColumn[] | null> {
  const { heads, rows, columns } = block;
  const fault = (roles: readonly BlockColumn[]): string | null => {
    if (!roles.includes('reading')) return t.noReading;
    const single = roles.filter((role) => role !== 'reading' && role !== 'ignored');
    return new Set(single).size < single.length ? t.twiceBlock : null;
  };
  const answer = await askColumns({ heads, rows, roles: columns, words: t.block, fault });
  if (answer !== null) rememberRoles('sheet', heads, answer);
  return answer;
}

/**
 * @param table - a file cut into cells
 * @param guess - a role for each column
 * @returns what the user says that its columns are, or null where nothing shall be taken
 */
export async function askTable(
  { heads, rows }: RawTable,
  guess: readonly ColumnRole[],
): Promise<readonly ColumnRole[] | null> {
  const fault = (roles: readonly ColumnRole[]): string | null => {
    const found = rolesFault(roles);
    return found === null ? null : t.faults[found];
  };
  const answer = await askColumns({ heads, rows, roles: guess, words: t.roles, fault });
  if (answer !== null) rememberRoles('file', heads, answer);
  return answer;
}

/** The answer to `askTable` for a table with the same names of columns, or null. */
export const rememberedTable = (heads: readonly string[]): readonly ColumnRole[] | null =>
  rememberedRoles('file', heads, COLUMN_ROLES);
