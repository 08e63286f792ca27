/**
 * Two notebooks in one, nothing lost: an entry that both have changed is kept twice.
 *
 * With the notebook that both came from, an entry changed in one of them alone is taken as changed
 * there, and one removed there alone goes. Without it, every difference counts as a change of both.
 */
import { LIST_OF } from '../document/apply-command.ts';
import type { EntryKind } from '../document/command.ts';
import type { NotebookDocument } from '../document/document.ts';
import { sameJson } from '../document/lists.ts';
import { mapReferences } from '../document/map-references.ts';
import { mendReferences } from '../saving/mend-references.ts';
import { byId, type Entry } from './compare-documents.ts';
import { mergedSettings } from './merged-settings.ts';

export interface MergeOptions {
  /** The notebook that both came from, where it is known. */
  readonly base?: NotebookDocument;
  /** Makes an id; called once for each entry that is kept twice. */
  readonly makeId: () => string;
  /** Name of the second of two, from its own. */
  readonly copyName: (name: string) => string;
}

export interface Merged {
  readonly document: NotebookDocument;
  /** Entries that came from `theirs`, kept twice or not, in the order of the lists. */
  readonly taken: readonly { readonly kind: EntryKind; readonly id: string }[];
  /** Entries kept twice: the id of mine and that of the copy of theirs. */
  readonly keptBoth: readonly {
    readonly kind: EntryKind;
    readonly id: string;
    readonly copyId: string;
  }[];
}

/**
 * @param mine - the notebook that is open; in doubt it gives order and settings
 * @param theirs - the one that comes in
 * @returns a sound notebook; an entry of theirs that others of theirs name is named by its new id
 */
export function mergeDocuments(
  mine: NotebookDocument,
  theirs: NotebookDocument,
  options: MergeOptions,
): Merged {
  const { base } = options;
  const plans = (Object.keys(LIST_OF) as EntryKind[]).map((kind) =>
    planOf(kind, mine, theirs, options),
  );
  const copies = new Map(plans.map(({ kind, copies: ids }) => [kind, ids]));
  const renamed = withCopyIds(theirs, copies);
  const lists = plans.map(({ kind, take, drop, copies: ids }) => {
    const incoming = byId<Entry>(renamed[LIST_OF[kind]]);
    const kept = (mine[LIST_OF[kind]] as readonly Entry[]).flatMap((entry): readonly Entry[] => {
      if (drop.has(entry.id)) return [];
      const own = take.has(entry.id) ? (incoming.get(entry.id) ?? entry) : entry;
      const copy = incoming.get(ids.get(entry.id) ?? '');
      return copy === undefined ? [own] : [own, copied(copy, options)];
    });
    const there = new Set(kept.map(({ id }) => id));
    const added = [...incoming.values()].filter(({ id }) => take.has(id) && !there.has(id));
    const merged = [...kept, ...added];
    const movedHere = base !== undefined && !sameOrder(mine[LIST_OF[kind]], base[LIST_OF[kind]]);
    const takesOrder = base !== undefined && !movedHere;
    const ordered = takesOrder ? inOrderOf(renamed[LIST_OF[kind]], merged) : merged;
    return [LIST_OF[kind], ordered] as const;
  });
  const arrived = new Set(plans.flatMap(({ take, copies: ids }) => [...take, ...ids.values()]));
  const document = {
    ...mergedSettings(mine, renamed, base, arrived),
    ...Object.fromEntries(lists),
  } as unknown as NotebookDocument;
  return {
    document: mendReferences(document).document,
    taken: plans.flatMap(({ kind, take, copies: ids }) =>
      [...take, ...ids.values()].map((id) => ({ kind, id })),
    ),
    keptBoth: plans.flatMap(({ kind, copies: ids }) =>
      [...ids].map(([id, copyId]) => ({ kind, id, copyId })),
    ),
  };
}

