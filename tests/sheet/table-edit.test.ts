import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyEdit, createHistory, parseSheet, rowsText, serialiseSheet } from '../../src/sheet/index.ts';
import type { EditCommand, SheetDocument } from '../../src/sheet/index.ts';
import { tableOf, tableSheet } from './table-texts.ts';
import { fieldText } from './texts.ts';
import { cases } from '../sizes.ts';

const cellId = 'specimens';
const TEXTS = [
  'specimen,S [MPa],N,outcome\nA1,380,41200,fracture\nA2,360,"98,000",runout\nA3,340\n',
  'Specimen;Stress amplitude / MPa;Life;colour\nA1;380,5;41200;red\n\nA2;"360,5";98000;"a;b"\n',
  'specimen\tS\tN\nA1\t380\t41200\nA2\t\t\n',
  'specimen\nA1\nA2\n',
];

function apply(document: SheetDocument, command: EditCommand): SheetDocument {
  const result = applyEdit(document, command);
  if (!result.ok) throw new Error(`${result.problem.code}: ${result.problem.what}`);
  return result.value;
}

/** The fields of a table by row and shown column, as the page shows them. */
function grid(document: SheetDocument): string[][] {
  const { rows, shown } = rowsText(tableOf(document));
  return rows.map(({ fields }) => shown.map(({ place }) => (place === undefined ? '' : fields[place] ?? '')));
}

const names = (document: SheetDocument): string[] => rowsText(tableOf(document)).shown.map(({ name }) => name);
const rowsAfter = (text: string, command: EditCommand): string => tableOf(apply(tableSheet(text), command)).rows;
// What a table keeps of any text: LF, nothing unseen. Written here anew, sign by sign.
const kept = (text: string): string =>
  [...text.replaceAll('\r\n', '\n').replaceAll('\r', '\n')].filter((sign) => sign === '\n' || sign === '\t' || !/[\p{Cc}\p{Cs}\u2028\u2029\uFEFF\uFFFE\uFFFF]/u.test(sign)).join('').replace(/\n +(?=\n)/g, '\n');

