/** Derived columns written out for the symbols that a table gives: each row's formula, of a size that is known before it is made. */
import { describe, expect, test } from 'vitest';
import { createSheetGraph } from '../../src/graph/index.ts';
import { parseSheet } from '../../src/sheet/index.ts';

function sheetOf(columns: readonly (readonly [key: string, formula: string])[], asked: string): string {
  const derived = columns.flatMap(([key, formula]) => [`  - key: ${key}`, '    type: derived', `    formula: ${formula}`, '    unit: mm']);
  return ['```table', 'id: t', 'columns:', '  - key: c0', '    type: quantity', '    unit: mm', ...derived, 'symbols:', `  sum ${asked}: X`, 'rows: |', '  c0 [mm]', '  1', '  2', '```', ''].join('\n');
}

async function stateOf(text: string) {
  const graph = createSheetGraph(parseSheet(text));
  const states = await graph.settled();
  graph.dispose();
  return states.symbol('X');
}

const chain = (length: number, formula: (before: string) => string) => Array.from({ length }, (_, i) => [`c${i + 1}`, formula(`c${i}`)] as const);

describe('columns that build on one another', () => {
  test('give what they are, read twice or in any order', async () => {
    // 1 mm and 2 mm doubled eight times: 256 and 512 mm.
    expect(await stateOf(sheetOf(chain(8, (before) => `${before} + ${before}`), 'c8'))).toMatchObject({ estimate: { value: 0.768 } });
    expect(await stateOf(sheetOf(chain(8, (before) => `${before} + ${before}`).toReversed(), 'c8'))).toMatchObject({ estimate: { value: 0.768 } });
    // a + b of 2a and 3a, b on a twice: (2 + 3·2)(1 + 2) mm.
    expect(await stateOf(sheetOf([['a', '2*c0'], ['b', '3*a'], ['sum_ab', 'a + b']], 'sum_ab'))).toMatchObject({ estimate: { value: 0.024 } });
  });

  test.each([11, 40, 150])('doubled %i times are told of and not written out', async (length) => {
    expect(await stateOf(sheetOf(chain(length, (before) => `${before} + ${before}`), `c${length}`))).toMatchObject({ status: 'problem', problem: { code: 'aggregate-long' } });
  });

  test('by the hundred, once each, are written out', async () => {
    // 151 times 1 mm and 2 mm.
    expect(await stateOf(sheetOf(chain(150, (before) => `${before} + c0`), 'c150'))).toMatchObject({ status: 'value', estimate: { value: expect.closeTo(0.453, 12) as number } });
  });
});
