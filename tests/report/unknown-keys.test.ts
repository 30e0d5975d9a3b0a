import { describe, expect, it } from 'vitest';
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
    ['step', ['symbol: x', 'formula: "1"', 'unit: "1"', 'slips:', '  half:', '    formula: "2"', '    lable: x'], 'slip half: lable', 'label'],
  ])('of a %s is told with its place', async (kind, body, told, meant) => {
    const context = await contextOf(fenced(kind, 'id: c', ...body));
    const [block] = context.document.blocks;
    const warnings = block?.kind === 'cell' ? warningsOf(block.cell, context) : [];
    expect(warnings.map(({ what, mend }) => `${what} ${mend}`)).toContain(`“${told}” is not understood here and has no effect. Did you mean \`${meant}\`? It is kept in the file as it is.`);
  });

  it.each(SHIPPED)('stands in no worksheet: %s', async (name) => {
    const context = await contextOf(shipped(name));
    expect(context.document.blocks.flatMap((block) => (block.kind === 'cell' ? block.cell.unknownKeys : []))).toEqual([]);
  });
});