describe('setting one cell', () => {
  it('changes that field and no other sign of the document', () => {
    expect(rowsAfter(TEXTS[0] ?? '', { do: 'set table cell', cellId, row: 1, column: 'N', text: '97000' })).toBe(
      'specimen,S [MPa],N,outcome\nA1,380,41200,fracture\nA2,360,"97000",runout\nA3,340\n',
    );
    expect(rowsAfter(TEXTS[1] ?? '', { do: 'set table cell', cellId, row: 0, column: 'S', text: '381,5' })).toContain('A1;381,5;41200;red\n\nA2');
    expect(rowsAfter(TEXTS[1] ?? '', { do: 'set table cell', cellId, row: 0, column: 'colour', text: 'a;b' })).toContain('41200;"a;b"\n');
  });

  it('fills up a short row, and gives a column that the text lacks its place', () => {
    expect(rowsAfter(TEXTS[0] ?? '', { do: 'set table cell', cellId, row: 2, column: 'outcome', text: 'runout' })).toContain('A3,340,,runout\n');
    expect(rowsAfter(TEXTS[3] ?? '', { do: 'set table cell', cellId, row: 1, column: 'S', text: '380' })).toBe('specimen,S [MPa]\nA1\nA2,380\n');
    expect(rowsAfter(TEXTS[3] ?? '', { do: 'set table cell', cellId, row: 2, column: 'S', text: '380' })).toBe('specimen,S [MPa]\nA1\nA2\n,380\n');
  });

  it('begins a table that has no rows yet with the header of its columns', () => {
    const empty = parseSheet(serialiseSheet(tableSheet('x')).replace('rows: |\n  x\n', ''));
    expect(tableOf(apply(empty, { do: 'set table cell', cellId, row: 0, column: 'S', text: '380' })).rows).toBe(
      'specimen,group,S [MPa],N [cycles],outcome,valid,note\n,,380,,,,\n',
    );
  });

  it('reads back the text that was set, and leaves all others, in any document', () => {
    fc.assert(
      fc.property(fc.constantFrom(...TEXTS), fc.nat(), fc.nat(), fieldText, fc.constantFrom('\n', '\r\n'), (text, rowPick, columnPick, value, end) => {
        const before = parseSheet(serialiseSheet(tableSheet(text)).replaceAll('\n', end));
        const row = rowPick % (rowsText(tableOf(before)).rows.length + 1);
        const columns = names(before);
        const place = columnPick % columns.length;
        const after = apply(before, { do: 'set table cell', cellId, row, column: columns[place] ?? '', text: value });
        const expected = grid(before).map((fields) => [...fields]);
        if (row === expected.length) expected.push(columns.map(() => ''));
        const fields = expected[row];
        if (fields !== undefined) fields[place] = kept(value);
        expect(grid(after)).toEqual(expected);
        expect(serialiseSheet(after).replaceAll(end, '')).not.toMatch(end === '\n' ? /\r/ : /[\r\n]/);
        expect(parseSheet(serialiseSheet(after))).toEqual(after);
        expect(after.blocks.length).toBe(3);
      }),
      { numRuns: cases(400) },
    );
  });

  it('says why where there is no such row, column or table', () => {
    const document = tableSheet(`${TEXTS[0] ?? ''}A4,1,2,runout,surplus\n`);
    const code = (command: EditCommand) => {
      const result = applyEdit(document, command);
      return result.ok ? 'done' : result.problem.code;
    };
    expect(code({ do: 'set table cell', cellId, row: 9, column: 'S', text: '1' })).toBe('row-gone');
    expect(code({ do: 'set table cell', cellId, row: 0, column: 'X', text: '1' })).toBe('column-gone');
    expect(code({ do: 'set table cell', cellId, row: 0, column: 'group', text: 'K' })).toBe('row-too-long');
    expect(code({ do: 'set table cell', cellId: 'gone', row: 0, column: 'S', text: '1' })).toBe('block-gone');
    expect(code({ do: 'paste cells', cellId, row: 0, column: 'note', text: 'a\tb' })).toBe('paste-too-wide');
    expect(code({ do: 'delete rows', cellId, at: 3, count: 2 })).toBe('row-gone');
    expect(code({ do: 'order rows', cellId, order: [0, 0, 1, 2] })).toBe('order-incomplete');
    expect(applyEdit(parseSheet('```remark\nid: r\nheading: x\n```\n'), { do: 'insert rows', cellId: 'r', at: 0, count: 1 })).toMatchObject({ ok: false, problem: { code: 'not-a-table' } });
  });
});

