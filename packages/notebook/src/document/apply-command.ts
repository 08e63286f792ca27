/**
 * The one way in which a notebook changes: document and command in, document out.
 */
import { InvalidArgumentError } from '@wedgebook/core';
import type { Command, EntryCommand, EntryKind } from './command.ts';
import type { NotebookDocument, StripRow } from './document.ts';
import { applyRowCommand } from './apply-row-command.ts';
import { applySpotCommand } from './apply-spot-command.ts';
import { withoutReferences } from './references.ts';
import { firstFault, type CheckedPart } from '../saving/schema.ts';
import { changed, indexOfId, insertedAt, movedTo, removedAt, replacedAt } from './lists.ts';

/** Where each kind of entry is kept. */
export const LIST_OF = {
  tablet: 'tablets',
  developer: 'developers',
  film: 'films',
  strip: 'strips',
  paper: 'papers',
  negative: 'negatives',
  bath: 'baths',
  print: 'prints',
  note: 'notes',
} as const satisfies Record<EntryKind, keyof NotebookDocument>;

const ACTIONS = ['add', 'change', 'move', 'remove'];

function isEntryCommand(command: Command): command is EntryCommand & Command {
  const [kind, action] = command.type.split('/');
  return kind !== undefined && Object.hasOwn(LIST_OF, kind) && ACTIONS.includes(action ?? '');
}

/**
 * Applies a command.
 *
 * Removing an entry that others name empties their reference; removing a tablet first writes the
 * log exposures that followed from it into the rows, so that no strip loses its exposures.
 *
 * @param document - never mutated
 * @param command - a serialisable change
 * @returns the new document; the same object where nothing changes
 * @throws {InvalidArgumentError} if the command names what is not there, adds what is, or would
 *   make a document that does not open again
 */
export function applyCommand(document: NotebookDocument, command: Command): NotebookDocument {
  if (isEntryCommand(command)) return applyEntryCommand(document, command);
  switch (command.type) {
    case 'document/load':
      return sound('document', command.document);
    case 'document/describe':
      return changed(document, command.changes);
    case 'plan/set':
      return changed(document, { plan: sound('plan', changed(document.plan, command.changes)) });
    case 'developmentPlan/set': {
      const developmentPlan = changed(document.developmentPlan, command.changes);
      return changed(document, { developmentPlan: sound('developmentPlan', developmentPlan) });
    }
    case 'printing/set': {
      const printing = changed(document.printing, command.changes);
      return changed(document, { printing: sound('printing', printing) });
    }
    case 'spot/add':
    case 'spot/change':
    case 'spot/remove': {
      const index = indexOfId(document.negatives, command.negativeId, 'negativeId');
      const negatives = replacedAt(document.negatives, index, (negative) =>
        sound('negative', applySpotCommand(negative, command)),
      );
      return changed(document, { negatives });
    }
    case 'rows/set-cell':
    case 'rows/set-replicates':
    case 'rows/paste':
    case 'rows/insert':
    case 'rows/remove':
    case 'rows/reverse-readings': {
      const index = indexOfId(document.strips, command.stripId, 'stripId');
      const strips = replacedAt(document.strips, index, (strip) =>
        changed(strip, { rows: soundRows(strip.rows, applyRowCommand(strip.rows, command)) }),
      );
      return changed(document, { strips });
    }
    default:
      throw new InvalidArgumentError(
        'applyCommand',
        'command.type',
        (command as { type: unknown }).type,
        'a known command',
      );
  }
}

function applyEntryCommand(document: NotebookDocument, command: EntryCommand): NotebookDocument {
  const kind = command.type.slice(0, command.type.indexOf('/')) as EntryKind;
  const key = LIST_OF[kind];
  // One list is handled like another; the pairing of list and entry is kept by EntryCommand.
  const list: readonly { readonly id: string }[] = document[key];
  const withList = (next: readonly { readonly id: string }[]) => changed(document, { [key]: next });

  if ('entry' in command) {
    const { entry, index = list.length } = command;
    if (list.some(({ id }) => id === entry.id)) {
      throw new InvalidArgumentError('applyCommand', 'entry.id', entry.id, 'a new id');
    }
    return withList(insertedAt(list, index, [sound(kind, entry)]));
  }
  const at = indexOfId(list, command.id, 'id');
  if ('changes' in command) {
    const changes = { ...command.changes, id: command.id };
    return withList(replacedAt(list, at, (entry) => sound(kind, changed(entry, changes))));
  }
  if ('index' in command) return withList(movedTo(list, at, command.index));
  const freed = withoutReferences(document, kind, command.id);
  return changed(freed, {
    [key]: removedAt<{ readonly id: string }>(freed[key], at, 1),
  });
}

/** Of a strip's rows only the new ones are checked: the others were when they came. */
function soundRows(before: readonly StripRow[], rows: readonly StripRow[]): readonly StripRow[] {
  const known = new Set(before);
  for (const row of rows) if (!known.has(row)) sound('row', row);
  return rows;
}

/**
 * What would not open again must not be stored: a number that is not finite, an unknown word.
 *
 * @throws {InvalidArgumentError} if a field is not as the saved form needs it
 */
function sound<T>(part: CheckedPart, value: T): T {
  const found = firstFault(value, part);
  if (found === null) return value;
  throw new InvalidArgumentError('applyCommand', `${part} ${found.path}`, value, found.fault);
}
