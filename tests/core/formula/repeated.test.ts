/** What stands in several formulas is worked out once, and nothing comes out otherwise for it. */
import fc from 'fast-check';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { BlockProgram, repeatedIn, type Expression, type Operand } from '../../../src/core/formula/index.ts';
import { GENTLE_TREE, numberTree, read } from './expressions.ts';

const PLACES = 7;

/** Each expression's values, the later ones reading the first as `w`. */
function workedOut(expressions: readonly Expression[], repeated: ReadonlySet<string>): readonly (readonly number[])[] {
  const program = new BlockProgram(PLACES, repeated);
  const columns = new Map<string, Operand>(['x', 'y', 'z'].map((name, i) => [name, program.column().map((_, k) => ((k + 1) * [Math.SQRT2, Math.PI, Math.E][i]!) % 2 - (i === 2 ? 1 : -0.3))]));
  const found = expressions.map((e) => program.add(e, { column: (name) => columns.get(name) ?? Number.NaN, standardUncertainty: () => 0.1, best: () => 3 }));
  program.run(PLACES);
  return found.map((operand) => (typeof operand === 'number' ? [operand] : [...operand]));
}

afterEach(() => void vi.restoreAllMocks());

describe('repeatedIn', () => {
  test('names what stands twice, and its parts only where they stand elsewhere as well', () => {
    const found = repeatedIn(['log10(x*y)/2', '3 - log10(x*y)', 'x*y'].map(read));
    expect([...found]).toEqual(['call log10(*(x, y))', '*(x, y)']);
    expect(repeatedIn(['x + y', 'y + x', '2*x'].map(read)).size).toBe(0);
  });

  test('tells zeros of either sign and units of other sizes apart', () => {
    expect(repeatedIn(['1/(x*0)', '1/(x*(-0))'].map(read)).size).toBe(0);
    expect(repeatedIn(['x/unit(mm)', 'x/unit(km)'].map(read)).size).toBe(0);
  });
});

describe('a program that knows what is repeated', () => {
  test('gives the same to the last bit', () => {
    fc.assert(fc.property(numberTree(GENTLE_TREE, 3), numberTree(GENTLE_TREE, 3), (a, b) => {
      const span = { start: 0, end: 0 };
      const both: Expression = { kind: 'arithmetic', operator: '-', left: a, right: b, span };
      const branch: Expression = { kind: 'call', name: 'if', arguments: [read('x < y'), both, a], span };
      const all = [branch, both, { kind: 'arithmetic', operator: '*', left: both, right: b, span }, a] as const;
      expect(workedOut(all, repeatedIn(all))).toEqual(workedOut(all, new Set()));
    }), { numRuns: 500 });
  });

  test('works a logarithm out once that two formulas have in common, and once more in a branch that may not be taken', () => {
    const counted = (...texts: readonly string[]): number => {
      const expressions = texts.map(read);
      const spy = vi.spyOn(Math, 'log10');
      workedOut(expressions, repeatedIn(expressions));
      const calls = spy.mock.calls.length;
      spy.mockRestore();
      return calls / PLACES;
    };
    expect(counted('2 - log10(x*y)', 'x*log10(x*y)')).toBe(1);
    expect(counted('if(x < 5, log10(x*y), 1)', 'log10(x*y)')).toBe(2);
  });

  test('divides by a power of two and squares to the last bit', () => {
    for (const [text, of] of [['x/2', (x: number) => x / 2], ['x/64', (x: number) => x / 64], ['x/0.125', (x: number) => x / 0.125], ['x/3', (x: number) => x / 3], ['x^2', (x: number) => x * x]] as const) {
      const program = new BlockProgram(4);
      const column = program.column();
      column.set([0.1, -5e-324, 1.7e308, 7.3]);
      const found = program.add(read(text), { column: () => column, standardUncertainty: () => 0, best: () => 0 });
      program.run(4);
      // A zero loses its sign by the pass over infinities.
      const expected = [...column].map(of).map((value) => (Number.isFinite(value) ? value + 0 : Number.NaN));
      expect([...(found as Float64Array)]).toEqual(expected);
    }
  });
});
