/** Keeping against a shelf in memory: when it saves, and that no window ever writes over another. */
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { createAutosave, type KeepingState } from '../../src/app/autosave.ts';
import { keepLastWords } from '../../src/app/last-words.ts';
import type { KeptSheet, Saved, ShelfStore } from '../../src/app/shelf-store.ts';

function shelf(): ShelfStore & { readonly sheets: Map<string, KeptSheet>; refuse: Error | undefined } {
  const sheets = new Map<string, KeptSheet>();
  const store = {
    sheets,
    refuse: undefined as Error | undefined,
    list: async () => [...sheets.values()],
    read: async (id: string) => sheets.get(id),
    save: async (sheet: Omit<KeptSheet, 'revision'>, known: number): Promise<Saved> => {
      if (store.refuse !== undefined) throw store.refuse;
      const other = sheets.get(sheet.id);
      if (other !== undefined && other.revision !== known && other.text !== sheet.text) return { done: false, other };
      const revision = (other?.revision ?? 0) + 1;
      sheets.set(sheet.id, { ...sheet, revision });
      return { done: true, revision };
    },
    remove: async (id: string) => void sheets.delete(id),
  };
  return store;
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

function window(store: ShelfStore | undefined, sheet: Pick<KeptSheet, 'id' | 'revision' | 'isCopy'>) {
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

  test('what the browser refuses is said in words, and the next change tries again', async () => {
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
    const without = window(undefined, NEW);
    without.type('a');
    await vi.advanceTimersByTimeAsync(1000);
    expect(without.states.at(-1)).toEqual({ state: 'failed', reason: 'this browser keeps nothing for this page' });
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
