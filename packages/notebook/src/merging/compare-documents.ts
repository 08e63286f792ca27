/** What sets two notebooks apart, entry by entry: shown before one takes the place of the other. */
import { LIST_OF } from '../document/apply-command.ts';
import type { EntryKind } from '../document/command.ts';
import type { NotebookDocument } from '../document/document.ts';
import { sameJson } from '../document/lists.ts';

/** What an entry of any list has; a diary entry has no name. */
export interface Entry {
  readonly id: string;
  readonly name?: string;
}

/** One list of the notebooks, its entries by id and by what became of them. */
export interface ListComparison {
  readonly kind: EntryKind;
  /** Entries of `theirs` alone. */
  readonly added: readonly string[];
  /** Entries of both that differ. */
  readonly changed: readonly string[];
  /** Entries of both that are alike. */
  readonly same: readonly string[];
  /** Entries of `mine` alone. */
  readonly missing: readonly string[];
}

/** Parts of a notebook that stand once. */
const SETTINGS = ['title', 'note', 'plan', 'developmentPlan', 'printing'] as const;
export type Setting = (typeof SETTINGS)[number];

export interface DocumentComparison {
  /** In the order of the document, lists without any entry too. */
  readonly lists: readonly ListComparison[];
  readonly settings: readonly Setting[];
  /** True where the notebooks are alike in everything. */
  readonly alike: boolean;
}

/**
 * Compares two notebooks by the ids of their entries.
 *
 * @param mine - the notebook that is open
 * @param theirs - the one that comes in
 */
export function compareDocuments(
  mine: NotebookDocument,
  theirs: NotebookDocument,
): DocumentComparison {
  const lists = (Object.keys(LIST_OF) as EntryKind[]).map((kind): ListComparison => {
    const own = byId<Entry>(mine[LIST_OF[kind]]);
    const other = byId<Entry>(theirs[LIST_OF[kind]]);
    const both = [...other.keys()].filter((id) => own.has(id));
    const same = both.filter((id) => sameJson(own.get(id), other.get(id)));
    const alike = new Set(same);
    return {
      kind,
      added: [...other.keys()].filter((id) => !own.has(id)),
      changed: both.filter((id) => !alike.has(id)),
      same,
      missing: [...own.keys()].filter((id) => !other.has(id)),
    };
  });
  const settings = SETTINGS.filter((name) => !sameJson(mine[name], theirs[name]));
  return { lists, settings, alike: sameJson(mine, theirs) };
}

/** @returns the entries of a list by id, in its order */
export function byId<T extends { readonly id: string }>(list: readonly T[]): Map<string, T> {
  return new Map(list.map((entry) => [entry.id, entry]));
}
