import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyEdit, blockLine, parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';
import { cellOf, sheetLikeText } from './texts.ts';
import { cases } from '../sizes.ts';

const worksheet = shipped('rotating-bending');

describe('text in, the same text out', () => {
  it('gives back any text byte for byte, and parsing that again gives the same document', () => {
    fc.assert(
      fc.property(fc.oneof(sheetLikeText, fc.string({ unit: 'binary' })), (text) => {
        const document = parseSheet(text);
        expect(serialiseSheet(document)).toBe(text);
        expect(parseSheet(serialiseSheet(document))).toEqual(document);
      }),
      { numRuns: cases(1500) },
    );
  });

  it('gives every block an id of its own, the same in the block and in its cell', () => {
    fc.assert(
      fc.property(sheetLikeText, (text) => {
        const { blocks } = parseSheet(text);
        expect(new Set(blocks.map(({ id }) => id)).size).toBe(blocks.length);
        expect(blocks.filter(({ source }) => source === '')).toEqual([]);
        expect(blocks.filter((block) => block.kind === 'cell' && block.cell.id !== block.id)).toEqual([]);
      }),
      { numRuns: 500 },
    );
  });

  it('tells lines within the file, and names the cell that a problem belongs to', () => {
    fc.assert(
      fc.property(sheetLikeText, (text) => {
        const document = parseSheet(text);
        const lines = text.split(/\r\n|\n|\r/).length;
        for (const block of document.blocks) {
          if (block.kind !== 'cell') continue;
          const first = blockLine(document, block.id) ?? 0;
          const last = first + block.source.split(/\r\n|\n|\r/).length;
          for (const problem of block.cell.problems) {
            expect(problem.cell).toBe(block.id);
            expect(problem.line).toBeGreaterThanOrEqual(first);
            expect(problem.line).toBeLessThanOrEqual(Math.min(last, lines));
          }
        }
      }),
      { numRuns: 500 },
    );
  });

  it('reads the standard worksheet without a problem and with nothing it does not understand', () => {
    const document = parseSheet(worksheet);
    expect(serialiseSheet(document)).toBe(worksheet);
    expect([...document.problems, ...document.frontMatter.problems]).toEqual([]);
    const told = document.blocks.flatMap((block) => (block.kind === 'cell' ? [...block.cell.problems, ...block.cell.unknownKeys] : []));
    expect(told).toEqual([]);
  });

  it('reads a file with CRLF as it reads the same file with LF', () => {
    const crlf = parseSheet(worksheet.replaceAll('\n', '\r\n'));
    const cells = (text: ReturnType<typeof parseSheet>) => text.blocks.map((block) => (block.kind === 'cell' ? block.cell : block.id));
    expect(cells(crlf)).toEqual(cells(parseSheet(worksheet)));
    expect(crlf.frontMatter.entries).toEqual(parseSheet(worksheet).frontMatter.entries);
  });
});

