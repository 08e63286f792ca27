/**
 * The notebook as the app edits it: the document, and beside it every entry that could not be read
 * as a number, kept letter for letter. Such entries are part of the document, so that undo, reload
 * and export keep them too; the notebook's saved form lets unknown fields pass.
 */
import { applyCommand, type Command, type NotebookDocument } from '@wedgebook/notebook';

/** Entries kept as typed, by field key; see `cellKey`. */
export type AsTyped = Readonly<Record<string, string>>;

export interface WorkDocument extends NotebookDocument {
  readonly asTyped?: AsTyped;
}

/** Commands of the notebook, several as one step, and the keeping of unreadable entries. */
export type WorkCommand =
  | Command
  | {
      readonly type: 'typed/keep';
      readonly key: string;
      /** The entry, or null to forget it. */
      readonly text: string | null;
      readonly mergeKey?: string;
    }
  | {
      readonly type: 'several';
      readonly commands: readonly WorkCommand[];
      readonly mergeKey?: string;
    };

/** Key of a worksheet cell. `row` is -1 for the base + fog row. */
export function cellKey(stripId: string, row: number, column: string): string {
  return `strip/${stripId}/${row}/${column}`;
}

/** Applies a command; pure. */
export function applyWork(document: WorkDocument, command: WorkCommand): WorkDocument {
  if (command.type === 'typed/keep') return keepTyped(document, command.key, command.text);
  if (command.type === 'several') return command.commands.reduce(applyWork, document);
  const next = apply(document, command);
  if (command.type === 'rows/remove') {
    return shiftTyped(next, command.stripId, command.row, -command.count);
  }
  if (command.type === 'rows/insert') {
    return shiftTyped(next, command.stripId, command.row, command.rows.length);
  }
  return command.type === 'strip/remove' ? dropTyped(next, `strip/${command.id}/`) : next;
}

function apply(document: WorkDocument, command: Command): WorkDocument {
  return applyCommand(document, command);
}

function keepTyped(document: WorkDocument, key: string, text: string | null): WorkDocument {
  const current = document.asTyped ?? {};
  if (text === null) {
    return key in current ? dropTyped(document, key) : document;
  }
  return current[key] === text ? document : { ...document, asTyped: { ...current, [key]: text } };
}

/** Forgets the kept entries whose key begins with `prefix`. */
function dropTyped(document: WorkDocument, prefix: string): WorkDocument {
  const entries = Object.entries(document.asTyped ?? {});
  const kept = entries.filter(([key]) => !key.startsWith(prefix));
  return kept.length === entries.length
    ? document
    : { ...document, asTyped: Object.fromEntries(kept) };
}

/** Moves the kept entries of a strip's rows when rows are removed from it or put in. */
function shiftTyped(
  document: WorkDocument,
  stripId: string,
  from: number,
  by: number,
): WorkDocument {
  if (document.asTyped === undefined) return document;
  const prefix = `strip/${stripId}/`;
  const entries = Object.entries(document.asTyped).flatMap(([key, text]) => {
    if (!key.startsWith(prefix)) return [[key, text] as const];
    const [row = '', column = ''] = key.slice(prefix.length).split('/');
    const index = Number(row);
    if (index < from) return [[key, text] as const];
    if (by < 0 && index < from - by) return [];
    return [[cellKey(stripId, index + by, column), text] as const];
  });
  return { ...document, asTyped: Object.fromEntries(entries) };
}
