import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { numbersOf, valuesOf } from '../../src/core/rows/index.ts';
import { readTable } from '../../src/graph/table/index.ts';
import { applyEdit, createHistory, fieldsOfRow, parseSheet, rowsText, serialiseSheet } from '../../src/sheet/index.ts';
import type { EditCommand, SheetDocument } from '../../src/sheet/index.ts';
import { sizeOfRows } from '../../src/sheet/table/rows-text.ts';
import { tableOf, tableSheet } from './table-texts.ts';
import { fieldText } from './texts.ts';

const cellId = 'specimens';
const ROWS = 900;

/** Many rows, with blank lines, quotation marks and fields that can't be read among them. */
function longText(separator: ',' | ';' | '\t'): string {
  const header = ['specimen', 'group', 'S [MPa]', 'N', 'outcome', 'note'].join(separator);
  const rows = Array.from({ length: ROWS }, (_, i) => {
    const note = i % 97 === 0 ? '"said ""no"""' : i % 101 === 0 ? `"two\nlines"` : '';
    const stress = i % 83 === 0 ? 'x' : separator === ',' ? 300 + (i % 7) : `${300 + (i % 7)},5`;
    return `${[`A${i}`, i % 2 === 0 ? 'K' : 'M', stress, 40_000 + i, i % 5 === 0 ? 'Runout' : 'fracture', note].join(separator)}${i % 211 === 0 ? '\n' : ''}`;
  });
  return `${header}\n${rows.join('\n')}\n`;
}

const near = fc.oneof(fc.nat(ROWS), fc.constantFrom(0, 1, ROWS - 1));
const value = fc.oneof(fieldText, fc.constantFrom('', '380', '380,5', '"', '"open', 'a"b', '```', '~~~', '\tx', ' 1', 'fracture', 'lost', 'a,b', 'a;b'));
const column = fc.constantFrom('specimen', 'S', 'N', 'outcome', 'note', 'valid');
const command: fc.Arbitrary<EditCommand> = fc.oneof(
  { weight: 6, arbitrary: fc.record({ do: fc.constant('set table cell' as const), cellId: fc.constant(cellId), row: near, column, text: value }) },
  fc.record({ do: fc.constant('insert rows' as const), cellId: fc.constant(cellId), at: near, count: fc.nat(3) }),
  fc.record({ do: fc.constant('delete rows' as const), cellId: fc.constant(cellId), at: near, count: fc.oneof(fc.nat(3), fc.nat(600)) }),
  fc.record({ do: fc.constant('move rows' as const), cellId: fc.constant(cellId), at: near, count: fc.nat(3), to: near }),
  fc.record({ do: fc.constant('paste cells' as const), cellId: fc.constant(cellId), row: near, column: fc.constant('specimen'), text: fc.array(value, { minLength: 1, maxLength: 3 }).map((lines) => lines.join('\n')) }),
  fc.record({ do: fc.constant('paste cells' as const), cellId: fc.constant(cellId), row: near, column: fc.constant('S'), text: fc.integer({ min: 250, max: 700 }).map((many) => '321\t9\n'.repeat(many)) }),
  fc.record({ do: fc.constant('set key' as const), cellId: fc.constant(cellId), key: fc.constantFrom('label', 'note', 'id'), value: fieldText }),
);

/** Everything that a table says, row by row. */
function told(document: SheetDocument): unknown {
  const table = tableOf(document);
  const rows = rowsText(table);
  const state = readTable(table);
  return {
    fields: Array.from({ length: rows.rows.length }, (_, row) => fieldsOfRow(rows, row)),
    head: rows.head,
    sizes: [sizeOfRows(rows), rows.isOpen],
    values: state.columns.map(({ name }) => [name, [...valuesOf(state.all, name)]]),
    used: state.columns.some(({ name }) => name === 'S') ? [...numbersOf(state.usable, 'S')] : [],
    marks: state.marks,
    rest: [state.rowCount, state.leftOut, state.blank, state.problems, state.warnings, state.echoes],
    surplus: Array.from({ length: rows.rows.length }, (_, row) => state.surplus(row)),
  };
}

describe('the rows of a table', () => {
  it('give after any edits exactly what the text read anew gives', () => {
    let near = 0;
    fc.assert(
      fc.property(fc.constantFrom(',' as const, ';' as const, '\t' as const), fc.constantFrom('\n', '\r\n'), fc.array(command, { minLength: 1, maxLength: 6 }), (separator, end, commands) => {
        let document = parseSheet(serialiseSheet(tableSheet(longText(separator))).replaceAll('\n', end));
        told(document);
        for (const next of commands) {
          const result = applyEdit(document, next);
          if (!result.ok || document.blocks.every(({ id }) => id !== cellId)) continue;
          const kept = new Set(rowsText(tableOf(document)).rows);
          if (!result.value.blocks.some(({ id }) => id === cellId)) break;
          document = result.value;
          if (rowsText(tableOf(document)).rows.some((row) => kept.has(row))) near++;
          const fresh = parseSheet(serialiseSheet(document));
          expect(document).toEqual(fresh);
          expect(told(document)).toEqual(told(fresh));
        }
      }),
      { numRuns: 20 },
    );
    expect(near).toBeGreaterThan(12);
  });

  it('hold of a step to undo only what the step changed', () => {
    const history = createHistory(tableSheet(longText(',')));
    const first = rowsText(tableOf(history.document));
    for (let row = 0; row < ROWS; row += 300) {
      history.settle();
      history.apply({ do: 'set table cell', cellId, row, column: 'N', text: '777' });
    }
    const last = rowsText(tableOf(history.document));
    expect(last.rows.flatMap((row, i) => (row === first.rows[i] ? [] : [i]))).toEqual([0, 300, 600]);
    while (history.undo());
    expect(rowsText(tableOf(history.document))).toBe(first);
  });

  it('leave all other blocks of the document as they are, below a row more too', () => {
    const document = tableSheet(longText(','));
    const inserted = applyEdit(document, { do: 'insert rows', cellId, at: 3, count: 1 });
    expect(inserted.ok && inserted.value.blocks.map((block, i) => block === document.blocks[i])).toEqual([true, false, true]);
  });
});