describe('ids and objects over edits', () => {
  const text = ['# A\n\n', '```given\nsymbol: d\nvalue: 6 mm\n```\n', '\n', '```check\ncondition: d > 0\nholds: Yes.\notherwise: No.\n```\n', '\n', '```check\ncondition: d > 1\nholds: Yes.\notherwise: No.\n```\n', '\n', '```remark\nheading: Aim\n```\n'].join('');
  const document = parseSheet(text);

  it('takes the id key, else the symbol, else the kind and its number', () => {
    expect(document.blocks.map(({ id }) => id)).toEqual(['prose-1', 'd', 'prose-2', 'check-1', 'prose-3', 'check-2', 'prose-4', 'remark-1']);
    expect(parseSheet('```given\nid: bar\nsymbol: d\n```\n').blocks[0]?.id).toBe('bar');
  });

  it('leaves every other block the same object when a value is set', () => {
    const result = applyEdit(document, { do: 'set key', cellId: 'd', key: 'value', value: '7 mm' });
    if (!result.ok) throw new Error(result.problem.what);
    const fresh = result.value.blocks.filter((block, i) => block !== document.blocks[i]);
    expect(fresh.map(({ id }) => id)).toEqual(['d']);
    expect(result.value.frontMatter).toBe(document.frontMatter);
  });

  it('leaves them the same also where lines were put in above', () => {
    const result = applyEdit(document, { do: 'set key', cellId: 'd', key: 'note', value: 'one\ntwo' });
    if (!result.ok) throw new Error(result.problem.what);
    expect(result.value.blocks.slice(2)).toEqual(document.blocks.slice(2));
    result.value.blocks.slice(2).forEach((block, i) => expect(block).toBe(document.blocks[i + 2]));
  });

  it('moves the lines that problems below tell', () => {
    const broken = parseSheet('```given\nsymbol: d\n```\n\n```given\nsymbol: e\nlabel x\n```\n');
    expect(cellOf(broken, 'e').cell.problems).toMatchObject([{ line: 7, what: 'Line 7: this line has no `key: value`.' }]);
    const result = applyEdit(broken, { do: 'set key', cellId: 'd', key: 'note', value: 'n' });
    if (!result.ok) throw new Error(result.problem.what);
    expect(cellOf(result.value, 'e').cell.problems).toMatchObject([{ line: 8, what: 'Line 8: this line has no `key: value`.' }]);
    expect(parseSheet(serialiseSheet(result.value))).toEqual(result.value);
  });

  it('keeps ids made from kind and place when a cell of the kind comes in above', () => {
    const source = '```check\ncondition: d > 2\nholds: Yes.\notherwise: No.\n```\n';
    const result = applyEdit(document, { do: 'insert', after: 'd', source });
    if (!result.ok) throw new Error(result.problem.what);
    const checks = result.value.blocks.filter((block) => block.kind === 'cell' && block.cellKind === 'check');
    expect(checks.map(({ id }) => id)).toEqual(['check-3', 'check-1', 'check-2']);
    expect(checks[1]).toBe(document.blocks[3]);
  });

  it('keeps them when a cell is moved, edited or deleted', () => {
    const moved = applyEdit(document, { do: 'move', blockId: 'check-2', to: 'up' });
    if (!moved.ok) throw new Error(moved.problem.what);
    const ids = moved.value.blocks.filter(({ kind }) => kind === 'cell').map(({ id }) => id);
    expect(ids).toEqual(['d', 'check-2', 'check-1', 'remark-1']);
    const deleted = applyEdit(moved.value, { do: 'delete', blockId: 'check-2' });
    if (!deleted.ok) throw new Error(deleted.problem.what);
    const after = applyEdit(deleted.value, { do: 'set key', cellId: 'check-1', key: 'condition', value: 'd > 3' });
    if (!after.ok) throw new Error(after.problem.what);
    expect(after.value.blocks.filter(({ kind }) => kind === 'cell').map(({ id }) => id)).toEqual(['d', 'check-1', 'remark-1']);
  });

  it('gives a second cell of the same id a suffix and says so, and takes both back when the first one goes', () => {
    const twice = parseSheet('```check\nid: a\n```\n\n```check\nid: a\n```\n');
    expect(twice.blocks.map(({ id }) => id)).toEqual(['a', 'prose-1', 'a-2']);
    expect(cellOf(twice, 'a-2').cell.problems[0]).toMatchObject({ code: 'duplicate-id', line: 5, key: 'id', cell: 'a-2' });
    expect(cellOf(twice, 'a').cell.problems.some(({ code }) => code === 'duplicate-id')).toBe(false);
    const single = applyEdit(twice, { do: 'delete', blockId: 'a' });
    if (!single.ok) throw new Error(single.problem.what);
    expect(cellOf(single.value, 'a').cell.problems.some(({ code }) => code === 'duplicate-id')).toBe(false);
  });

  it('leaves two cells of the same symbol to the graph, with an id each', () => {
    const twice = parseSheet('```given\nsymbol: d\n```\n```step\nsymbol: d\nformula: 1\n```\n');
    expect(twice.blocks.map(({ id }) => id)).toEqual(['d', 'd-2']);
    expect(cellOf(twice, 'd-2').cell.problems).toEqual([]);
  });

  it('parses an edited text as it would parse it anew, but for ids made from kind and place', () => {
    const place = /^(?:prose|given|check|remark|step|choice|checklist|figure|fit)-\d+$/;
    fc.assert(
      fc.property(sheetLikeText, sheetLikeText, fc.nat(), (before, source, n) => {
        const first = parseSheet(before);
        const block = first.blocks[n % Math.max(first.blocks.length, 1)];
        fc.pre(block !== undefined);
        const result = applyEdit(first, { do: 'set source', blockId: block?.id ?? '', source });
        fc.pre(result.ok);
        if (!result.ok) return;
        const anew = parseSheet(serialiseSheet(result.value));
        expect(result.value.blocks.map((other) => other.source)).toEqual(anew.blocks.map((other) => other.source));
        expect(result.value.problems).toEqual(anew.problems);
        const isNamed = (i: number): boolean => [result.value.blocks[i], anew.blocks[i]].every((other) => other !== undefined && !place.test(other.id));
        expect(result.value.blocks.filter((_block, i) => isNamed(i))).toEqual(anew.blocks.filter((_block, i) => isNamed(i)));
      }),
      { numRuns: 800 },
    );
  });
});
