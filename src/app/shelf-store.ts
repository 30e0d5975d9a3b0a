import { openDB, type DBSchema, type IDBPDatabase } from 'idb';

/** A sheet kept in this browser. */
export interface KeptSheet {
  readonly id: string;
  readonly title: string;
  /** Team, specimen and date as far as they are filled in: tells sheets of one title apart. */
  readonly detail: string;
  readonly text: string;
  /** ISO 8601 time of the last change. */
  readonly changed: string;
  /** Counts the savings, so that a window notices when another one saved the same sheet. */
  readonly revision: number;
  /** Branched off because another window had changed the same sheet, or made as a copy by the reader. */
  readonly isCopy: boolean;
}

export type Saved = { readonly done: true; readonly revision: number } | { readonly done: false; readonly other: KeptSheet };

/** Where sheets are kept between visits. Every call may reject; the caller says so in words and keeps the sheet alive. */
export interface ShelfStore {
  /** Newest change first. */
  list(): Promise<readonly KeptSheet[]>;
  read(id: string): Promise<KeptSheet | undefined>;
  /** Saves unless another window has saved the sheet since `knownRevision`; then nothing is overwritten. */
  save(sheet: Omit<KeptSheet, 'revision'>, knownRevision: number): Promise<Saved>;
  remove(id: string): Promise<void>;
}

interface Schema extends DBSchema {
  sheets: { key: string; value: KeptSheet };
}

/**
 * The browser's own database. All pages opened from files share it, which is why every sheet has an id of its own and
 * nothing is kept under a fixed name.
 */
export async function openShelfStore(): Promise<ShelfStore> {
  const database: IDBPDatabase<Schema> = await openDB<Schema>('spanlife', 1, {
    upgrade: (fresh) => void fresh.createObjectStore('sheets', { keyPath: 'id' }),
  });
  return {
    list: async () => {
      const sheets = await database.getAll('sheets');
      return sheets.sort((a, b) => b.changed.localeCompare(a.changed));
    },
    read: (id) => database.get('sheets', id),
    save: async (sheet, knownRevision) => {
      const transaction = database.transaction('sheets', 'readwrite');
      const present = await transaction.store.get(sheet.id);
      if (present !== undefined && present.revision !== knownRevision && present.text !== sheet.text) {
        await transaction.done;
        return { done: false, other: present };
      }
      const revision = (present?.revision ?? 0) + 1;
      await transaction.store.put({ ...sheet, revision });
      await transaction.done;
      return { done: true, revision };
    },
    remove: (id) => database.delete('sheets', id),
  };
}

/** A sheet id that no other sheet has; works on pages without a secure context too. */
export function freshSheetId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
