/**
 * The notebook in the browser's database. Writes are strict: reported done only when on disk.
 */
import { openDB, type IDBPDatabase } from 'idb';

const DATABASE = 'wedgebook';
const STORE = 'kept';

export class Storage {
  readonly #database: Promise<IDBPDatabase>;

  constructor() {
    this.#database = openDB(DATABASE, 1, {
      upgrade(database) {
        database.createObjectStore(STORE);
      },
    });
  }

  async read(key: string): Promise<unknown> {
    const database = await this.#database;
    const value: unknown = await database.get(STORE, key);
    return value;
  }

  async write(key: string, value: unknown): Promise<void> {
    const database = await this.#database;
    const transaction = database.transaction(STORE, 'readwrite', { durability: 'strict' });
    await transaction.store.put(value, key);
    await transaction.done;
  }
}
