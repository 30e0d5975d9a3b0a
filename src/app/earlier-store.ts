import { createConnection, isFull } from './connection.ts';
import { beginStretch, readStretch, readStretchKey, sizeOf, statesOf, stretchKey, withState, type EarlierState, type Stretch } from './earlier-stretch.ts';
import { thinned } from './earlier-thinning.ts';
import { openEarlierDatabase, type EarlierDatabase } from './shelf-database.ts';
import type { ShelfStore } from './shelf-store.ts';

/** What sheets said before. Every call may reject; nothing else hangs on it. Records that are damaged are passed over. */
export interface EarlierStates {
  /** Adds a state after those of its sheet, unless the last one has the same text. States are added one after the other. */
  add(sheet: string, state: EarlierState): Promise<void>;
  /** Newest first, once all are added that were to be. */
  list(sheet: string): Promise<readonly EarlierState[]>;
  /** Takes all states of a sheet out, to be put back if the sheet is. */
  take(sheet: string): Promise<readonly Stretch[]>;
  putBack(stretches: readonly Stretch[]): Promise<void>;
  /** Makes room: of every sheet only the newest stretch stays. Tells whether there was anything to give up. */
  giveWay(): Promise<boolean>;
  /** Takes out the states of sheets that are not kept any more: pages of before, which know of none, delete sheets alone. */
  sweep(kept: ReadonlySet<string>): Promise<void>;
}

/** What the states of one sheet may take, in characters; the newest stretch stays whatever it takes. */
const LARGEST = 16_000_000;
/** A sheet that is just being kept for the first time may have states and no record yet: those of so long ago, ms, are left over. */
const LEFT_OVER = 3_600_000;

/** Earlier states in a database of their own. */
export function createEarlierStates(
  now: () => number, open: (closed: () => void) => Promise<EarlierDatabase> = openEarlierDatabase,
): EarlierStates {
  const work = createConnection(open);
  let adding: Promise<void> = Promise.resolve();
  const add = async (database: EarlierDatabase, sheet: string, state: EarlierState): Promise<void> => {
    const keys = await keysOf(database, sheet);
    const last = keys.at(-1);
    if (last !== undefined && await database.change(last, (value) => appended(value, state))) return;
    const fresh = stretchKey(sheet, last === undefined ? 0 : (readStretchKey(last)?.number ?? 0) + 1);
    await database.change(fresh, () => ({ put: beginStretch(fresh, state), answer: undefined }));
    if (last !== undefined) await tidy(database, [...keys, fresh], now());
  };
  return {
    add: (sheet, state) => {
      const added = adding.then(() => work((database) => add(database, sheet, state)));
      adding = added.catch(() => undefined);
      return added;
    },
    list: async (sheet) => {
      await adding;
      const stretches = await work(async (database) => read(database, await keysOf(database, sheet)));
      return stretches.flatMap(statesOf).reverse();
    },
    take: async (sheet) => {
      await adding;
      return work(async (database) => {
        const keys = await keysOf(database, sheet);
        const stretches = await read(database, keys);
        await Promise.all(keys.map(database.remove));
        return stretches;
      });
    },
    putBack: async (stretches) => {
      await work(async (database) => void (await Promise.all(stretches.map((put) => database.change(put.id, () => ({ put, answer: undefined }))))));
    },
    giveWay: () => work(async (database) => {
      const keys = (await database.keys()).toSorted();
      const older = keys.filter((key, i) => readStretchKey(key) !== undefined && readStretchKey(key)?.sheet === readStretchKey(keys[i + 1] ?? '')?.sheet);
      await Promise.all(older.map(database.remove));
      return older.length > 0;
    }),
    sweep: (kept) => work(async (database) => {
      const gone = new Map((await database.keys()).toSorted().flatMap((key) => {
        const sheet = readStretchKey(key)?.sheet;
        return sheet === undefined || kept.has(sheet) ? [] : [[sheet, key] as const];
      }));
      for (const [sheet, last] of gone) {
        const newest = readStretch(await database.get(last))?.states.at(-1)?.at ?? 0;
        if (Math.abs(now() - newest) > LEFT_OVER) await Promise.all((await keysOf(database, sheet)).map(database.remove));
      }
    }),
  };
}

async function keysOf(database: EarlierDatabase, sheet: string): Promise<readonly string[]> {
  return (await database.keys()).filter((key) => readStretchKey(key)?.sheet === sheet).toSorted();
}

async function read(database: EarlierDatabase, keys: readonly string[]): Promise<readonly Stretch[]> {
  return (await Promise.all(keys.map(database.get))).flatMap((value) => readStretch(value) ?? []);
}

/** A damaged record takes nothing more in, and is left as it is. */
function appended(value: unknown, state: EarlierState): { readonly put?: Stretch; readonly answer: boolean } {
  const stretch = readStretch(value);
  if (stretch === undefined) return { answer: false };
  if (statesOf(stretch).at(-1)?.text === state.text) return { answer: true };
  const put = withState(stretch, state);
  return put === undefined ? { answer: false } : { put, answer: true };
}

/** Thins what a sheet's stretches hold, then gives up the oldest of them while all take too much. */
async function tidy(database: EarlierDatabase, keys: readonly string[], now: number): Promise<void> {
  const stretches = await read(database, keys);
  const stays = thinned(stretches.flatMap(({ states }) => states.map(({ at }) => at)), now);
  let before = stays.length;
  let taken = 0;
  for (const stretch of stretches.toReversed()) {
    before -= stretch.states.length;
    const states = stretch.states.filter((_, i) => stays[before + i]);
    const thin = { ...stretch, states };
    const isNewest = stretch === stretches.at(-1);
    taken += states.length === 0 ? 0 : sizeOf(thin);
    if (states.length === 0 || (taken > LARGEST && !isNewest)) await database.remove(stretch.id);
    // Another window may have taken it out meanwhile, with its sheet.
    else if (states.length < stretch.states.length) await database.change(stretch.id, (value) => (value === undefined ? { answer: undefined } : { put: thin, answer: undefined }));
  }
}

/** The store, with each saving added to the earlier states. Where the browser is full, they give way to the sheet. */
export function keepingEarlier(store: ShelfStore, earlier: EarlierStates): ShelfStore {
  return {
    ...store,
    save: async (sheet, knownRevision) => {
      const saved = await store.save(sheet, knownRevision).catch(async (error: unknown) => {
        if (!isFull(error) || !(await earlier.giveWay().catch(() => false))) throw error;
        return store.save(sheet, knownRevision);
      });
      // A sheet is kept whether or not this can be.
      if (saved.done) void earlier.add(sheet.id, { at: Date.parse(sheet.changed), revision: saved.revision, text: sheet.text }).catch(() => undefined);
      return saved;
    },
  };
}
