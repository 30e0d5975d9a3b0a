import { remembered } from '../remembered/index.ts';
import { call, difference, negative, number, ONE_NUMBER, product, quotient, sum, ZERO } from './build.ts';
import { evaluate, evaluateTruth, type Environment } from './evaluate.ts';
import { leavesOf, operandsOf } from './expression.ts';
import { printFormula } from './print.ts';
import { inOrderOfReading } from './reading-order.ts';
import type { Expression } from './types.ts';

/** What an exponent is looked for in. */
export interface Definitions extends Environment {
  /** The formula behind a symbol; undefined for one that stands for itself. Nothing may go round in a circle. */
  definition(name: string): Expression | undefined;
}

type Arithmetic = Extract<Expression, { kind: 'arithmetic' }>;
type Call = Extract<Expression, { kind: 'call' }>;

/** How a formula hangs on one symbol: the rules below, each for one kind of part. All formulas have only the branches in force. */
interface Search {
  readonly name: string;
  /** What was found of the symbols that move with it, which formulas may read many times. */
  readonly exponents: Map<string, Expression | undefined>;
  /** By base and symbol. */
  readonly slopes: Map<string, Expression | undefined>;
}

/** Bases of the exponential functions that a power law is looked for in. */
const BASES = [10, Math.E];

/** An exponent longer than this is none that anybody reads, and would only grow. */
const LONGEST = 12;

/**
 * The power p with which a formula follows one symbol x, directly and by way of the formulas behind its other symbols:
 * e = constant·x^p, as an expression without x. Undefined where it follows no power law. Of `if`, `min` and `max` the
 * branch in force counts, so that p is that of the present values.
 * @example the exponent of 32*M/(pi*d^3) with respect to d is -3; of 10^(A + B*log10(S)) with respect to S, B
 */
export function exponentOf(e: Expression, name: string, definitions: Definitions): Expression | undefined {
  const search: Search = { name, exponents: new Map(), slopes: new Map() };
  const whole = inForceOf(definitions)(e);
  // Those first that others read, so that no rule has to go behind a symbol: a chain may be as long as the sheet.
  for (const [symbol, formula] of formulasBehind(whole, name, definitions)) {
    if (!moves(formula, search)) continue;
    search.exponents.set(symbol, shortOnly(exponent(formula, search)));
    for (const base of BASES) search.slopes.set(`${base} ${symbol}`, shortOnly(logarithmicSlope(formula, search, base)));
  }
  return exponent(whole, search);
}

/** By one set of definitions, which a budget asks of every input. */
const inForceOf = remembered((definitions: Definitions) => remembered((e: Expression) => inForce(e, definitions)));

/** The formulas in force of the symbols that a formula reads, each after those that it reads itself; nothing behind the one symbol. */
function formulasBehind(whole: Expression, name: string, definitions: Definitions): ReadonlyMap<string, Expression> {
  const formulas = new Map<string, Expression>();
  const order = inOrderOfReading(movingSymbolsOf(whole), (symbol) => {
    const behind = symbol === name ? undefined : definitions.definition(symbol);
    if (behind === undefined) return [];
    const formula = inForceOf(definitions)(behind);
    formulas.set(symbol, formula);
    return movingSymbolsOf(formula);
  });
  return new Map(order.flatMap((symbol) => {
    const formula = formulas.get(symbol);
    return formula === undefined ? [] : [[symbol, formula] as const];
  }));
}

/** The formula with only the branches of `if`, `min`, `max`, `abs` and `macaulay` that are in force. */
export function inForce(e: Expression, environment: Environment): Expression {
  const inside = (part: Expression): Expression => inForce(part, environment);
  switch (e.kind) {
    case 'negative':
      return { ...e, operand: inside(e.operand) };
    case 'arithmetic':
      return { ...e, left: inside(e.left), right: inside(e.right) };
    case 'call':
      return branchOf(e, environment) ?? { ...e, arguments: e.arguments.map(inside) };
    default:
      return e;
  }
}

function branchOf(e: Call, environment: Environment): Expression | undefined {
  const [first, ...others] = e.arguments;
  if (first === undefined) return undefined;
  const valueOf = (part: Expression): number => {
    const found = evaluate(part, environment);
    return found.ok ? found.value : Number.NaN;
  };
  switch (e.name) {
    case 'if': {
      const holds = evaluateTruth(first, environment);
      const branch = holds.ok ? others[holds.value ? 0 : 1] : undefined;
      return branch === undefined ? undefined : inForce(branch, environment);
    }
    case 'min':
    case 'max': {
      const better = (a: number, b: number): boolean => (e.name === 'min' ? a < b : a > b);
      const best = others.reduce((one, other) => (better(valueOf(other), valueOf(one)) ? other : one), first);
      return inForce(best, environment);
    }
    case 'abs':
      return valueOf(first) >= 0 ? inForce(first, environment) : negative(inForce(first, environment));
    case 'macaulay':
      return valueOf(first) >= 0 ? inForce(first, environment) : ZERO;
    default:
      return undefined;
  }
}

