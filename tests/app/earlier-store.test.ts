/** Earlier states over a database in memory: what is added, thinned, given up, taken out and put back. */
import { describe, expect, test, vi } from 'vitest';
import { createEarlierStates, keepingEarlier, type EarlierStates } from '../../src/app/earlier-store.ts';
import { stretchKey, type EarlierState, type Stretch } from '../../src/app/earlier-stretch.ts';
import { createShelfStore } from '../../src/app/shelf-store.ts';
import { memoryDatabase } from './memory-database.ts';

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;
const BEGAN = 20_000 * DAY;

function states() {
  const memory = memoryDatabase<Stretch>();
  const clock = { now: BEGAN };
  const earlier = createEarlierStates(() => clock.now, async () => memory.database);
  const add = (text: string, minutes: number, sheet = 'one'): Promise<void> => {
    clock.now = BEGAN + minutes * MINUTE;
    return earlier.add(sheet, { at: clock.now, revision: 1, text });
  };
  return { ...memory, earlier, add };
}

const textsOf = async (earlier: EarlierStates, sheet = 'one'): Promise<string[]> => (await earlier.list(sheet)).map(({ text }: EarlierState) => text);

describe('adding', () => {
  test('newest first, each sheet by itself, and one that says the same as the last is not added again', async () => {
    const { earlier, add } = states();
    await add('a', 0);
    await add('b', 1);
    await add('b', 2);
    await add('other', 2, 'two');
    await add('a', 3);
    expect(await textsOf(earlier)).toEqual(['a', 'b', 'a']);
    expect(await textsOf(earlier, 'two')).toEqual(['other']);
    expect(await textsOf(earlier, 'three')).toEqual([]);
  });

  test('states that are added at once come one after the other', async () => {
    const { earlier, add } = states();
    await Promise.all(['a', 'b', 'c'].map((text, i) => add(text, i)));
    expect(await textsOf(earlier)).toEqual(['c', 'b', 'a']);
  });

  test('all of an hour stay, of the hour before one each ten minutes', async () => {
    const { earlier, add } = states();
    for (let minute = 0; minute <= 120; minute += 1) await add(`minute ${minute}`, minute);
    const there = await textsOf(earlier);
    expect(there.slice(0, 61)).toEqual(Array.from({ length: 61 }, (_, i) => `minute ${120 - i}`));
    // They are thinned with each new stretch, at most ten minutes apart.
    expect(there.slice(-4)).toEqual(['minute 39', 'minute 29', 'minute 19', 'minute 9']);
  });

  test('texts beyond all room leave the newest', async () => {
    const { earlier, add } = states();
    for (let i = 0; i < 4; i += 1) await add(String(i).repeat(7_000_000), 20 * i);
    expect((await textsOf(earlier)).map((text) => text[0])).toEqual(['3', '2']);
  });
});

describe('records that are none', () => {
  test.each([['nothing', null], ['an empty object', {}], ['a splice beyond its base', { id: stretchKey('one', 0), base: 'a', states: [{ at: 1, revision: 1, text: '', start: 0, end: 9 }] }]])('%s: passed over, never written over', async (_, bad) => {
    const { earlier, add, records } = states();
    records.set(stretchKey('one', 0), bad);
    records.set('not a key', bad);
    await add('a', 0);
    await add('b', 1);
    expect(await textsOf(earlier)).toEqual(['b', 'a']);
    expect(records.get(stretchKey('one', 0))).toBe(bad);
  });
});

describe('going with the sheet', () => {
  test('taken out with it and put back with it', async () => {
    const { earlier, add, records } = states();
    await add('a', 0);
    await add('b', 20);
    await add('other', 21, 'two');
    const taken = await earlier.take('one');
    expect([...records.keys()]).toEqual([stretchKey('two', 0)]);
    await earlier.putBack(taken);
    expect(await textsOf(earlier)).toEqual(['b', 'a']);
  });

  test('those of a sheet that a page of before deleted are swept out; those of one that is just being kept are not', async () => {
    const { earlier, add } = states();
    await add('a', 0);
    await add('gone', 0, 'two');
    await add('new', 90, 'three');
    await earlier.sweep(new Set(['one']));
    expect([await textsOf(earlier), await textsOf(earlier, 'two'), await textsOf(earlier, 'three')]).toEqual([['a'], [], ['new']]);
  });
});

describe('keeping with earlier states', () => {
  const SHEET = { id: 'one', title: 'T', detail: '', text: 'a', changed: new Date(BEGAN).toISOString(), isCopy: false };

  test('each saving is an earlier state; one that is refused is none', async () => {
    const { earlier } = states();
    const store = keepingEarlier(createShelfStore(async () => memoryShelf.database), earlier);
    const memoryShelf = memoryDatabase();
    await store.save(SHEET, 0);
    await store.save({ ...SHEET, text: 'b' }, 1);
    expect(await store.save({ ...SHEET, text: 'late' }, 1)).toEqual({ done: false });
    expect(await textsOf(earlier)).toEqual(['b', 'a']);
  });

  test('a sheet is kept though its earlier states can not be', async () => {
    const { earlier, trouble } = states();
    trouble.refuse = new DOMException('refused', 'SecurityError');
    const store = keepingEarlier(createShelfStore(async () => memoryDatabase().database), earlier);
    expect(await store.save(SHEET, 0)).toEqual({ done: true, revision: 1 });
  });

  test('a full browser: earlier states give way to the sheet, but for the newest of each', async () => {
    const { earlier, add } = states();
    await add('a', 0);
    await add('b', 20);
    await add('other', 21, 'two');
    const { database, trouble } = memoryDatabase();
    trouble.refuse = new DOMException('full', 'QuotaExceededError');
    const giveWay = vi.spyOn(earlier, 'giveWay').mockImplementation(async () => {
      giveWay.mockRestore();
      trouble.refuse = undefined;
      return earlier.giveWay();
    });
    const store = keepingEarlier(createShelfStore(async () => database), earlier);
    expect(await store.save({ ...SHEET, text: 'c' }, 0)).toEqual({ done: true, revision: 1 });
    expect([await textsOf(earlier), await textsOf(earlier, 'two')]).toEqual([['c', 'b'], ['other']]);
    trouble.refuse = new DOMException('full', 'QuotaExceededError');
    await expect(store.save({ ...SHEET, text: 'd' }, 1)).rejects.toThrow('full');
  });
});
