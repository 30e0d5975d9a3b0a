/** Another name for a symbol: everywhere that it stands for it, in one step, and nowhere else. */
import { describe, expect, it, test } from 'vitest';
import { createSheetGraph } from '../../src/graph/index.ts';
import { FINDINGS_FORMS } from '../../src/graph/findings/index.ts';
import { applyEdit, ASKS, createHistory, HEAD_HOLDS, HOLDS, KINDS, parseSheet, serialiseSheet, symbolsGiven, type KeyEntry, type KnownKind } from '../../src/sheet/index.ts';
import { SHIPPED, shipped } from '../shipped.ts';
import { size } from '../sizes.ts';

function renamed(text: string, from: string, to: string): string {
  const after = applyEdit(parseSheet(text), { do: 'rename symbol', from, to });
  return after.ok ? serialiseSheet(after.value) : after.problem.code;
}

const cell = (kind: string, ...lines: readonly string[]): string => `\`\`\`${kind}\n${lines.join('\n')}\n\`\`\`\n`;
const D = cell('given', 'symbol: d', 'value: 6 mm');

describe('renaming a symbol', () => {
  it.each([
    ['its own cell', '', ''],
    ['a formula, and no function, unit or longer name of the letters', cell('step', 'symbol: x', 'formula: "d^2 + unit(d)*d_1*sqrt(d)  # d"'), cell('step', 'symbol: x', 'formula: "D^2 + unit(d)*d_1*sqrt(D)  # d"').replace('# d', '# D')],
    ['conditions and ranges', cell('step', 'symbol: x', 'formula: d', 'valid_if: d < 3*unit(mm)', 'ranges:', '  low cycle: d > 1'), cell('step', 'symbol: x', 'formula: D', 'valid_if: D < 3*unit(mm)', 'ranges:', '  low cycle: D > 1')],
    ['what a choice sets, and the quantities there', cell('choice', 'id: c', 'options:', '  - key: d', '    sets:', '      d: 6 d', '      x: d/2', '    needs: a, d'), cell('choice', 'id: c', 'options:', '  - key: d', '    sets:', '      D: 6 d', '      x: D/2', '    needs: a, D')],
    ['values in text', 'Of d it is {=d}, {= d } and {=d_1}.\n', 'Of d it is {=D}, {=D} and {=d_1}.\n'],
    ['a check', cell('check', 'condition: d > 1', 'holds: "{=d} is d"', 'otherwise: no', 'concerns: a, d'), cell('check', 'condition: D > 1', 'holds: "{=D} is d"', 'otherwise: no', 'concerns: a, D')],
    ['drawings', cell('figure', 'drawing: free-body', 'values:', '  d: d', 'against: a, d'), cell('figure', 'drawing: free-body', 'values:', '  d: D', 'against: a, D')],
    ['what is asked of a line, and no column or word', cell('fit', 'id: f', 'finds: staircase', 'asks:', '  step: d', '  level: d', '  method: by d', '  life: 5 d'), cell('fit', 'id: f', 'finds: staircase', 'asks:', '  step: D', '  level: d', '  method: by d', '  life: 5 d')],
    ['a derived column', cell('table', 'id: t', 'columns:', '  - key: y', '    type: derived', '    formula: d*2', 'rows: |', '  d,y'), cell('table', 'id: t', 'columns:', '  - key: y', '    type: derived', '    formula: D*2', 'rows: |', '  d,y')],
    ['a record, and no choice of the name', cell('record', 'id: r', 'watches:', '  life: d', 'row:', '  d: d', '  m: choice d'), cell('record', 'id: r', 'watches:', '  life: D', 'row:', '  d: D', '  m: choice d')],
    ['a given of its own slips and correlations', cell('given', 'symbol: a', 'correlated:', '  d: 0.5', 'varies: d + 1 mm ± 2 d step 1 d', 'slips:', '  d:', '    formula: d/2', '    label: d'), cell('given', 'symbol: a', 'correlated:', '  D: 0.5', 'varies: D + 1 mm ± 2 d step 1 d', 'slips:', '  d:', '    formula: D/2', '    label: d')],
  ])('goes through %s', (_what, before, after) => {
    expect(renamed(D + before, 'd', 'D')).toBe(D.replace('symbol: d', 'symbol: D') + after);
  });

  it('goes through the head: chief results, slips, the lecture, held states', () => {
    const head = (d: string): string => `---\ntitle: d\nchief_results: ${d}, x\nslips: ${d}.d, x.d\nlecture: ${d} at once; d and more left out; x at once\nheld:\n  - name: d\n    inputs:\n      ${d}: 6 mm\n    origins:\n      ${d}: example\n---\n`;
    expect(renamed(head('d') + D, 'd', 'D')).toBe(head('D') + D.replace('symbol: d', 'symbol: D'));
  });

  it('leaves a column of the name to its own table', () => {
    const table = cell('table', 'id: t', 'columns:', '  - key: d', '  - key: y', '    type: derived', '    formula: d*2', 'where: d > 1', 'symbols:', '  mean d: m');
    expect(renamed(D + table, 'd', 'D')).toBe(D.replace('symbol: d', 'symbol: D') + table);
  });

  it('is refused for a name that is taken, is none, or has a meaning; and where there is no such symbol', () => {
    const text = D + cell('step', 'symbol: x', 'formula: d');
    expect([renamed(text, 'd', 'x'), renamed(text, 'd', '2d'), renamed(text, 'd', 'sqrt'), renamed(text, 'y', 'z')]).toEqual(['symbol-taken', 'symbol-name', 'symbol-reserved', 'symbol-gone']);
  });

  it('is one step to undo, byte for byte', () => {
    const text = shipped('rotating-bending');
    const history = createHistory(parseSheet(text));
    expect(history.apply({ do: 'rename symbol', from: 'd', to: 'd_w' }).ok).toBe(true);
    expect(serialiseSheet(history.document)).not.toBe(text);
    history.undo();
    expect(serialiseSheet(history.document)).toBe(text);
  });

  test.each(SHIPPED)('changes no number of %s, whatever is renamed', async (name) => {
    const document = parseSheet(shipped(name));
    const all = [...new Set(document.blocks.flatMap((block) => (block.kind === 'cell' ? symbolsGiven(block.cell) : [])))];
    // Spread over the sheet, one after the other, each to a name that nothing has.
    const every = Math.ceil(all.length / size(12, 1000));
    const symbols = all.filter((_, i) => i % every === 0);
    const after = symbols.reduce((before, from) => {
      const result = applyEdit(before, { do: 'rename symbol', from, to: `${from}_zz` });
      if (!result.ok) throw new Error(`${from}: ${result.problem.what}`);
      return result.value;
    }, document);
    const values = async (of: typeof document, back: (symbol: string) => string): Promise<ReadonlyMap<string, unknown>> => {
      const graph = createSheetGraph(of);
      const states = await graph.settled();
      graph.dispose();
      return new Map(states.symbols.map((symbol) => {
        const state = states.symbol(symbol);
        return [back(symbol), state?.status === 'value' ? state.estimate.value : state?.status];
      }));
    };
    const [one, other] = [await values(document, (symbol) => symbol), await values(after, (symbol) => symbol.replace(/_zz$/u, ''))];
    expect(Object.fromEntries(other)).toEqual(Object.fromEntries(one));
    // And back again it is the same text.
    const back = symbols.reduce((before, symbol) => {
      const result = applyEdit(before, { do: 'rename symbol', from: `${symbol}_zz`, to: symbol });
      return result.ok ? result.value : before;
    }, after);
    expect(serialiseSheet(back)).toBe(shipped(name));
  });

  /** Words of the reference by which a key may hold a symbol of this sheet. */
  const MAY_HOLD = /symbol|formula|comparison|\{=x\}/u;
  /** Of another sheet, of rows alone, or written as values: no symbol of this sheet stands there. */
  const NONE: readonly string[] = ['given.elsewhere', 'fit.finds', 'fit.method', 'fit.life', 'fit.model', 'fit.stress', 'figure.from', 'figure.to'];

  test.each(Object.keys(KINDS) as KnownKind[])('knows every key of a %s that may hold a symbol', (kind) => {
    const without = (keys: Readonly<Record<string, KeyEntry>>, holds: object, name: string): readonly string[] =>
      Object.entries(keys).filter(([key, { takes }]) => MAY_HOLD.test(takes) && !(key in holds) && !NONE.includes(`${name}.${key}`)).map(([key]) => key);
    expect(without(KINDS[kind].keys, HOLDS[kind], kind)).toEqual([]);
  });

  test.each(Object.keys(ASKS) as (keyof typeof ASKS)[])('knows what is asked of %s by symbols', (finds) => {
    const { asks } = FINDINGS_FORMS[finds];
    const after = renamed(D + cell('fit', `finds: ${finds}`, 'asks:', ...asks.map(({ name }) => `  ${name}: d`)), 'd', 'D');
    expect(asks.filter(({ name }) => after.includes(`\n  ${name}: D\n`)).map(({ name }) => name)).toEqual(asks.filter(({ takes }) => takes === 'quantity').map(({ name }) => name));
  });

  it('knows entries of the head that do', () => {
    expect(Object.keys(HEAD_HOLDS)).toEqual(['chief_results', 'slips', 'lecture', 'held']);
  });
});
