import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { standardUncertainty } from '../../src/core/estimate/index.ts';
import { createSheetGraph, type SheetGraph, type SheetStates } from '../../src/graph/index.ts';
import { applyEdit, parseSheet, type EditCommand, type SheetDocument } from '../../src/sheet/index.ts';

function cell(kind: string, body: string): string {
  return `\`\`\`${kind}\n${body}\n\`\`\`\n`;
}

function given(symbol: string, value: string, unit = 'mm', more = ''): string {
  return cell('given', `symbol: ${symbol}\nlabel: Length ${symbol}\nvalue: ${value}\nunit: ${unit}${more}`);
}

function step(symbol: string, formula: string, unit?: string): string {
  return cell('step', `symbol: ${symbol}\nformula: ${formula}${unit === undefined ? '' : `\nunit: ${unit}`}`);
}

async function statesOf(text: string): Promise<SheetStates> {
  const graph = createSheetGraph(parseSheet(text));
  const states = await graph.settled();
  graph.dispose();
  return states;
}

function valueOf(states: SheetStates, symbol: string): number | undefined {
  const state = states.symbol(symbol);
  return state?.status === 'value' ? state.estimate.value : undefined;
}

function setValue(document: SheetDocument, cellId: string, value: string): SheetDocument {
  const edited = applyEdit(document, { do: 'set key', cellId, key: 'value', value });
  if (!edited.ok) throw new Error(edited.problem.what);
  return edited.value;
}

/** Stands for a fault of ours: the formula of this symbol can not even be read. */
function unreadable(document: SheetDocument, symbol: string): SheetDocument {
  const blocks = document.blocks.map((block) => {
    if (block.kind !== 'cell' || block.cell.kind !== 'step' || block.cell.symbol !== symbol) return block;
    const broken = Object.defineProperty({ ...block.cell }, 'formula', { enumerable: true, get: () => { throw new RangeError('beyond the stack'); } });
    return { ...block, cell: broken };
  });
  return { ...document, blocks };
}

async function after(graph: SheetGraph, document: SheetDocument): Promise<SheetStates> {
  graph.update(document);
  return graph.settled();
}

