/** What stands once in a notebook, merged field by field. */
import { LIST_OF } from '../document/apply-command.ts';
import type { NotebookDocument } from '../document/document.ts';
import { sameJson } from '../document/lists.ts';

type Plain = Readonly<Record<string, unknown>>;
const LISTS = new Set<string>(Object.values(LIST_OF));

/**
 * A field changed in theirs alone is taken from there; one changed in both, or without a base one
 * that differs, stays mine. Fields that mine does not know are taken.
 *
 * @param arrived - ids of the entries of theirs that the merged notebook holds
 * @returns everything but the lists
 */
export function mergedSettings(
  mine: NotebookDocument,
  theirs: NotebookDocument,
  base: NotebookDocument | undefined,
  arrived: ReadonlySet<string>,
): Plain {
  const asTyped = mergedTyped(mine, theirs, base, arrived);
  return {
    ...mergedFields(withoutLists(mine), withoutLists(theirs), base && withoutLists(base), true),
    invented: mine.invented || (theirs.invented && arrived.size > 0),
    ...(asTyped !== undefined && { asTyped }),
  };
}

function mergedFields(mine: Plain, theirs: Plain, base: Plain | undefined, deep: boolean): Plain {
  const fields = Object.keys({ ...theirs, ...mine }).flatMap((key): [string, unknown][] => {
    const [own, other, before] = [mine[key], theirs[key], base?.[key]];
    const isHere = Object.hasOwn(mine, key);
    const isThere = Object.hasOwn(theirs, key);
    const wasThere = base !== undefined && Object.hasOwn(base, key);
    if (deep && isPlain(own) && isPlain(other)) {
      return [[key, mergedFields(own, other, isPlain(before) ? before : undefined, false)]];
    }
    if (!isThere) return wasThere && sameJson(own, before) ? [] : [[key, own]];
    if (!isHere) return wasThere && sameJson(other, before) ? [] : [[key, other]];
    return [[key, wasThere && sameJson(own, before) ? other : own]];
  });
  return Object.fromEntries(fields);
}

/** Entries kept as typed come with the strips that they stand in. */
function mergedTyped(
  mine: NotebookDocument,
  theirs: NotebookDocument,
  base: NotebookDocument | undefined,
  arrived: ReadonlySet<string>,
): Plain | undefined {
  if (mine.asTyped === undefined && theirs.asTyped === undefined) return undefined;
  const own = mine.asTyped ?? {};
  const other = theirs.asTyped ?? {};
  if (base !== undefined) return mergedFields(own, other, base.asTyped ?? {}, false);
  const incoming = Object.entries(other).filter(([field]) =>
    field.split('/').some((part) => arrived.has(part)),
  );
  return { ...Object.fromEntries(incoming), ...own };
}

function withoutLists(document: NotebookDocument): Plain {
  const entries = Object.entries(document).filter(([key]) => key !== 'asTyped' && !LISTS.has(key));
  return Object.fromEntries(entries);
}

function isPlain(value: unknown): value is Plain {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
