import { fail, ok, type Problem, type Result } from '../problem/index.ts';
import type { Expression, FunctionOfSeveral } from './types.ts';
import { arithmetic, referencedSymbols } from './expression.ts';
import { functionOfOne } from './functions-of-one.ts';
import { functionOfSeveral } from './functions-of-several.ts';
import * as problems from './value-problems.ts';

/** Where a formula's numbers come from. Values and standard uncertainties in SI. */
export interface Environment {
  value(name: string): number;
  standardUncertainty(name: string): number;
}

/** A value with its partial derivatives, one slot for each symbol differentiated by (forward mode). */
interface Dual {
  readonly value: number;
  readonly partials: Float64Array;
}

/** One evaluation. The first problem met stands; what follows it is NaN and nobody's business. */
interface Run {
  readonly environment: Environment;
  /** Slot of each symbol; empty where only the value is wanted. */
  readonly slots: ReadonlyMap<string, number>;
  problem: Problem | undefined;
}

type Arithmetic = Extract<Expression, { kind: 'arithmetic' }>;
type Call = Extract<Expression, { kind: 'call' }>;

/**
 * The formula's value, SI, finite. Only the branch of `if` that counts is looked at; `and` and `or` stop as soon as the
 * answer is known. Problem: `no-value`, with the span of the part that has none.
 */
export function evaluate(e: Expression, environment: Environment): Result<number> {
  const run: Run = { environment, slots: new Map(), problem: undefined };
  const { value } = dualOf(e, run);
  return run.problem === undefined ? ok(value) : fail(run.problem);
}

/** Whether the condition holds. Comparisons are of doubles, without tolerance. Problem: `no-value`. */
export function evaluateTruth(e: Expression, environment: Environment): Result<boolean> {
  const run: Run = { environment, slots: new Map(), problem: undefined };
  const holds = truthOf(e, run);
  return run.problem === undefined ? ok(holds) : fail(run.problem);
}

/**
 * Value and all partial derivatives in one pass, SI, finite; one entry for every referenced symbol. Where two branches
 * meet, the first counts: min and max take the first of equal arguments, abs(x) is max(x, -x), macaulay(x) is max(x, 0).
 * `u(x)` is a constant. Problem: `no-value`, also where the value is finite but a partial is not, as of sqrt(x) at 0.
 */
export function evaluateWithPartials(
  e: Expression,
  environment: Environment,
): Result<{ readonly value: number; readonly partials: ReadonlyMap<string, number> }> {
  const names = referencedSymbols(e);
  const run: Run = { environment, slots: new Map(names.map((name, slot) => [name, slot])), problem: undefined };
  const { value, partials } = dualOf(e, run);
  if (run.problem !== undefined) return fail(run.problem);
  return ok({ value, partials: new Map(names.map((name, slot) => [name, partials[slot] ?? 0])) });
}

function constant(value: number, run: Run): Dual {
  return { value, partials: new Float64Array(run.slots.size) };
}

function without(run: Run, problem: Problem): Dual {
  run.problem ??= problem;
  return constant(NaN, run);
}

function dualOf(e: Expression, run: Run): Dual {
  switch (e.kind) {
    case 'number':
      return constant(e.value, run);
    case 'unit':
      return constant(e.unit.factor, run);
    case 'symbol':
      return symbolDual(e, e.name, run);
    case 'negative': {
      const { value, partials } = dualOf(e.operand, run);
      return { value: -value, partials: partials.map((partial) => -partial) };
    }
    case 'arithmetic':
      return arithmeticDual(e, run);
    case 'call':
      return callDual(e, run);
    default:
      throw new Error('A condition stands where a number belongs.');
  }
}

function symbolDual(e: Expression, name: string, run: Run): Dual {
  const dual = constant(run.environment.value(name), run);
  if (!Number.isFinite(dual.value)) return without(run, problems.symbolWithoutValue(e, name));
  const slot = run.slots.get(name);
  if (slot !== undefined) dual.partials[slot] = 1;
  return dual;
}

/** Zero times anything is zero here: a slope without value does not matter along a direction that does not change. */
function times(slope: number, partial: number): number {
  return partial === 0 ? 0 : slope * partial;
}

/** The dual with the given slopes along two operands. Seven plain parameters: it is called at every operation, and an object each time is made for nothing. */
function chained(e: Expression, run: Run, value: number, a: Dual, slopeA: number, b: Dual, slopeB: number): Dual {
  if (!Number.isFinite(value)) return without(run, problems.tooLarge(e));
  const partials = a.partials.map((partial, slot) => times(slopeA, partial) + times(slopeB, b.partials[slot] ?? 0));
  if (!partials.every(Number.isFinite)) return without(run, problems.noRateOfChange(e));
  return { value, partials };
}

function arithmeticDual(e: Arithmetic, run: Run): Dual {
  const a = dualOf(e.left, run);
  const b = dualOf(e.right, run);
  if (run.problem !== undefined) return a;
  const value = arithmetic(e.operator, a.value, b.value);
  switch (e.operator) {
    case '+':
      return chained(e, run, value, a, 1, b, 1);
    case '-':
      return chained(e, run, value, a, 1, b, -1);
    case '*':
      return chained(e, run, value, a, b.value, b, a.value);
    case '/':
      if (b.value === 0) return without(run, problems.divisionByZero(e, e.right));
      return chained(e, run, value, a, 1 / b.value, b, -value / b.value);
    case '^':
      return powerDual(e, run, value, a, b);
  }
}