describe('who reads whom', () => {
  it('does not depend on the order on the page', async () => {
    const states = await statesOf(step('c', 'a + b') + given('a', '2 mm') + step('b', '2*a'));
    expect(valueOf(states, 'c')).toBeCloseTo(0.006, 15);
  });

  it('names the whole loop at each of its cells and leaves the others alive', async () => {
    const states = await statesOf(step('p', 'q + 1') + step('q', 'r*2') + step('r', 'p') + given('a', '2 mm') + step('b', 'p*a'));
    for (const id of ['p', 'q', 'r']) expect(states.cell(id)?.problems.map(({ code }) => code)).toEqual(['loop']);
    expect(states.cell('p')?.problems[0]?.what).toContain('p → q → r → p');
    expect(states.cell('b')?.problems).toEqual([]);
    expect(states.symbol('b')).toMatchObject({ status: 'problem', origin: 'p' });
    expect(valueOf(states, 'a')).toBe(0.002);
  });

  it('says of a symbol in its own condition what to do at that cell, not at others', async () => {
    const states = await statesOf(given('a', '2 mm') + step('b', '2*a').replace(/\n```/u, '\nvalid_if: b > 1*unit(mm)\n```'));
    expect(states.cell('b')?.problems).toEqual([expect.objectContaining({ code: 'loop', mend: 'Take b out of its own formula and conditions, and write there what it is worked out from.' })]);
  });

  it('heals when the loop is opened', async () => {
    const looped = parseSheet(step('p', 'q + 1') + step('q', 'p + 1'));
    const graph = createSheetGraph(looped);
    expect((await graph.settled()).symbol('p')?.status).toBe('problem');
    const opened = applyEdit(looped, { do: 'set key', cellId: 'q', key: 'formula', value: '2' });
    if (!opened.ok) throw new Error(opened.problem.what);
    expect(valueOf(await after(graph, opened.value), 'p')).toBe(3);
  });

  it('marks a symbol defined twice at both places, and names the other', async () => {
    const states = await statesOf(given('d', '6 mm') + cell('given', 'id: other\nsymbol: d\nlabel: Second\nvalue: 7 mm') + step('c', 'd/2'));
    expect(states.cell('d')?.problems[0]).toMatchObject({ code: 'symbol-twice' });
    expect(states.cell('other')?.problems[0]?.what).toContain('Length d');
    expect(states.symbol('c')?.status).toBe('problem');
  });

  it('does not take cells without a symbol for rivals', async () => {
    const states = await statesOf(cell('given', 'value: 6 mm') + cell('given', 'value: 7 mm') + given('a', '2 mm'));
    for (const id of ['given-1', 'given-2']) expect(states.cell(id)?.problems.map(({ code }) => code)).not.toContain('symbol-twice');
    expect(states.symbols).toEqual(['a']);
  });

  it('offers near names for an unknown one', async () => {
    const states = await statesOf(given('s_1', '6 mm') + step('c', '2*S_1'));
    expect(states.cell('c')?.problems[0]).toMatchObject({ code: 'symbol-unknown', key: 'formula' });
    expect(states.cell('c')?.problems[0]?.mend).toContain('s_1');
  });

  it('never finds a name outside the sheet', async () => {
    const states = await statesOf(step('a', 'name + 1') + step('b', 'length*2'));
    for (const id of ['a', 'b']) expect(states.cell(id)?.problems[0]?.code).toBe('symbol-unknown');
  });

  it('follows a chain of five thousand steps', async () => {
    const chain = Array.from({ length: 5000 }, (_, i) => step(`x_${i + 1}`, `x_${i} + 1`)).join('');
    const states = await statesOf(cell('given', 'symbol: x_0\nvalue: "1"') + chain);
    expect(valueOf(states, 'x_5000')).toBe(5001);
  }, 60_000);
});

describe('dimensions and units', () => {
  it('refuses a sum of unlike things before there is a number', async () => {
    const states = await statesOf(given('d', '', 'mm') + given('F', '3 N', 'N') + step('x', 'd + F'));
    expect(states.cell('x')?.problems[0]?.what).toMatch(/force.*length|length.*force/);
  });

  it('says what the formula gives when the unit clashes', async () => {
    const states = await statesOf(given('d', '2 mm') + step('a', 'd^2', 'mm'));
    expect(states.cell('a')?.problems[0]).toMatchObject({ code: 'unit-clash', key: 'unit' });
    expect(states.cell('a')?.problems[0]?.what).toContain('area');
  });

  it('takes the dimension of a given without unit from what was typed', async () => {
    const states = await statesOf(cell('given', 'symbol: a\nreadings: 101.2, 101.4 mm') + step('b', '2*a', 'cm'));
    expect(valueOf(states, 'b')).toBeCloseTo(0.2026, 14);
  });
});

describe('givens', () => {
  it.each([
    ['-6 mm', 'not-possible'],
    ['0 mm', 'not-possible'],
    ['6 kg', 'unit-dimension'],
    ['1e999 mm', 'number-too-large'],
    ['six', expect.any(String)],
  ])('turns %j away in words and keeps the rest alive', async (typed, code) => {
    const states = await statesOf(cell('given', `symbol: d\nlabel: Diameter\nvalue: "${typed}"\nunit: mm`) + given('a', '2 mm') + step('b', 'a*2') + step('c', 'd/2'));
    const [problem] = states.cell('d')?.problems ?? [];
    expect(problem?.code).toEqual(code);
    expect(problem?.mend).not.toBe('');
    expect(states.symbol('c')).toMatchObject({ status: 'problem', origin: 'd' });
    expect(states.cell('c')?.problems).toEqual([]);
    expect(valueOf(states, 'b')).toBeCloseTo(0.004, 15);
  });

  it('leaves an empty blank in peace: what reads it says all that it waits for, once each', async () => {
    const blank = (symbol: string) => cell('given', `symbol: ${symbol}\nlabel: A length\nunit: mm`);
    const states = await statesOf(blank('d') + blank('L') + step('a', 'd + L') + step('b', 'a + d'));
    expect(['d', 'L', 'a', 'b'].flatMap((id) => states.cell(id)?.problems ?? [])).toEqual([]);
    expect(states.symbol('d')).toMatchObject({ status: 'range', word: 'open', waitsFor: ['d'] });
    expect(states.symbol('b')).toMatchObject({ status: 'range', word: 'open', waitsFor: ['d', 'L'] });
  });

  it('warns of an implausible value and uses it', async () => {
    const states = await statesOf(given('d', '700 mm', 'mm', '\nplausible: 2 mm .. 60 mm'));
    expect(states.cell('d')?.warnings[0]?.what).toContain('between 2 mm and 60 mm');
    expect(valueOf(states, 'd')).toBe(0.7);
  });

  it('combines readings and instrument: u² = s²/n + limit²/3 + resolution²/12', async () => {
    // JCGM 100:2008, 4.2.3, 4.3.7 and F.2.2.1; the class's limit is the sheet's own default, stated here.
    const states = await statesOf(cell('given', 'symbol: d\nreadings: 7.52, 7.51, 7.53 mm\ninstrument: micrometer, 0.01 mm\nlimit: 0.004 mm'));
    const state = states.symbol('d');
    if (state?.status !== 'value') throw new Error('no value');
    const expected = Math.sqrt(0.01 ** 2 / 3 + 0.004 ** 2 / 3 + 0.01 ** 2 / 12) * 1e-3;
    expect(standardUncertainty(state.estimate) / expected - 1).toBeLessThan(1e-9);
  });

  it('carries a stated correlation into what follows, and tells of one with a stranger', async () => {
    // JCGM 100:2008, equation (13): u²(a − b) = u²(a) + u²(b) − 2 r u(a) u(b).
    const states = await statesOf(
      given('a', '5.0 ± 0.3 mm', 'mm', '\ncorrelated:\n  b: 0.6') + given('b', '2.0 ± 0.4 mm') + step('c', 'a - b') + given('e', '1 mm', 'mm', '\ncorrelated:\n  B: 0.6'),
    );
    const state = states.symbol('c');
    if (state?.status !== 'value') throw new Error('no value');
    expect(standardUncertainty(state.estimate) * 1e3).toBeCloseTo(Math.sqrt(0.09 + 0.16 - 2 * 0.6 * 0.12), 12);
    expect(states.cell('e')?.problems[0]).toMatchObject({ code: 'correlated-unknown' });
    expect(states.cell('e')?.problems[0]?.mend).toContain('b');
  });

  it('lets the standard uncertainty typed replace every other', async () => {
    const states = await statesOf(cell('given', 'symbol: d\nvalue: 7.52 ± 0.02 mm\ninstrument: micrometer, 0.01 mm'));
    const state = states.symbol('d');
    expect(state?.status === 'value' && standardUncertainty(state.estimate)).toBeCloseTo(2e-5, 15);
  });
});

describe('work done per edit', () => {
  const text = given('a', '2 mm') + given('b', '3 mm') + step('left', 'a*2') + step('right', 'a*3') + step('join', 'left + right') + step('other', 'b*2');

  it('evaluates each dependent once, and nothing else', async () => {
    let document = parseSheet(text);
    const graph = createSheetGraph(document);
    await graph.settled();
    const before = ['left', 'right', 'join', 'other'].map((id) => graph.evaluations(id));
    document = setValue(document, 'a', '5 mm');
    expect(valueOf(await after(graph, document), 'join')).toBeCloseTo(0.025, 15);
    expect(['left', 'right', 'join', 'other'].map((id, i) => graph.evaluations(id) - (before[i] ?? 0))).toEqual([1, 1, 1, 0]);
  });

  it('stops where an edit changes nothing', async () => {
    const document = parseSheet(text);
    const graph = createSheetGraph(document);
    await graph.settled();
    const changed: string[][] = [];
    graph.subscribe((ids) => changed.push([...ids]));
    await after(graph, setValue(document, 'a', '2.0 mm'));
    expect(graph.evaluations('join')).toBe(1);
    expect(changed.flat()).not.toContain('join');
  });

  it('tells of one edit once, with all that follows', async () => {
    const document = parseSheet(text);
    const graph = createSheetGraph(document);
    await graph.settled();
    const told: string[][] = [];
    graph.subscribe((ids) => told.push([...ids].sort()));
    await after(graph, setValue(document, 'a', '5 mm'));
    expect(told).toEqual([['a', 'join', 'left', 'right']]);
  });

  it('equals a fresh evaluation after any sequence of edits', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(fc.constantFrom('a', 'b'), fc.integer({ min: -3, max: 9 })), { maxLength: 12 }), async (edits) => {
        let document = parseSheet(text);
        const graph = createSheetGraph(document);
        for (const [id, value] of edits) {
          document = setValue(document, id, `${value} mm`);
          graph.update(document);
        }
        const live = await graph.settled();
        const fresh = await statesOf(document.blocks.map(({ source }) => source).join(''));
        for (const symbol of fresh.symbols) expect(valueOf(live, symbol), symbol).toBe(valueOf(fresh, symbol));
        graph.dispose();
      }),
      { seed: 7, numRuns: 30 },
    );
  });
});

