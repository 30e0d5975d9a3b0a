/** Damaged records, connections that close and clocks that are wrong: what is kept stays kept. */
import { describe, expect, test } from 'vitest';
import type { KeptSheet } from '../../src/app/kept-sheet.ts';
import { createShelfStore } from '../../src/app/shelf-store.ts';
import { memoryDatabase } from './memory-database.ts';

const sheet = (id: string, more: Partial<KeptSheet> = {}): Omit<KeptSheet, 'revision' | 'order'> =>
  ({ id, title: id, detail: '', text: `text of ${id}`, changed: '2026-11-20T09:00:00Z', isCopy: false, ...more });

const DAMAGE: readonly (readonly [string, unknown])[] = [
  ['nothing', null], ['a number', 7], ['a text', 'sheet'], ['an empty object', {}], ['no text', { id: 'bad', title: 'T', detail: '', changed: '2026-11-20T09:00:00Z', revision: 1, isCopy: false }],
  ['a text that is none', { ...sheet('bad'), revision: 1, text: 5 }], ['a title that is none', { ...sheet('bad'), revision: 1, title: { toString: 'x' } }],
  ['a revision that is no number', { ...sheet('bad'), revision: Number.NaN }], ['a time that is none', { ...sheet('bad'), revision: 1, changed: 'yesterday' }],
  ['another id than its key', { ...sheet('<img>'), revision: 1 }], ['an order beyond all counting', { ...sheet('bad'), revision: 1, order: 1e300 }],
];

describe('records that are no sheets', () => {
  test.each(DAMAGE)('%s: set aside, listed as it is, opens nothing and is never written over', async (_, value) => {
    const { database, records } = memoryDatabase();
    const store = createShelfStore(async () => database);
    await store.save(sheet('good'), 0);
    records.set('bad', value);
    expect((await store.list()).map(({ id }) => id)).toEqual(['good']);
    expect(await store.read('bad')).toBeUndefined();
    expect(await store.damaged()).toEqual([{ key: 'bad', content: JSON.stringify(value, null, 1) }]);
    expect(await store.save(sheet('bad'), 0)).toEqual({ done: false });
    expect(records.get('bad')).toBe(value);
    const { putBack } = await store.remove('bad');
    expect(await store.damaged()).toEqual([]);
    await putBack();
    expect(records.get('bad')).toBe(value);
    const again = await store.remove('bad');
    await store.save(sheet('bad'), 0);
    await again.putBack();
    expect(await store.read('bad')).toMatchObject({ id: 'bad', revision: 1 });
  });
});

describe('order', () => {
  test('what was saved last comes first, whatever the clock said', async () => {
    const store = createShelfStore(async () => memory.database);
    const memory = memoryDatabase();
    await store.save(sheet('from-the-future', { changed: '2031-01-01T00:00:00Z' }), 0);
    await store.save(sheet('today'), 0);
    expect((await store.list()).map(({ id }) => id)).toEqual(['today', 'from-the-future']);
    // A window that opens later goes on counting.
    const later = createShelfStore(async () => memory.database);
    await later.list();
    await later.save(sheet('third', { changed: '1999-01-01T00:00:00Z' }), 0);
    expect((await later.list())[0]?.id).toBe('third');
  });

  test('sheets from before there was a count come after, by their time', async () => {
    const { database, records } = memoryDatabase();
    records.set('old', { ...sheet('old'), revision: 3 });
    records.set('older', { ...sheet('older', { changed: '2025-11-20T09:00:00Z' }), revision: 9 });
    const store = createShelfStore(async () => database);
    await store.save(sheet('new', { changed: '2020-01-01T00:00:00Z' }), 0);
    expect((await store.list()).map(({ id }) => id)).toEqual(['new', 'old', 'older']);
  });
});

describe('connections', () => {
  test('one that was closed is opened anew within the same call', async () => {
    const { database, records } = memoryDatabase();
    let opened = 0;
    let isClosed = false;
    const store = createShelfStore(async () => {
      opened += 1;
      isClosed = false;
      return { ...database, change: async (key, decide) => {
        if (isClosed) throw new DOMException('closing', 'InvalidStateError');
        return database.change(key, decide);
      } };
    });
    await store.save(sheet('one'), 0);
    isClosed = true;
    expect(await store.save(sheet('one', { text: 'more' }), 1)).toEqual({ done: true, revision: 2 });
    expect(opened).toBe(2);
    expect((records.get('one') as KeptSheet).text).toBe('more');
  });

  test('a revision never begins anew, also where the record is gone', async () => {
    const { database } = memoryDatabase();
    const store = createShelfStore(async () => database);
    await store.save(sheet('one'), 0);
    await store.save(sheet('one', { text: 'two' }), 1);
    await store.remove('one');
    expect(await store.save(sheet('one', { text: 'back' }), 2)).toEqual({ done: true, revision: 3 });
    expect(await store.save(sheet('one', { text: 'late' }), 2)).toEqual({ done: false });
  });
});
