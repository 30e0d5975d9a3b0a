import { createConnection } from './connection.ts';
import { newestFirst, readKeptSheet, type KeptSheet } from './kept-sheet.ts';
import { openShelfDatabase, type ShelfDatabase } from './shelf-database.ts';

type Saved = { readonly done: true; readonly revision: number } | { readonly done: false };

/** A record that is no sheet: damaged, or written by something else. It opens nothing and is given out as it is. */
export interface DamagedRecord {
  readonly key: string;
  /** The record as it stands, as JSON. */
  readonly content: string;
}

/** Where sheets are kept between visits. Every call may reject; the caller says so in words and keeps the sheet alive. */
export interface ShelfStore {
  /** Last changed first. */
  list(): Promise<readonly KeptSheet[]>;
  damaged(): Promise<readonly DamagedRecord[]>;
  /** Ids of all that is there, damaged or not. */
  ids(): Promise<readonly string[]>;
  read(id: string): Promise<KeptSheet | undefined>;
  /** Saves unless another window has saved the sheet since `knownRevision`, or its record is damaged; then nothing is overwritten. */
  save(sheet: Omit<KeptSheet, 'revision' | 'order'>, knownRevision: number): Promise<Saved>;
  /** Gives the way back for what stood there, whatever it was, as it was; where something stands there again by then, that stays. */
  remove(id: string): Promise<{ readonly putBack: () => Promise<void> }>;
}

/**
 * Sheets in the browser's own database. All pages opened from files share it, which is why every sheet has an id of its own
 * and nothing is kept under a fixed name.
 */
export function createShelfStore(open: (closed: () => void) => Promise<ShelfDatabase> = openShelfDatabase): ShelfStore {
  const work = createConnection(open);
  let latest = 0;
  const note = (sheet: KeptSheet): KeptSheet => {
    latest = Math.max(latest, sheet.order ?? 0);
    return sheet;
  };
  return {
    list: () => work(async (database) => (await database.all()).flatMap(({ value }) => readKeptSheet(value) ?? []).map(note).sort(newestFirst)),
    damaged: () => work(async (database) => (await database.all()).flatMap(({ key, value }) =>
      (readKeptSheet(value) === undefined ? [{ key, content: asJson(value) }] : []))),
    ids: () => work((database) => database.keys()),
    read: (id) => work(async (database) => readKeptSheet(await database.get(id))),
    save: (sheet, knownRevision) => work((database) => database.change<Saved>(sheet.id, (value) => {
      const present = readKeptSheet(value);
      const isDamaged = value !== undefined && present === undefined;
      if (isDamaged || (present !== undefined && present.revision !== knownRevision && present.text !== sheet.text)) return { answer: { done: false } };
      // Deleted and put back, a sheet goes on counting: a window that knew it before must notice.
      const revision = Math.max(knownRevision, present?.revision ?? 0) + 1;
      return { put: note({ ...sheet, revision, order: latest + 1 }), answer: { done: true, revision } };
    })),
    remove: (id) => work(async (database) => {
      const gone = await database.get(id);
      await database.remove(id);
      return { putBack: () => work((again) => again.putBack(id, gone)) };
    }),
  };
}

function asJson(value: unknown): string {
  try {
    return JSON.stringify(value, null, 1) ?? String(value);
  } catch {
    return String(value);
  }
}

/** A sheet id that no other sheet has; works on pages without a secure context too. */
export function freshSheetId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
