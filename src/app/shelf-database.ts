import { openDB, type IDBPDatabase } from 'idb';
import type { Stretch } from './earlier-stretch.ts';
import type { KeptSheet } from './kept-sheet.ts';

/** A place of records, whatever they hold; what is written there is of one form. */
export interface RecordDatabase<Written> {
  all(): Promise<readonly { readonly key: string; readonly value: unknown }[]>;
  keys(): Promise<readonly string[]>;
  get(key: string): Promise<unknown>;
  /** Reads and writes in one step that no other window comes between. */
  change<T>(key: string, decide: (value: unknown) => { readonly put?: Written; readonly answer: T }): Promise<T>;
  remove(key: string): Promise<void>;
  /** What stood there before it was removed, whatever it was, unless something stands there again. */
  putBack(key: string, value: unknown): Promise<void>;
  close(): void;
}

/** The place of sheets. */
export type ShelfDatabase = RecordDatabase<KeptSheet>;

/** The place of the sheets' earlier states. */
export type EarlierDatabase = RecordDatabase<Stretch>;

/** Called when the connection is of no more use: another page wants another version, or the browser took the data away. */
type Closed = () => void;

/**
 * Every page ever handed out opens this database, so its name and its one store stay what they are: what a record holds may grow,
 * and what needs another form gets a database with another name.
 */
export async function openShelfDatabase(closed: Closed): Promise<ShelfDatabase> {
  return openRecords('spanlife', 'sheets', closed);
}

/**
 * Earlier states have a database of their own: a second store in the sheets' one would need a raised version, which pages handed out
 * before can not open, and a page from before would list the states as damaged sheets if they lay among them.
 */
export async function openEarlierDatabase(closed: Closed): Promise<EarlierDatabase> {
  return openRecords('spanlife-earlier', 'stretches', closed);
}

async function openRecords<Written>(name: string, place: string, closed: Closed): Promise<RecordDatabase<Written>> {
  const database = await connect(name, place, closed);
  if (!database.objectStoreNames.contains(place)) {
    database.close();
    throw new DOMException(`the database has no place for ${place}`, 'NotFoundError');
  }
  return {
    all: async () => {
      const store = database.transaction(place).store;
      const [keys, values] = await Promise.all([store.getAllKeys(), store.getAll()]);
      return keys.map((key, i) => ({ key: String(key), value: values[i] as unknown }));
    },
    keys: async () => (await database.getAllKeys(place)).map(String),
    get: (key) => database.get(place, key),
    change: async (key, decide) => {
      const transaction = database.transaction(place, 'readwrite');
      const { put, answer } = decide(await transaction.store.get(key));
      if (put !== undefined) await transaction.store.put(put);
      await transaction.done;
      return answer;
    },
    remove: (key) => database.delete(place, key),
    putBack: async (key, value) => {
      const transaction = database.transaction(place, 'readwrite');
      if ((await transaction.store.getKey(key)) === undefined) await transaction.store.put(value);
      await transaction.done;
    },
    close: () => database.close(),
  };
}

async function connect(name: string, place: string, closed: Closed): Promise<IDBPDatabase> {
  const handlers = {
    blocking: (_now: number, _wanted: number | null, event: IDBVersionChangeEvent) => {
      (event.target as IDBDatabase).close();
      closed();
    },
    terminated: closed,
  };
  try {
    return await openDB(name, 1, { ...handlers, upgrade: (fresh) => void fresh.createObjectStore(place, { keyPath: 'id' }) });
  } catch (error) {
    if (!(error instanceof DOMException) || error.name !== 'VersionError') throw error;
    // A later page has raised the version: the records are there all the same.
    return openDB(name, undefined, handlers);
  }
}
