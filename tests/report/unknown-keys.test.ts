import { describe, expect, it } from 'vitest';
import { applyEdit, placeFinder, parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import { presentGiven, renderSheet, warningsOf } from '../../src/report/index.ts';
import { SHIPPED, shipped } from '../shipped.ts';
import { cellOf, contextOf, fenced, given } from './sheet-at.ts';

describe('a key that a cell does not understand', () => {
  it('is a warning at the cell with the near name, on the page and in the report', async () => {
    const context = await contextOf(given('d', '6.31 mm', 'mm', 'instrumnt: micrometer'));
    const [warning] = presentGiven(cellOf(context, 'given', 'd'), context).warnings;
    expect(warning).toMatchObject({
      code: 'key-unknown', what: '“instrumnt” is not understood here and has no effect.', mend: 'Did you mean `instrument`? It is kept in the file as it is.',
    });
    expect(renderSheet(context)).toContain('“instrumnt” is not understood here');
  });

  it.each([
    ['choice', ['chosen: a', 'options:', '  - key: a', '    sorce: b'], 'option 1: sorce', 'source'],
    ['checklist', ['items:', '  - text: a', '    dne: b'], 'item 1: dne', 'done'],
    ['table', ['columns:', '  - key: S', '    typ: quantity', '    unit: MPa', 'rows: |', '  S'], 'column 1: typ', 'type'],
    ['record', ['readings:', '  - at: 2026-11-20T09:00:00+01:00', '    conter: 3'], 'reading 1: conter', 'counter'],
    ['fit', ['finds: limits', 'table: t', 'asks:', '  strss: 300 MPa'], 'asks: strss', 'stress'],
    ['figure', ['drawing: free-body', 'values:', '  spann: L'], 'values: spann', 'span'],
    ['figure', ['drawing: free-body', 'givens:', '  ss1: L'], 'givens: ss1', 's1'],
    ['remark', ['heading: Aim', 'hnt: x'], 'hnt', 'hint'],
    ['step', ['symbol: x', 'formula: "1"', 'unit: "1"', 'slips:', '  half:', '    formula: "2"', '    lable: x'], 'slip half: lable', 'label'],
  ])('of a %s is told with its place', async (kind, body, told, meant) => {
    const context = await contextOf(fenced(kind, 'id: c', ...body));
    const [block] = context.document.blocks;
    const warnings = block?.kind === 'cell' ? warningsOf(block.cell, context) : [];
    expect(warnings.map(({ what, mend }) => `${what} ${mend}`)).toContain(`“${told}” is not understood here and has no effect. Did you mean \`${meant}\`? It is kept in the file as it is.`);
  });

  it.each([
    ['a given', ['```given', 'symbol: d', 'unit: mm', 'instrumnt: micrometer', '```'], 4],
    ['a slip', ['```given', 'symbol: d', 'unit: mm', 'slips:', '  radius:', '    formula: d/2', '    sorce: x', '```'], 7],
    ['what is asked', ['```fit', 'finds: limits', 'asks:', '  life: 1e6', '  strss: 300 MPa', '```'], 5],
    ['a cell below another one', ['```given', 'symbol: d', '```', '', 'Words.', '', '```remark', 'heading: a', 'txt: b', '```'], 9],
  ])('tells its line of the file, and stays as it was typed: %s', async (_what, lines, line) => {
    const text = `${lines.join('\n')}\n`;
    const context = await contextOf(text);
    const warnings = context.document.blocks.flatMap((block) => (block.kind === 'cell' ? warningsOf(block.cell, context) : []));
    expect(warnings.filter(({ code }) => code === 'key-unknown')).toMatchObject([{ line }]);
    expect(serialiseSheet(context.document)).toBe(text);
  });

  it('moves with its line when something is put in above', () => {
    const cell = '```given\nsymbol: d\ncolour: red\n```\n';
    const line = (text: string): number | undefined => parseSheet(text).blocks.flatMap((block) => (block.kind === 'cell' ? block.cell.unknownKeys : []))[0]?.line;
    expect([line(cell), line(`One.\n\n${cell}`)]).toEqual([3, 5]);
  });

  it('has its line after an edit of its own cell and of one above, too', () => {
    const cell = (symbol: string, ...more: readonly string[]): string => ['```given', `symbol: ${symbol}`, ...more, '```', ''].join('\n');
    const edits = [['x', 'unit: mm'], ['d', 'unit: mm\ncolour: red'], ['x', 'unit: mm\nnote: a'], ['d', 'colour: red']] as const;
    const after = edits.reduce((document, [cellId, body]) => {
      const next = applyEdit(document, { do: 'set body', cellId, body: `symbol: ${cellId}\n${body}\n` });
      if (!next.ok) throw new Error(next.problem.what);
      const fresh = parseSheet(serialiseSheet(next.value));
      const told = (one: typeof document) => one.blocks.map((block) => (block.kind === 'cell' ? block.cell.unknownKeys.map(({ line }) => line) : []));
      expect(told(next.value)).toEqual(told(fresh));
      return next.value;
    }, parseSheet(`${cell('x')}\n${cell('d')}`));
    expect(after.blocks.flatMap((block) => (block.kind === 'cell' ? block.cell.unknownKeys : []))).toMatchObject([{ line: 9 }]);
  });

  it('is asked about at the head, where an entry of another name is the reader’s own', () => {
    const told = (head: string) => parseSheet(`---\n${head}\n---\n`).frontMatter.warnings.map(({ line, mend }) => `${line}: ${mend}`);
    expect(told('titel: A')).toEqual(['2: Did you mean `title`? It is kept in the file as it is.']);
    expect(told('title: A\nchief_result: N_f')).toEqual(['3: Did you mean `chief_results`? It is kept in the file as it is.']);
    // Nothing like it, or what it is like stands there as well.
    expect([...told('supervisor: A'), ...told('team: A\nteams: B')]).toEqual([]);
  });

  it('leaves problems of formulas their line, too', async () => {
    const text = '```given\nsymbol: d\nvalue: 6 mm\n```\n```step\nsymbol: x\nunit: mm\nformula: d + 3\n```\n';
    const context = await contextOf(text);
    const [problem] = context.states.cell('x')?.problems ?? [];
    expect(problem && placeFinder(context.document)('x', problem)).toEqual({ line: 8, row: 2 });
  });

  it.each(SHIPPED)('stands in no worksheet: %s', async (name) => {
    const context = await contextOf(shipped(name));
    expect(context.document.blocks.flatMap((block) => (block.kind === 'cell' ? block.cell.unknownKeys : []))).toEqual([]);
  });
});
