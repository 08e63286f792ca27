/**
 * The notebook and its snapshots in the browser's database. Writes are strict: reported done only
 * when on disk, and whole or not at all.
 */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import { thinned, type SnapshotFacts } from './thinned.ts';

const DATABASE = 'wedgebook';
const VERSION = 2;
const NOTEBOOK = 'notebook';
const STRICT = { durability: 'strict' } as const;

/** A notebook as it is kept. */
export interface Kept {
  /** The envelope around the document; not trusted until opened. */
  readonly notebook: unknown;
  readonly savedAt: string;
  /** Counts the writes of all tabs. */
  readonly revision: number;
  /** The visit that wrote it, and the count of that visit's changes that it holds. */
  readonly writer: string;
  readonly edit: number;
}

/** Says whether a write was done, or what another tab had kept meanwhile. */
export type KeepResult =
  { readonly status: 'kept' } | { readonly status: 'overtaken'; readonly kept: Kept };

interface Tables extends DBSchema {
  kept: { key: string; value: unknown };
  /** Facts and contents apart, so that the list is read without opening a notebook. */
  snapshots: { key: number; value: Omit<SnapshotFacts, 'number'> & { number?: number } };
  'snapshot-notebooks': { key: number; value: unknown };
}

export class Storage {
  readonly #database: Promise<IDBPDatabase<Tables>>;

  /** @param onLost - told where the browser takes the database away from the page */
  constructor(onLost: () => void = () => undefined) {
    this.#database = opened(onLost);
    // Whoever reads or writes is told; nobody need be there yet.
    this.#database.catch(() => undefined);
  }

  async read(key: string): Promise<unknown> {
    return (await this.#database).get('kept', key);
  }

  async write(key: string, value: unknown): Promise<void> {
    const transaction = (await this.#database).transaction('kept', 'readwrite', STRICT);
    await Promise.all([transaction.store.put(value, key), transaction.done]);
  }

  /** What is kept, or null; not checked beyond its envelope. */
  async notebook(): Promise<Kept | null> {
    return keptOf(await this.read(NOTEBOOK));
  }

  /**
   * Keeps a notebook, unless another tab kept one since. Looking and writing are one transaction:
   * no tab can come between.
   *
   * @param on - the revision that the notebook was made from; 0 where nothing was kept
   */
  async keepNotebook(next: Kept, on: number): Promise<KeepResult> {
    const transaction = (await this.#database).transaction('kept', 'readwrite', STRICT);
    const there = keptOf(await transaction.store.get(NOTEBOOK));
    if (there !== null && there.revision !== on) {
      await transaction.done;
      return { status: 'overtaken', kept: there };
    }
    await Promise.all([transaction.store.put(next, NOTEBOOK), transaction.done]);
    return { status: 'kept' };
  }

  /** Takes a snapshot, and thins out the older ones. */
  async addSnapshot(facts: Omit<SnapshotFacts, 'number'>, notebook: unknown): Promise<void> {
    const database = await this.#database;
    const stores = ['snapshots', 'snapshot-notebooks'] as const;
    const transaction = database.transaction(stores, 'readwrite', STRICT);
    const snapshots = transaction.objectStore('snapshots');
    const notebooks = transaction.objectStore('snapshot-notebooks');
    const add = async () => {
      await notebooks.put(notebook, await snapshots.add(facts));
      const all = (await snapshots.getAll()) as SnapshotFacts[];
      const old = thinned(all, Date.now());
      await Promise.all(old.flatMap((each) => [snapshots.delete(each), notebooks.delete(each)]));
    };
    await Promise.all([add(), transaction.done]);
  }

  /** The snapshots, the newest first. */
  async snapshots(): Promise<readonly SnapshotFacts[]> {
    return ((await (await this.#database).getAll('snapshots')) as SnapshotFacts[]).toReversed();
  }

  async snapshot(number: number): Promise<unknown> {
    return (await this.#database).get('snapshot-notebooks', number);
  }

  async removeSnapshots(numbers: readonly number[]): Promise<void> {
    const stores = ['snapshots', 'snapshot-notebooks'] as const;
    const transaction = (await this.#database).transaction(stores, 'readwrite', STRICT);
    await Promise.all([
      ...numbers.flatMap((number) => stores.map((s) => transaction.objectStore(s).delete(number))),
      transaction.done,
    ]);
  }
}

function keptOf(value: unknown): Kept | null {
  if (typeof value !== 'object' || value === null || !('notebook' in value)) return null;
  const { savedAt, revision, writer, edit } = value as Readonly<Record<string, unknown>>;
  return {
    notebook: value.notebook,
    savedAt: typeof savedAt === 'string' ? savedAt : '',
    revision: typeof revision === 'number' ? revision : 0,
    writer: typeof writer === 'string' ? writer : '',
    edit: typeof edit === 'number' ? edit : 0,
  };
}

/** Async, since a browser may also refuse by throwing at once. */
async function opened(onLost: () => void): Promise<IDBPDatabase<Tables>> {
  return openDB<Tables>(DATABASE, VERSION, {
    upgrade(database, from) {
      if (from < 1) database.createObjectStore('kept');
      database.createObjectStore('snapshots', { keyPath: 'number', autoIncrement: true });
      database.createObjectStore('snapshot-notebooks');
    },
    blocking(_current, _wanted, { target }) {
      // A newer page waits for this one to let go; it then keeps the notebook.
      (target as IDBDatabase).close();
      onLost();
    },
    terminated: onLost,
  });
}
