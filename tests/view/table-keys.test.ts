/** Where keys lead in a table, and which of its rows are in the page. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isBlockOfFields, placeAfter, type Caret, type TableShape } from '../../src/view/cells/table-keys.ts';
import { lastWindow, ROWS_AT_ONCE, windowFor, type Place } from '../../src/view/cells/table-ui.ts';

/** Three rows and the new one after them; the third column is computed. */
const SHAPE = { lastRow: 3, editable: [true, true, false, true], holdsSomething: true, endsWithNew: true };
const press = (key: string, held: Partial<Record<'shiftKey' | 'altKey' | 'ctrlKey', boolean>> = {}) =>
  ({ key, ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, ...held });
const caret = (start: number, end = start, length = 3): Caret => ({ start, end, length });
const from = (key: string, row: number, column: number, at: Caret = caret(0, 3)) => placeAfter(press(key), at, { row, column }, SHAPE);

describe('keys in a table', () => {
  test('up and down go on in the column, as far as the blank row after the last', () => {
    expect([from('ArrowDown', 0, 1), from('ArrowUp', 2, 1)]).toEqual([{ row: 1, column: 1 }, { row: 1, column: 1 }]);
    expect([from('ArrowDown', 3, 0), from('ArrowUp', 0, 0)]).toEqual([{ row: 3, column: 0 }, { row: 0, column: 0 }]);
  });

  const enter = (row: number, column: number, state: Partial<TableShape> = {}, held = {}) =>
    placeAfter(press('Enter', held), caret(0, 3), { row, column }, { ...SHAPE, ...state });

  test('Enter goes along the row past what is computed, and from its last field to the next row', () => {
    expect([enter(0, 0), enter(0, 1), enter(0, 3), enter(1, 3)]).toEqual([{ row: 0, column: 1 }, { row: 0, column: 3 }, { row: 1, column: 0 }, { row: 2, column: 0 }]);
    const back = (row: number, column: number) => enter(row, column, {}, { shiftKey: true });
    expect([back(1, 3), back(1, 0), back(0, 0)]).toEqual([{ row: 1, column: 1 }, { row: 0, column: 3 }, { row: 0, column: 0 }]);
  });

  test('Enter leads to the new row only from a row that holds something; from the new one itself it leads out', () => {
    expect(enter(2, 3)).toEqual({ row: 3, column: 0 });
    expect(enter(2, 3, { holdsSomething: false })).toBe('out');
    expect(enter(3, 0, { holdsSomething: false })).toEqual({ row: 3, column: 1 });
    expect(enter(3, 3, { holdsSomething: false })).toBe('out');
    // Something has been typed in the new row: it is one of the others, and the new one comes after it.
    expect(enter(3, 3, { lastRow: 4 })).toEqual({ row: 4, column: 0 });
    // Of rows that are picked to look at the last is a row like the others.
    expect([enter(2, 3, { holdsSomething: false, endsWithNew: false }), enter(3, 3, { endsWithNew: false })]).toEqual([{ row: 3, column: 0 }, 'out']);
  });

  test('Enter again and again comes past each field once and out of the table, and begins no row', () => {
    fc.assert(fc.property(fc.integer({ min: 1, max: 6 }), fc.array(fc.boolean(), { minLength: 1, maxLength: 6 }), (rows, columns) => {
      const editable = [true, ...columns];
      const passed: string[] = [];
      let at: Place | 'out' | undefined = { row: 0, column: 0 };
      while (at !== undefined && at !== 'out' && passed.length < 100) {
        passed.push(`${at.row}/${at.column}`);
        at = placeAfter(press('Enter'), caret(0, 3), at, { lastRow: rows, editable, holdsSomething: at.row < rows, endsWithNew: true });
      }
      expect(at).toBe('out');
      expect(new Set(passed).size).toBe(passed.length);
      expect(passed).toHaveLength((rows + 1) * editable.filter(Boolean).length);
    }), { seed: 20261128 });
  });

  test('left and right stay in the text until its ends, and pass over what is computed', () => {
    expect([from('ArrowRight', 0, 0, caret(1)), from('ArrowLeft', 0, 1, caret(1)), from('ArrowRight', 0, 0, caret(1, 2))]).toEqual([undefined, undefined, undefined]);
    expect([from('ArrowRight', 0, 1, caret(3)), from('ArrowLeft', 0, 3, caret(0))]).toEqual([{ row: 0, column: 3 }, { row: 0, column: 1 }]);
    expect([from('ArrowRight', 0, 3), from('ArrowLeft', 0, 0)]).toEqual([{ row: 0, column: 3 }, { row: 0, column: 0 }]);
    expect(from('ArrowLeft', 0, 1, caret(0, 0, 0))).toEqual({ row: 0, column: 0 });
  });

  test('Tab, letters and keys that are held with others are none of the table’s', () => {
    for (const key of ['Tab', 'a', 'Home', 'Delete', 'Escape']) expect(from(key, 1, 1)).toBeUndefined();
    expect(placeAfter(press('ArrowUp', { altKey: true }), caret(0), { row: 1, column: 1 }, SHAPE)).toBeUndefined();
    expect(placeAfter(press('ArrowRight', { shiftKey: true }), caret(3), { row: 1, column: 1 }, SHAPE)).toBeUndefined();
    expect(placeAfter(press('Enter', { ctrlKey: true }), caret(3), { row: 1, column: 1 }, SHAPE)).toBeUndefined();
  });

  test('a pasted word is typed; lines and tabs are a block', () => {
    expect(['380', '380\n', '380\r\n', 'steel K'].map(isBlockOfFields)).toEqual([false, false, false, false]);
    expect(['1\t2', '1\n2', '1\r\n2\r\n', '\t', '\n\n'].map(isBlockOfFields)).toEqual([true, true, true, true, true]);
  });
});

describe('the rows in the page', () => {
  test('always hold the row that is gone to, and begin where there are rows', () => {
    fc.assert(fc.property(fc.nat(100_000), fc.nat(1_000_000), fc.nat(1_000_000), (rowCount, seed, start) => {
      const row = seed % (rowCount + 1);
      const first = windowFor(row, start % (rowCount + 1), rowCount);
      expect(first).toBeGreaterThanOrEqual(0);
      expect(first).toBeLessThanOrEqual(lastWindow(rowCount));
      expect(row - first).toBeGreaterThanOrEqual(0);
      expect(row - first).toBeLessThan(ROWS_AT_ONCE);
    }), { seed: 20261120 });
  });

  test('stay where they are while the row is among them', () => {
    expect([windowFor(120, 100, 1000), windowFor(199, 100, 1000)]).toEqual([100, 100]);
    expect([windowFor(200, 100, 1000), windowFor(5, 100, 1000)]).toEqual([150, 0]);
  });
});