function powerDual(e: Arithmetic, run: Run, value: number, a: Dual, b: Dual): Dual {
  if (a.value === 0 && b.value < 0) return without(run, problems.zeroToNegativePower(e, e.left));
  if (a.value < 0 && !Number.isInteger(b.value)) return without(run, problems.negativeBase(e, e.left, a.value));
  const alongBase = b.value === 0 ? 0 : b.value * a.value ** (b.value - 1);
  // 0^p stays 0 for every p > 0; a negative base has values at whole exponents only, hence no slope along the exponent.
  const alongExponent = a.value === 0 && b.value > 0 ? 0 : value * Math.log(a.value);
  return chained(e, run, value, a, alongBase, b, alongExponent);
}

function callDual(e: Call, run: Run): Dual {
  switch (e.name) {
    case 'if':
      return ifDual(e, run);
    case 'min':
    case 'max':
      return extremeDual(e, run);
    case 'mean':
      return meanDual(e, run);
    case 'u':
      return uncertaintyDual(e, run);
    case 'best':
      return constant(dualOf(argument(e, 0), run).value, run);
    default: {
      const several = functionOfSeveral(e.name);
      return several === undefined ? functionOfOneDual(e, argument(e, 0), run) : severalDual(e, several, run);
    }
  }
}

function argument(e: Call, place: number): Expression {
  const found = e.arguments[place];
  if (found === undefined) throw new Error(`${e.name} lacks an argument.`);
  return found;
}

function ifDual(e: Call, run: Run): Dual {
  const holds = truthOf(argument(e, 0), run);
  return run.problem === undefined ? dualOf(argument(e, holds ? 1 : 2), run) : constant(NaN, run);
}

function extremeDual(e: Call, run: Run): Dual {
  const [first, ...others] = e.arguments.map((part) => dualOf(part, run));
  if (first === undefined) throw new Error(`${e.name} lacks an argument.`);
  const better = e.name === 'min' ? (a: Dual, b: Dual) => a.value < b.value : (a: Dual, b: Dual) => a.value > b.value;
  return others.reduce((best, next) => (better(next, best) ? next : best), first);
}

function meanDual(e: Call, run: Run): Dual {
  const parts = e.arguments.map((part) => dualOf(part, run));
  if (run.problem !== undefined) return constant(NaN, run);
  const value = parts.reduce((sum, part) => sum + part.value, 0) / parts.length;
  const partials = new Float64Array(run.slots.size);
  for (const part of parts) part.partials.forEach((partial, slot) => (partials[slot] = (partials[slot] ?? 0) + partial / parts.length));
  return Number.isFinite(value) ? { value, partials } : without(run, problems.tooLarge(e));
}

function uncertaintyDual(e: Call, run: Run): Dual {
  const symbol = argument(e, 0);
  if (symbol.kind !== 'symbol') throw new Error('u( ) takes a symbol.');
  const uncertainty = run.environment.standardUncertainty(symbol.name);
  return Number.isFinite(uncertainty) ? constant(uncertainty, run) : without(run, problems.symbolWithoutValue(e, `u(${symbol.name})`));
}

function severalDual(e: Call, rule: FunctionOfSeveral, run: Run): Dual {
  const parts = e.arguments.map((part) => dualOf(part, run));
  if (run.problem !== undefined) return constant(NaN, run);
  const x = parts.map((part) => part.value);
  const value = rule.value(x);
  if (!Number.isFinite(value)) {
    const place = rule.fault(x);
    return without(run, problems.outsideDomain(e, e.name, argument(e, place), x[place] ?? NaN, rule.needs));
  }
  // Slopes may cost more than the value, and are none where nothing moves.
  if (parts.every((part) => part.partials.every((partial) => partial === 0))) return constant(value, run);
  const slopes = rule.slopes(x, value);
  const partials = constant(0, run).partials.map((_zero, slot) =>
    parts.reduce((sum, part, i) => sum + times(slopes[i] ?? NaN, part.partials[slot] ?? 0), 0));
  return partials.every(Number.isFinite) ? { value, partials } : without(run, problems.noRateOfChange(e));
}

function functionOfOneDual(e: Call, inner: Expression, run: Run): Dual {
  const x = dualOf(inner, run);
  if (run.problem !== undefined) return x;
  const rule = functionOfOne(e.name);
  const value = rule.value(x.value);
  if (!Number.isFinite(value)) return without(run, problems.outsideDomain(e, e.name, inner, x.value, rule.needs));
  const slope = rule.slope(x.value, value);
  const partials = x.partials.map((partial) => times(slope, partial));
  return partials.every(Number.isFinite) ? { value, partials } : without(run, problems.noRateOfChange(e));
}

function truthOf(e: Expression, run: Run): boolean {
  switch (e.kind) {
    case 'not':
      return !truthOf(e.operand, run);
    case 'and':
      return truthOf(e.left, run) && truthOf(e.right, run);
    case 'or':
      return truthOf(e.left, run) || truthOf(e.right, run);
    case 'comparison': {
      const left = dualOf(e.left, run).value;
      const right = dualOf(e.right, run).value;
      if (e.operator === '<') return left < right;
      if (e.operator === '<=') return left <= right;
      return e.operator === '>' ? left > right : left >= right;
    }
    default:
      throw new Error('A number stands where a condition belongs.');
  }
}