describe('cells that come and go', () => {
  it('goes on telling of edits after a cell was deleted or given another symbol', async () => {
    let document = parseSheet(given('a', '2 mm') + step('b', 'a*2') + given('z', '1 mm'));
    const graph = createSheetGraph(document);
    await graph.settled();
    const edit = async (command: EditCommand): Promise<SheetStates> => {
      const edited = applyEdit(document, command);
      if (!edited.ok) throw new Error(edited.problem.what);
      document = edited.value;
      return after(graph, document);
    };
    await edit({ do: 'delete', blockId: 'z' });
    const told: string[] = [];
    graph.subscribe((ids) => told.push(...ids));
    expect(valueOf(await edit({ do: 'set key', cellId: 'a', key: 'value', value: '3 mm' }), 'b')).toBeCloseTo(0.006, 15);
    const renamed = await edit({ do: 'set key', cellId: 'a', key: 'symbol', value: 'q' });
    expect(renamed.symbol('b')?.status).toBe('problem');
    expect(valueOf(await edit({ do: 'set key', cellId: 'b', key: 'formula', value: 'q*3' }), 'b')).toBeCloseTo(0.009, 15);
    expect(told).toContain('b');
  });
});

describe('a document that can not be compiled by a fault of ours', () => {
  it('throws nothing, has no value left of before, and lives again with the next edit', async () => {
    const document = parseSheet(given('d', '7') + step('r', 'd/2', 'mm') + step('c', 'r*2', 'mm'));
    const graph = createSheetGraph(document);
    expect(valueOf(await graph.settled(), 'r')).toBeCloseTo(0.0035, 15);
    const states = await after(graph, unreadable(document, 'r'));
    for (const symbol of ['d', 'r', 'c']) expect(valueOf(states, symbol), symbol).toBeUndefined();
    expect(states.symbol('r')).toMatchObject({ status: 'problem', problem: { code: 'fault' } });
    expect(valueOf(await after(graph, setValue(document, 'd', '8')), 'c')).toBeCloseTo(0.008, 15);
    graph.dispose();
  });
});

describe('texts with live values', () => {
  it('are told when a value they show has moved', async () => {
    const document = parseSheet(`${given('a', '2 mm')}\nThe length is {=a}.\n`);
    const prose = document.blocks.find(({ kind }) => kind === 'prose');
    const graph = createSheetGraph(document);
    await graph.settled();
    const changed: string[] = [];
    graph.subscribe((ids) => changed.push(...ids));
    await after(graph, setValue(document, 'a', '4 mm'));
    expect(changed).toContain(prose?.id);
  });
});