interface ListPlan {
  readonly kind: EntryKind;
  /** Ids of theirs that are new, or take the place of mine. */
  readonly take: ReadonlySet<string>;
  /** Ids of mine that theirs removed. */
  readonly drop: ReadonlySet<string>;
  /** Ids of entries kept twice, with the new id of theirs. */
  readonly copies: ReadonlyMap<string, string>;
}

function planOf(
  kind: EntryKind,
  mine: NotebookDocument,
  theirs: NotebookDocument,
  { base, makeId }: MergeOptions,
): ListPlan {
  const key = LIST_OF[kind];
  const own = byId<Entry>(mine[key]);
  const other = byId<Entry>(theirs[key]);
  const before = byId<Entry>(base?.[key] ?? []);
  const take = new Set<string>();
  const drop = new Set<string>();
  const copies = new Map<string, string>();
  for (const [id, entry] of other) {
    const known = before.get(id);
    const changedThere = known === undefined || !sameJson(entry, known);
    if (!changedThere || sameJson(entry, own.get(id))) continue;
    const here = own.get(id);
    // Removed here but changed there: what was changed is kept.
    if (here === undefined || (known !== undefined && sameJson(here, known))) take.add(id);
    else copies.set(id, makeId());
  }
  for (const [id, entry] of own) {
    if (!other.has(id) && before.has(id) && sameJson(entry, before.get(id))) drop.add(id);
  }
  return { kind, take, drop, copies };
}

/** Theirs with the entries that are kept twice under their new ids, and named by them. */
function withCopyIds(
  theirs: NotebookDocument,
  copies: ReadonlyMap<EntryKind, ReadonlyMap<string, string>>,
): NotebookDocument {
  const idOf = (kind: EntryKind, id: string) => copies.get(kind)?.get(id) ?? id;
  const mapped = mapReferences(theirs, idOf);
  const strips = mapped.strips.map((strip) =>
    strip.tabletId === null ? strip : { ...strip, tabletId: idOf('tablet', strip.tabletId) },
  );
  const lists = (Object.keys(LIST_OF) as EntryKind[]).map((kind) => {
    const list: readonly Entry[] = kind === 'strip' ? strips : mapped[LIST_OF[kind]];
    return [LIST_OF[kind], list.map((entry) => ({ ...entry, id: idOf(kind, entry.id) }))];
  });
  const stripIds = copies.get('strip') ?? new Map<string, string>();
  const asTyped = Object.entries(mapped.asTyped ?? {}).map(([field, text]) => [
    field
      .split('/')
      .map((part) => stripIds.get(part) ?? part)
      .join('/'),
    text,
  ]);
  return {
    ...mapped,
    ...Object.fromEntries(lists),
    ...(mapped.asTyped !== undefined && { asTyped: Object.fromEntries(asTyped) as object }),
  } as NotebookDocument;
}

/** Whether the entries that both lists hold stand in the same order. */
function sameOrder(a: readonly Entry[], b: readonly Entry[]): boolean {
  const inA = new Set(a.map(({ id }) => id));
  const inB = new Set(b.map(({ id }) => id));
  const common = b.filter(({ id }) => inA.has(id));
  return a.filter(({ id }) => inB.has(id)).every(({ id }, index) => common[index]?.id === id);
}

/** The entries in the order of another list; those that it does not hold stay behind their predecessor. */
function inOrderOf(order: readonly Entry[], entries: readonly Entry[]): readonly Entry[] {
  const left = byId(entries);
  const ordered = order.flatMap(({ id }) => left.get(id) ?? []);
  const placed = new Set(ordered.map(({ id }) => id));
  entries.forEach((entry, index) => {
    if (placed.has(entry.id)) return;
    const before = entries[index - 1]?.id;
    ordered.splice(ordered.findIndex(({ id }) => id === before) + 1, 0, entry);
  });
  return ordered;
}

/** A diary entry has no name to tell the two apart by; its text does. */
function copied(entry: Entry, { copyName }: MergeOptions): Entry {
  return entry.name === undefined ? entry : { ...entry, name: copyName(entry.name) };
}