describe('pasting a block', () => {
  it('puts every text of a random block where it belongs and leaves all others', () => {
    const text = fc.oneof(fc.constantFrom('', '380,5', 'a"b', 'a;b', 'a,b', '007'), fc.string({ maxLength: 6 }));
    const block = fc.integer({ min: 1, max: 4 }).chain((width) => fc.array(fc.array(text, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 5 }));
    fc.assert(
      fc.property(fc.constantFrom(...TEXTS), fc.nat(), fc.nat(), block, (rows, rowPick, columnPick, fields) => {
        const before = tableSheet(rows);
        const columns = names(before);
        const width = fields[0]?.length ?? 1;
        const column = columnPick % (columns.length - width + 1);
        const row = rowPick % (rowsText(tableOf(before)).rows.length + 1);
        // A spreadsheet puts quotation marks around what holds some; a blank line of one column is an empty cell.
        const written = fields.map((line) => line.map((one) => (/["\t\n]/.test(one) ? `"${one.replaceAll('"', '""')}"` : one)).join('\t'));
        const isSingle = width === 1;
        fc.pre(!isSingle || (fields.at(-1)?.[0] !== '' && !written.join('').includes('"')));
        const after = apply(before, { do: 'paste cells', cellId, row, column: columns[column] ?? '', text: `${written.join('\r\n')}\r\n` });
        const expected = grid(before).map((line) => [...line]);
        fields.forEach((line, i) => {
          const target = (expected[row + i] ??= columns.map(() => ''));
          line.forEach((one, j) => (target[column + j] = kept(one)));
        });
        expect(grid(after)).toEqual(expected);
      }),
      { numRuns: cases(300) },
    );
  });
});

describe('rows', () => {
  const text = 'specimen,S\na,1\nb,2\n\nc,3\n';
  const letters = (command: EditCommand) => grid(apply(tableSheet(text), command)).map(([specimen]) => specimen);

  it('are put in, taken out, moved and ordered', () => {
    expect(letters({ do: 'insert rows', cellId, at: 1, count: 2 })).toEqual(['a', '', '', 'b', 'c']);
    expect(letters({ do: 'insert rows', cellId, at: 3, count: 1 })).toEqual(['a', 'b', 'c', '']);
    expect(letters({ do: 'delete rows', cellId, at: 0, count: 2 })).toEqual(['c']);
    expect(letters({ do: 'move rows', cellId, at: 0, count: 2, to: 1 })).toEqual(['c', 'a', 'b']);
    expect(letters({ do: 'order rows', cellId, order: [2, 0, 1] })).toEqual(['c', 'a', 'b']);
  });

  it('come from another text as a whole, without its mark and blank ends, and can be taken out as a whole', () => {
    expect(rowsAfter(text, { do: 'replace rows', cellId, text: '\uFEFF\r\nspecimen;S\r\nx;380,5\r\n\r\n' })).toBe('specimen;S\nx;380,5\n');
    expect(rowsAfter(text, { do: 'replace rows', cellId, text: '' })).toBe('');
  });

  it('have an edit undone to the same bytes, and done again', () => {
    const command = fc.oneof(
      fc.record({ do: fc.constant('set table cell' as const), cellId: fc.constant(cellId), row: fc.nat(4), column: fc.constantFrom('S', 'note', 'specimen'), text: fieldText }),
      fc.record({ do: fc.constant('insert rows' as const), cellId: fc.constant(cellId), at: fc.nat(4), count: fc.nat(2) }),
      fc.record({ do: fc.constant('delete rows' as const), cellId: fc.constant(cellId), at: fc.nat(4), count: fc.nat(2) }),
      fc.record({ do: fc.constant('move rows' as const), cellId: fc.constant(cellId), at: fc.nat(3), count: fc.nat(2), to: fc.nat(3) }),
      fc.record({ do: fc.constant('paste cells' as const), cellId: fc.constant(cellId), row: fc.nat(3), column: fc.constant('specimen'), text: fieldText }),
      fc.record({ do: fc.constant('replace rows' as const), cellId: fc.constant(cellId), text: fieldText }),
    );
    fc.assert(
      fc.property(fc.constantFrom(...TEXTS), fc.array(command, { maxLength: 8 }), (rows, commands) => {
        const history = createHistory(tableSheet(rows));
        const states = [serialiseSheet(history.document)];
        for (const next of commands) {
          history.settle();
          const before = history.document;
          if (history.apply(next).ok && history.document !== before) states.push(serialiseSheet(history.document));
        }
        const last = states.at(-1);
        for (const state of states.toReversed().slice(1)) {
          expect(history.undo()).toBe(true);
          expect(serialiseSheet(history.document)).toBe(state);
        }
        expect(history.canUndo).toBe(false);
        while (history.redo());
        expect(serialiseSheet(history.document)).toBe(last);
      }),
    );
  });

  it('take typing into one cell as one step', () => {
    const history = createHistory(tableSheet(text));
    for (const typed of ['3', '38', '380']) history.apply({ do: 'set table cell', cellId, row: 0, column: 'S', text: typed });
    history.apply({ do: 'set table cell', cellId, row: 1, column: 'S', text: '4' });
    history.undo();
    history.undo();
    expect(history.canUndo).toBe(false);
    expect(tableOf(history.document).rows).toBe(text);
  });
});
