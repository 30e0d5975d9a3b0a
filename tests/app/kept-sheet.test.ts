/** The list of kept sheets: newest first when it is unfolded, and steady while somebody looks at it. */
import { describe, expect, test } from 'vitest';
import { inOrderSeen, newestFirst, type KeptSheet } from '../../src/app/kept-sheet.ts';

const kept = (id: string, order: number): KeptSheet => ({ id, title: id, detail: '', text: '', changed: '2026-11-20T09:00:00Z', revision: 1, isCopy: false, order });
const ids = (sheets: readonly KeptSheet[]) => sheets.map(({ id }) => id).join(' ');

describe('sheets in a list', () => {
  test('newest first', () => {
    expect(ids([kept('a', 1), kept('b', 3), kept('c', 2)].toSorted(newestFirst))).toBe('b c a');
  });

  test('stay where they stood when one of them is kept again; new ones come last, and what is gone leaves no gap', () => {
    const seen = [kept('b', 3), kept('c', 2), kept('a', 1)];
    const after = [kept('new', 6), kept('a', 5), kept('copy', 4), kept('b', 3)];
    const shown = inOrderSeen(after, seen);
    expect(ids(shown)).toBe('b a new copy');
    expect(shown.find(({ id }) => id === 'a')?.order).toBe(5);
  });

  test('seen for the first time, the order is the store’s', () => {
    expect(ids(inOrderSeen([kept('b', 3), kept('c', 2)], []))).toBe('b c');
  });
});
