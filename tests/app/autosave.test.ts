/** Keeping against a shelf in memory: when it saves, and that no window ever writes over another. */
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { createAutosave, type KeepingState } from '../../src/app/autosave.ts';
import { keepLastWords } from '../../src/app/last-words.ts';
import type { KeptSheet } from '../../src/app/kept-sheet.ts';
import { createShelfStore, type ShelfStore } from '../../src/app/shelf-store.ts';
import { memoryDatabase } from './memory-database.ts';

/** The store itself over a database in memory, which can be told to refuse. */
function shelf(): ShelfStore & { readonly sheets: Map<string, KeptSheet>; refuse: Error | undefined } {
  const { database, records, trouble } = memoryDatabase();
  return Object.defineProperty(Object.assign(createShelfStore(async () => database), { sheets: records as Map<string, KeptSheet>, refuse: undefined as Error | undefined }), 'refuse', {
    get: () => trouble.refuse,
    set: (error: Error | undefined) => {
      trouble.refuse = error;
    },
  });
}

/** The browser's small synchronous storage: keys are properties, as `Object.keys` sees them. */
function synchronousStorage(): Storage {
  const methods = {
    getItem: (key: string) => (Object.hasOwn(entries, key) ? (entries[key] ?? null) : null),
    setItem: (key: string, value: string) => void (entries[key] = value),
    removeItem: (key: string) => void delete entries[key],
  };
  const entries = Object.create(methods) as Record<string, string>;
  return entries as unknown as Storage;
}

function window(store: ShelfStore, sheet: Pick<KeptSheet, 'id' | 'revision' | 'isCopy'>) {
  const states: KeepingState[] = [];
  const at = { text: '' };
  const autosave = createAutosave({
    store, sheet, report: (state) => states.push(state), now: () => new Date('2026-11-20T09:12:00Z'),
    read: () => ({ title: 'A sheet', detail: '', text: at.text }),
  });
  const type = (text: string): void => {
    at.text = text;
    autosave.touch();
  };
  return { autosave, states, type };
}

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal('localStorage', synchronousStorage());
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const NEW = { id: 'one', revision: 0, isCopy: false };

