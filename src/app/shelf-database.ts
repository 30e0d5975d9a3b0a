import { openDB, type IDBPDatabase } from 'idb';
import type { KeptSheet } from './kept-sheet.ts';

/** The place of records, whatever they hold. */
export interface ShelfDatabase {
  all(): Promise<readonly { readonly key: string; readonly value: unknown }[]>;
  get(key: string): Promise<unknown>;
  /** Reads and writes in one step that no other window comes between. */
  change<T>(key: string, decide: (value: unknown) => { readonly put?: KeptSheet; readonly answer: T }): Promise<T>;
  remove(key: string): Promise<void>;
  close(): void;
}

/**
 * Every page ever handed out opens this database, so its name and its one store stay what they are: what a record holds may grow,
 * and what needs another form gets a database with another name.
 */
const NAME = 'spanlife';
const STORE = 'sheets';

/** @param closed called when the connection is of no more use: another page wants another version, or the browser took the data away */
export async function openShelfDatabase(closed: () => void): Promise<ShelfDatabase> {
  const database = await connect(closed);
  if (!database.objectStoreNames.contains(STORE)) {
    database.close();
    throw new DOMException('the database has no place for sheets', 'NotFoundError');
  }
  return {
    all: async () => {
      const store = database.transaction(STORE).store;
      const [keys, values] = await Promise.all([store.getAllKeys(), store.getAll()]);
      return keys.map((key, i) => ({ key: String(key), value: values[i] as unknown }));
    },
    get: (key) => database.get(STORE, key),
    change: async (key, decide) => {
      const transaction = database.transaction(STORE, 'readwrite');
      const { put, answer } = decide(await transaction.store.get(key));
      if (put !== undefined) await transaction.store.put(put);
      await transaction.done;
      return answer;
    },
    remove: (key) => database.delete(STORE, key),
    close: () => database.close(),
  };
}

async function connect(closed: () => void): Promise<IDBPDatabase> {
  const handlers = {
    blocking: (_now: number, _wanted: number | null, event: IDBVersionChangeEvent) => {
      (event.target as IDBDatabase).close();
      closed();
    },
    terminated: closed,
  };
  try {
    return await openDB(NAME, 1, { ...handlers, upgrade: (fresh) => void fresh.createObjectStore(STORE, { keyPath: 'id' }) });
  } catch (error) {
    if (!(error instanceof DOMException) || error.name !== 'VersionError') throw error;
    // A later page has raised the version: the sheets are there all the same.
    return openDB(NAME, undefined, handlers);
  }
}
