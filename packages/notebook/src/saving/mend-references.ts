/**
 * A document read from outside may name what it does not hold. Such names are emptied and told,
 * rather than the notebook refused: the readings are worth more than the link.
 */
import type { NotebookDocument } from '../document/document.ts';
import { LIST_OF } from '../document/apply-command.ts';
import type { EntryKind } from '../document/command.ts';
import { mapReferences } from '../document/map-references.ts';

/** What was changed while reading: the path of the reference and the id that it held. */
export interface Mended {
  readonly path: string;
  readonly id: string;
}

/**
 * Empties references to entries that are not there. A tablet may be a built-in one, so its name
 * stays; the strip then says that its steps have no exposure.
 */
export function mendReferences(document: NotebookDocument): {
  readonly document: NotebookDocument;
  readonly mended: readonly Mended[];
} {
  const mended: Mended[] = [];
  const known = new Map<EntryKind, ReadonlySet<string>>();
  const idsOf = (kind: EntryKind) => {
    const ids = known.get(kind) ?? new Set(document[LIST_OF[kind]].map(({ id }) => id));
    known.set(kind, ids);
    return ids;
  };
  const next = mapReferences(document, (kind, id, path) => {
    if (idsOf(kind).has(id)) return id;
    mended.push({ path, id });
    return null;
  });
  return { document: next, mended };
}

/** @returns the path of the first id that its list holds twice, or null */
export function firstDoubleId(document: NotebookDocument): string | null {
  const lists: [string, readonly { readonly id: string }[]][] = [
    ...Object.values(LIST_OF).map((key): [string, readonly { readonly id: string }[]] => [
      key,
      document[key],
    ]),
    ...document.baths.map(
      ({ films: toned }, index): [string, readonly { readonly id: string }[]] => [
        `baths.${index}.films`,
        toned,
      ],
    ),
    ...document.negatives.map(({ spots }, index): [string, readonly { readonly id: string }[]] => [
      `negatives.${index}.spots`,
      spots,
    ]),
  ];
  for (const [path, list] of lists) {
    const seen = new Set<string>();
    for (const [index, { id }] of list.entries()) {
      if (seen.has(id)) return `${path}.${index}.id`;
      seen.add(id);
    }
  }
  return null;
}
