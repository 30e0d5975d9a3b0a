import { beforeAll, describe, expect, it } from 'vitest';
import { createRandom } from '../../src/core/numeric/index.ts';
import { chainOf, createSheetGraph, sampleSheet, evaluateAlong, slopesAround, type CompiledSheet } from '../../src/graph/index.ts';
import { presentBudget, presentElasticities, presentFigure, presentStep, presentSymbol, sheetTex, type WholeContext } from '../../src/report/index.ts';
import { parseSheet } from '../../src/sheet/index.ts';
import { size } from '../sizes.ts';
import { cellOf, fenced, given, step } from './sheet-at.ts';

/** In full, with the given at its head, all that a sheet holds. A call for each with a loop in it fills the call stack at either size, one with a callback at a third of it. */
const LENGTH = size(5_998, 9_998);
/** What the last is of the first. */
const WHOLE = 1 + LENGTH / (LENGTH + 2);
const LAST = `x_${LENGTH}`;

/** Written from its end, so that the order helps nobody. x_k = x_0·(1 + k/(LENGTH + 2)): a power law in x_0, and a sum along the chain. */
const SHEET = [
  ...Array.from({ length: LENGTH }, (_, i) => step(`x_${LENGTH - i}`, `x_${LENGTH - i - 1} + x_0/${LENGTH + 2}`, 'mm', `id: x_${LENGTH - i}`)),
  given('x_0', '5 ± 0.1 mm', 'mm'),
  fenced('figure', 'id: budget', 'drawing: budget', `of: ${LAST}`),
].join('\n');

describe(`a chain of ${LENGTH} steps`, () => {
  let context: WholeContext;
  let compiled: CompiledSheet;
  beforeAll(async () => {
    const document = parseSheet(SHEET);
    const graph = createSheetGraph(document);
    const states = await graph.settled();
    compiled = graph.compiled();
    context = { document, states, system: 'SI' };
    graph.dispose();
  }, 60_000);

  it('has a value at its end, from which an edit at its head goes on', async () => {
    expect(context.document.problems).toEqual([]);
    expect(presentSymbol(LAST, context)).toMatchObject({ text: '10.00 ± 0.20 mm' });
    const graph = createSheetGraph(context.document);
    await graph.settled();
    graph.update(parseSheet(SHEET.replace('5 ± 0.1 mm', '6 ± 0.1 mm')));
    expect(presentSymbol(LAST, { ...context, states: await graph.settled() })).toMatchObject({ text: '12.00 ± 0.20 mm' });
    graph.dispose();
  }, 60_000);

  it('has slopes and elasticities up and down', () => {
    expect(slopesAround(LAST, context.states).upstream.get('x_0')).toBeCloseTo(WHOLE, 9);
    expect(slopesAround('x_0', context.states).downstream.get(LAST)).toBeCloseTo(WHOLE, 9);
    expect(presentElasticities('x_0', context)?.marks.get(LAST)?.percent).toBe('+1 %');
    expect(presentElasticities(LAST, context)?.marks.size).toBe(LENGTH);
  });

  it('has a budget, and a figure of it', () => {
    expect(presentBudget(LAST, context)?.rows).toMatchObject([{ input: 'x_0', sensitivity: expect.stringContaining('2') }]);
    expect(presentFigure(cellOf(context, 'figure', 'budget'), context)).not.toHaveProperty('problem');
  });

  it('is evaluated along its input and drawn', () => {
    const found = evaluateAlong(chainOf(compiled, context.states), new Map([['x_0', Float64Array.of(1, 2)]]), 2, { wanted: [LAST] }).get(LAST);
    expect([...(found as Float64Array)].map((value) => value.toFixed(9))).toEqual([WHOLE.toFixed(9), (2 * WHOLE).toFixed(9)]);
    expect(sampleSheet(compiled, context.states, createRandom(1), 10).get(LAST)).toHaveLength(10);
  });

  it('is typeset', () => {
    expect(presentStep(cellOf(context, 'step', LAST), context)).toMatchObject({ problems: [] });
    expect(sheetTex(context)).toContain(`x_{${LENGTH}}`);
  }, 60_000);
});

describe('a loop as long as a sheet', () => {
  it('is told in a sentence that can be read', async () => {
    const looped = [given('x_0', '5 mm', 'mm'), ...Array.from({ length: LENGTH }, (_, i) => step(`x_${i + 1}`, `x_${i === 0 ? LENGTH : i}`, 'mm'))].join('\n');
    const graph = createSheetGraph(parseSheet(looped));
    const state = (await graph.settled()).symbol(LAST);
    expect(state?.status === 'problem' ? state.problem.what : state).toContain(`${LAST} → x_${LENGTH - 1} → x_${LENGTH - 2}`);
    expect(JSON.stringify(state).length).toBeLessThan(1000);
    graph.dispose();
  }, 60_000);
});