describe('autosave', () => {
  test('keeps the last of a burst of keys within a second, once', async () => {
    const store = shelf();
    const save = vi.spyOn(store, 'save');
    const { type, states } = window(store, NEW);
    for (const text of ['a', 'ab', 'abc']) {
      type(text);
      await vi.advanceTimersByTimeAsync(100);
    }
    await vi.advanceTimersByTimeAsync(900);
    expect(store.sheets.get('one')?.text).toBe('abc');
    expect(save).toHaveBeenCalledTimes(1);
    expect(states.at(-1)?.state).toBe('kept');
  });

  test('a window that comes second goes on as a copy, also with its later changes', async () => {
    const store = shelf();
    const first = window(store, NEW);
    const second = window(store, NEW);
    first.type('first');
    await vi.advanceTimersByTimeAsync(1000);
    second.type('second');
    await vi.advanceTimersByTimeAsync(1000);
    expect(second.states.at(-1)?.state).toBe('copied');
    expect(second.autosave.sheetId()).not.toBe('one');
    second.type('second again');
    first.type('first again');
    await vi.advanceTimersByTimeAsync(1000);
    const kept = [...store.sheets.values()].map(({ text, isCopy }) => ({ text, isCopy }));
    expect(kept).toEqual([{ text: 'first again', isCopy: false }, { text: 'second again', isCopy: true }]);
  });

  test('what the browser refuses is said in words, and the next change tries again at once', async () => {
    const store = shelf();
    const { type, states } = window(store, NEW);
    store.refuse = new DOMException('full', 'QuotaExceededError');
    type('a');
    await vi.advanceTimersByTimeAsync(1000);
    expect(states.at(-1)).toEqual({ state: 'failed', reason: 'there is no room left for it in this browser' });
    store.refuse = undefined;
    type('ab');
    await vi.advanceTimersByTimeAsync(1000);
    expect(states.at(-1)?.state).toBe('kept');
  });

  test('what was refused is tried again by itself, and kept once it can be', async () => {
    const store = shelf();
    const { type, states } = window(store, NEW);
    store.refuse = new Error('closed');
    type('a');
    await vi.advanceTimersByTimeAsync(1500);
    expect(states.at(-1)?.state).toBe('failed');
    store.refuse = undefined;
    await vi.advanceTimersByTimeAsync(2500);
    expect(states.at(-1)?.state).toBe('kept');
    expect(store.sheets.get('one')?.text).toBe('a');
  });

  test.each([50, 100, 250, 290, 450])('under keys every %i ms nothing is older than a second in the database, and “kept” is said of nothing else', async (pace) => {
    const store = shelf();
    const { type, states } = window(store, NEW);
    const typedAt: number[] = [];
    for (let i = 0; i < 60; i += 1) {
      typedAt.push(performance.now());
      type(String(i));
      await vi.advanceTimersByTimeAsync(pace);
      const kept = Number(store.sheets.get('one')?.text ?? -1);
      const oldest = typedAt[kept + 1] ?? performance.now();
      expect(performance.now() - oldest).toBeLessThanOrEqual(1000);
      expect(states.at(-1)?.state === 'kept' && kept !== i).toBe(false);
    }
  });

  test('a saving that takes long is followed by the next at once, and nothing is said to be kept that is not', async () => {
    const { database, records } = memoryDatabase(900);
    const { type, states } = window(createShelfStore(async () => database), NEW);
    for (let i = 0; i < 40; i += 1) {
      type(String(i));
      await vi.advanceTimersByTimeAsync(100);
      const claimed = states.at(-1)?.state === 'kept' ? String(i) : undefined;
      expect([undefined, (records.get('one') as KeptSheet | undefined)?.text]).toContain(claimed);
    }
    await vi.advanceTimersByTimeAsync(2500);
    expect((records.get('one') as KeptSheet).text).toBe('39');
    expect(states.at(-1)?.state).toBe('kept');
  });

  test('a sheet that was deleted and put back in one window takes nothing from what another one types', async () => {
    const store = shelf();
    const first = window(store, NEW);
    first.type('310 N');
    await vi.advanceTimersByTimeAsync(1000);
    const other = window(store, { ...NEW, revision: 1 });
    const gone = store.sheets.get('one') as KeptSheet;
    await store.remove('one');
    await store.save({ ...gone, text: 'put back, 383 N' }, gone.revision);
    other.type('typed elsewhere');
    await vi.advanceTimersByTimeAsync(1000);
    expect([...store.sheets.values()].map(({ text }) => text)).toEqual(['put back, 383 N', 'typed elsewhere']);
    expect(other.states.at(-1)).toMatchObject({ state: 'copied', otherId: 'one' });
  });

  test('a page that is closed at once leaves its last words, which the next one keeps', async () => {
    const store = shelf();
    const { type, autosave } = window(store, NEW);
    type('kept');
    await vi.advanceTimersByTimeAsync(1000);
    expect(Object.keys(localStorage)).toEqual([]);
    type('the last key');
    // The page is gone before the database answers.
    store.refuse = new Error('gone');
    autosave.leave();
    await vi.advanceTimersByTimeAsync(1000);
    store.refuse = undefined;
    expect(store.sheets.get('one')?.text).toBe('kept');
    await keepLastWords(store);
    expect(store.sheets.get('one')?.text).toBe('the last key');
    expect(Object.keys(localStorage)).toEqual([]);
  });

  test('a sheet that is left while keeping fails is set aside, and says nothing of the one that is opened next', async () => {
    const store = shelf();
    const { type, autosave, states } = window(store, NEW);
    store.refuse = new Error('closed');
    type('not kept');
    await vi.advanceTimersByTimeAsync(1000);
    autosave.leave();
    autosave.dispose();
    const said = states.length;
    store.refuse = undefined;
    await vi.advanceTimersByTimeAsync(5000);
    expect(states.length).toBe(said);
    await keepLastWords(store);
    expect(store.sheets.get('one')?.text).toBe('not kept');
  });

  test('last words never write over what another window kept since', async () => {
    const store = shelf();
    const { type, autosave } = window(store, NEW);
    type('mine');
    store.refuse = new Error('gone');
    autosave.leave();
    await vi.advanceTimersByTimeAsync(1000);
    store.refuse = undefined;
    const other = window(store, NEW);
    other.type('theirs');
    await vi.advanceTimersByTimeAsync(1000);
    await keepLastWords(store);
    expect([...store.sheets.values()].map(({ text, isCopy }) => ({ text, isCopy }))).toEqual([
      { text: 'theirs', isCopy: false },
      { text: 'mine', isCopy: true },
    ]);
  });

  test('what other pages left in the small storage is passed over', async () => {
    const store = shelf();
    localStorage.setItem('spanlife-last-words:x', '{"id": 1}');
    localStorage.setItem('spanlife-last-words:y', 'no JSON');
    localStorage.setItem('else', '{}');
    await keepLastWords(store);
    expect(store.sheets.size).toBe(0);
  });
});
