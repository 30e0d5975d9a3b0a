/** Random expressions and small helpers for the tests of this folder. */
import fc from 'fast-check';
import { all, create } from 'mathjs';
import { parseFormula, type Expression } from '../../../src/core/formula/index.ts';
import { parseUnit } from '../../../src/core/units/index.ts';

if (all === undefined) throw new Error('mathjs has no functions.');
/** The oracle: mathjs 15.2.0, with comparisons as exact as ours. */
export const math = create(all, { relTol: 1e-16, absTol: 1e-300 });

const SPAN = { start: 0, end: 0 };

/** The tree of a formula that must be readable. */
export function read(text: string): Expression {
  const result = parseFormula(text);
  if (!result.ok) throw new Error(`${text}: ${result.problem.what} ${result.problem.mend}`);
  return result.value;
}

/** The tree as nested data without its places, numbers by their value. */
export function shape(e: Expression): unknown {
  return JSON.parse(JSON.stringify(e, (key, value: unknown) => (key === 'span' ? undefined : value))) as unknown;
}

/** An environment of fixed values; every standard uncertainty is 0.1. */
export function environment(values: Readonly<Record<string, number>>) {
  return { value: (name: string) => values[name] ?? NaN, standardUncertainty: () => 0.1 };
}

function number(text: string): Expression {
  return { kind: 'number', value: text === 'pi' ? Math.PI : Number(text), text, span: SPAN };
}

function unit(name: string): Expression {
  const parsed = parseUnit(name);
  if (!parsed.ok) throw new Error(parsed.problem.what);
  return { kind: 'unit', unit: parsed.value, span: SPAN };
}

const symbol = (name: string): Expression => ({ kind: 'symbol', name, span: SPAN });

export interface Choices {
  readonly leaves: readonly Expression[];
  /** Names of functions with one number as argument. */
  readonly functions: readonly string[];
  readonly lists: readonly string[];
  readonly conditions: boolean;
}

export const ANY_TREE: Choices = {
  leaves: [
    ...['0', '2', '64', '0.5', '.25', '1e3', '2.5e-3', '6E+2', 'pi'].map(number),
    ...['x', 'y', 'sigma_a', 'S_ut', 's_1c', 'R_A', 'Delta_set'].map(symbol),
    ...['MPa', 'mm^4', 'N·m', 'rev/min'].map(unit),
    { kind: 'call', name: 'u', arguments: [symbol('x')], span: SPAN },
  ],
  functions: ['sqrt', 'cbrt', 'abs', 'ln', 'log10', 'exp', 'sin', 'cos', 'tan', 'asin', 'acos', 'atan', 'macaulay'],
  lists: ['min', 'max', 'mean'],
  conditions: true,
};

/** Values near 1 and gentle functions, so that most expressions have a value. */
export const GENTLE_TREE: Choices = {
  leaves: [...['2', '0.5', '3', '1.5', '.25', 'pi'].map(number), ...['x', 'y', 'z', 'x', 'y', 'z'].map(symbol)],
  functions: ['sqrt', 'cbrt', 'abs', 'ln', 'log10', 'exp', 'sin', 'cos', 'tan', 'atan', 'macaulay'],
  lists: ['min', 'max', 'mean'],
  conditions: true,
};

export const SMOOTH_TREE: Choices = {
  ...GENTLE_TREE,
  functions: ['sqrt', 'ln', 'log10', 'exp', 'sin', 'cos', 'tan', 'atan'],
  lists: [],
  conditions: false,
};

/** Expressions that give a number; `depth` bounds their height. */
export function numberTree(choices: Choices, depth: number): fc.Arbitrary<Expression> {
  const leaf = fc.constantFrom(...choices.leaves);
  if (depth === 0) return leaf;
  const below = numberTree(choices, depth - 1);
  const options: fc.WeightedArbitrary<Expression>[] = [
    { weight: 1, arbitrary: leaf },
    {
      weight: 4,
      arbitrary: fc.record({
        kind: fc.constant('arithmetic' as const), operator: fc.constantFrom('+', '-', '*', '/', '^'), left: below, right: below, span: fc.constant(SPAN),
      }),
    },
    { weight: 1, arbitrary: below.map((operand) => ({ kind: 'negative', operand, span: SPAN })) },
    {
      weight: 2,
      arbitrary: fc.tuple(fc.constantFrom(...choices.functions), below).map(([name, argument]) => ({ kind: 'call', name, arguments: [argument], span: SPAN })),
    },
  ];
  if (choices.lists.length > 0) {
    options.push({
      weight: 1,
      arbitrary: fc.tuple(fc.constantFrom(...choices.lists), fc.array(below, { minLength: 2, maxLength: 3 }))
        .map(([name, parts]) => ({ kind: 'call', name, arguments: parts, span: SPAN })),
    });
  }
  if (choices.conditions) {
    options.push({
      weight: 1,
      arbitrary: fc.tuple(truthTree(choices, depth - 1), below, below)
        .map((parts) => ({ kind: 'call', name: 'if', arguments: parts, span: SPAN })),
    });
  }
  return fc.oneof(...options);
}

/** Conditions over such numbers. */
export function truthTree(choices: Choices, depth: number): fc.Arbitrary<Expression> {
  const side = numberTree({ ...choices, conditions: depth > 0 && choices.conditions }, Math.max(0, depth - 1));
  const comparison: fc.Arbitrary<Expression> = fc.record({
    kind: fc.constant('comparison' as const), operator: fc.constantFrom('<', '<=', '>', '>='), left: side, right: side, span: fc.constant(SPAN),
  });
  if (depth === 0) return comparison;
  const below = truthTree(choices, depth - 1);
  return fc.oneof(
    { weight: 3, arbitrary: comparison },
    {
      weight: 1,
      arbitrary: fc.tuple(fc.constantFrom('and' as const, 'or' as const), below, below)
        .map(([kind, left, right]): Expression => ({ kind, left, right, span: SPAN })),
    },
    { weight: 1, arbitrary: below.map((operand): Expression => ({ kind: 'not', operand, span: SPAN })) },
  );
}

const MATHJS_NAMES: Readonly<Record<string, string>> = { ln: 'log' };

/** The tree in the oracle's own notation, with a bracket round everything, so that no precedence is involved. */
export function inMathjs(e: Expression): string {
  switch (e.kind) {
    case 'number':
      return e.text === 'pi' ? 'pi' : String(e.value);
    case 'symbol':
      return e.name;
    case 'unit':
      return String(e.unit.factor);
    case 'negative':
      return `(-${inMathjs(e.operand)})`;
    case 'not':
      return `(not ${inMathjs(e.operand)})`;
    case 'and':
    case 'or':
      return `(${inMathjs(e.left)} ${e.kind} ${inMathjs(e.right)})`;
    case 'arithmetic':
    case 'comparison':
      return `(${inMathjs(e.left)} ${e.operator} ${inMathjs(e.right)})`;
    case 'call': {
      const parts = e.arguments.map(inMathjs);
      if (e.name === 'if') return `(${parts[0]} ? ${parts[1]} : ${parts[2]})`;
      if (e.name === 'macaulay') return `max(${parts[0]}, 0)`;
      if (e.name === 'u') return '0.1';
      return `${MATHJS_NAMES[e.name] ?? e.name}(${parts.join(', ')})`;
    }
  }
}