/** Whether a formula moves with the symbol, directly or by way of others. */
function moves(e: Expression, { name, exponents }: Search): boolean {
  return movingSymbolsOf(e).some((other) => other === name || exponents.has(other));
}

/** Symbols with which a formula can move; `u(x)` and `best(x)` are constants. Every rule asks it of every part. */
const movingSymbolsOf = remembered((e: Expression): readonly string[] => {
  if (e.kind === 'symbol') return [e.name];
  return e.kind === 'call' && (e.name === 'u' || e.name === 'best') ? [] : [...new Set(operandsOf(e).flatMap(movingSymbolsOf))];
});

function exponent(e: Expression, search: Search): Expression | undefined {
  if (!moves(e, search)) return ZERO;
  switch (e.kind) {
    case 'symbol':
      return e.name === search.name ? ONE_NUMBER : search.exponents.get(e.name);
    case 'negative':
      return exponent(e.operand, search);
    case 'arithmetic':
      return exponentOfArithmetic(e, search);
    case 'call':
      return exponentOfCall(e, search);
    default:
      return undefined;
  }
}

function exponentOfArithmetic({ operator, left, right }: Arithmetic, search: Search): Expression | undefined {
  if (operator === '^') {
    if (!moves(right, search)) return map(exponent(left, search), (p) => product(p, right));
    if (moves(left, search)) return undefined;
    const isTen = left.kind === 'number' && left.value === 10;
    const slope = logarithmicSlope(right, search, isTen ? 10 : Math.E);
    return map(slope, (s) => (isTen ? s : product(s, call('ln', left))));
  }
  const [a, b] = [exponent(left, search), exponent(right, search)];
  if (a === undefined || b === undefined) return undefined;
  if (operator === '*') return sum(a, b);
  if (operator === '/') return difference(a, b);
  // A sum follows a power law only if both of its terms follow the same.
  return printFormula(a) === printFormula(b) ? a : undefined;
}

function exponentOfCall({ name, arguments: [first] }: Call, search: Search): Expression | undefined {
  if (first === undefined) return undefined;
  switch (name) {
    case 'sqrt': return map(exponent(first, search), (p) => quotient(p, number(2)));
    case 'cbrt': return map(exponent(first, search), (p) => quotient(p, number(3)));
    case 'exp': return logarithmicSlope(first, search, Math.E);
    default: return undefined;
  }
}

/** x·de/dx times ln(base), for an exponent over that base; undefined unless it is free of x. */
function logarithmicSlope(e: Expression, search: Search, base: number): Expression | undefined {
  if (!moves(e, search)) return ZERO;
  const inside = (part: Expression): Expression | undefined => logarithmicSlope(part, search, base);
  if (e.kind === 'symbol') return search.slopes.get(`${base} ${e.name}`);
  if (e.kind === 'negative') return map(inside(e.operand), negative);
  if (e.kind === 'call') {
    const [first] = e.arguments;
    if (first === undefined || (e.name !== 'ln' && e.name !== 'log10')) return undefined;
    const p = exponent(first, search);
    if ((e.name === 'log10') === (base === 10)) return p;
    const ten = call('ln', number(10));
    return map(p, (known) => (e.name === 'ln' ? product(known, ten) : quotient(known, ten)));
  }
  if (e.kind !== 'arithmetic') return undefined;
  const { operator, left, right } = e;
  if (operator === '*' && !moves(left, search)) return map(inside(right), (slope) => product(left, slope));
  if (operator === '*' && !moves(right, search)) return map(inside(left), (slope) => product(right, slope));
  if (operator === '/' && !moves(right, search)) return map(inside(left), (slope) => quotient(slope, right));
  if (operator !== '+' && operator !== '-') return undefined;
  const [a, b] = [inside(left), inside(right)];
  if (a === undefined || b === undefined) return undefined;
  return operator === '+' ? sum(a, b) : difference(a, b);
}

function shortOnly(e: Expression | undefined): Expression | undefined {
  return e === undefined || leavesOf(e) > LONGEST ? undefined : e;
}

function map(e: Expression | undefined, change: (known: Expression) => Expression | undefined): Expression | undefined {
  return e === undefined ? undefined : change(e);
}
