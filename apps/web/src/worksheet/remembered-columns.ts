/** What the user said that columns are, kept in this browser by the columns' names. */

const KEY = 'wedgebook-columns';
/** Tables of which the columns are kept, the newest. */
const MOST_TABLES = 40;

type Store = Pick<globalThis.Storage, 'getItem' | 'setItem'>;
type Kept = readonly (readonly [signature: string, roles: readonly string[]])[];

/** Tables with the same names of columns are alike; one without names is like no other. */
function signatureOf(use: string, heads: readonly string[]): string | null {
  const names = heads.map((head) => head.trim().toLowerCase());
  return names.some((name) => name !== '') ? JSON.stringify([use, ...names]) : null;
}

function readKept(store: () => Store): Kept {
  try {
    const kept: unknown = JSON.parse(store().getItem(KEY) ?? '[]');
    return Array.isArray(kept) ? kept.filter(isEntry) : [];
  } catch {
    return []; // storage may be barred, or hold something else
  }
}

function isEntry(value: unknown): value is Kept[number] {
  if (!Array.isArray(value)) return false;
  const [signature, roles] = value as unknown[];
  return (
    typeof signature === 'string' &&
    Array.isArray(roles) &&
    roles.every((role) => typeof role === 'string')
  );
}

/**
 * @param use - where the table goes: the sheet and the notebook take different columns
 * @param known - the roles there are; an entry with another is none
 * @returns the role of each column, or null where none were kept for such names
 */
export function rememberedRoles<Role extends string>(
  use: string,
  heads: readonly string[],
  known: readonly Role[],
  store: () => Store = () => localStorage,
): Role[] | null {
  const signature = signatureOf(use, heads);
  const roles = readKept(store).find(([kept]) => kept === signature)?.[1];
  if (roles?.length !== heads.length) return null;
  const sure = roles.flatMap((role) => known.find((each) => each === role) ?? []);
  return sure.length === heads.length ? sure : null;
}

/** Keeps the roles for the next table with the same names; one without names is not kept. */
export function rememberRoles(
  use: string,
  heads: readonly string[],
  roles: readonly string[],
  store: () => Store = () => localStorage,
): void {
  const signature = signatureOf(use, heads);
  if (signature === null) return;
  const others = readKept(store).filter(([kept]) => kept !== signature);
  try {
    const kept: Kept = [...others, [signature, roles.slice(0, heads.length)] as const];
    store().setItem(KEY, JSON.stringify(kept.slice(-MOST_TABLES)));
  } catch {
    // Not remembered; the choice still holds for this table.
  }
}
