/** Whether a line that was taken is still what its source says. */
import { describe, expect, test } from 'vitest';
import { sourceNow, type SheetWithLines } from '../../src/view/line-shelf.ts';

const taken = new Map([['from', 'Class 4'], ['fit', 'line'], ['taken', '2026-11-20'], ['A', '30'], ['data', 'aa']]);
const sheet = (...changes: Readonly<Record<string, string>>[]): SheetWithLines => ({
  title: 'Class 4', detail: '', lines: changes.map((change) => ({ fitId: 'line', label: 'A line', snapshot: new Map([...taken, ...Object.entries(change)]) })),
});

describe('the source of a line', () => {
  test.each<[string, readonly SheetWithLines[], ReturnType<typeof sourceNow>['state'], boolean | undefined]>([
    ['is not here', [], 'not here', undefined],
    ['has another title', [sheet({ from: 'Class 5' })], 'not here', undefined],
    ['has another fit', [sheet({ fit: 'other' })], 'not here', undefined],
    ['has no line at the moment', [{ title: 'Class 4', detail: '', lines: [{ fitId: 'line', label: 'A line', trouble: 'Too few.' }] }], 'not here', undefined],
    ['says the same on another day', [sheet({ taken: '2026-12-01' })], 'same', undefined],
    ['has other tests', [sheet({ data: 'bb', A: '31' })], 'changed', true],
    ['draws the line otherwise', [sheet({ A: '31' })], 'changed', false],
    ['is one of two of that title', [sheet({ data: 'bb' }), sheet({})], 'same', undefined],
  ])('%s', (_what, sheets, state, tests) => {
    const now = sourceNow(taken, sheets);
    expect(now.state).toBe(state);
    expect(now.state === 'changed' ? now.tests : undefined).toBe(tests);
  });
});
