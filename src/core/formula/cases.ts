import type { Environment } from './evaluate.ts';
import { evaluate, evaluateTruth } from './evaluate.ts';
import { literalNumber } from './substitute.ts';
import type { ComparisonOperator, Expression } from './types.ts';

/** A formula with cases, as it applies for some values. */
export interface AppliedCases {
  /** Without `if`; a case that is zero has left the sums and products that it stood in. */
  readonly expression: Expression;
  /** Comparisons that hold and decide which cases apply, each once, in order. */
  readonly since: readonly Expression[];
}

type Call = Extract<Expression, { kind: 'call' }>;

/** The cases of a formula that apply; undefined where it has none, or where one of its conditions can't be told. */
export function applyCases(e: Expression, environment: Environment): AppliedCases | undefined {
  const since: Expression[] = [];
  let isUntold = false;
  const choose = (call: Call): Expression | undefined => {
    const [condition, yes, no] = call.arguments;
    if (call.name !== 'if' || condition === undefined || yes === undefined || no === undefined) return undefined;
    const truth = evaluateTruth(condition, environment);
    if (!truth.ok) {
      isUntold = true;
      return undefined;
    }
    since.push(...reasonsFor(condition, environment));
    return truth.value ? yes : no;
  };
  const expression = rewritten(e, choose);
  const known = new Map(since.map((reason) => [textOf(reason), reason]));
  return isUntold || since.length === 0 ? undefined : { expression, since: [...known.values()] };
}

/** The angle brackets of beam statics as they stand for some values: what is in them where that is above zero, else nothing. */
export function openBrackets(e: Expression, environment: Environment): Expression {
  return rewritten(e, (call) => {
    const [inside] = call.arguments;
    const value = call.name === 'macaulay' && inside !== undefined ? evaluate(inside, environment) : undefined;
    if (inside === undefined || value?.ok !== true) return undefined;
    return value.value > 0 ? inside : literalNumber(0);
  });
}

/** @param choose what takes the place of a call; undefined where the call stays. A zero that was put in leaves its sum or takes its product along. */
function rewritten(e: Expression, choose: (call: Call) => Expression | undefined): Expression {
  const inside = (part: Expression): Expression => rewritten(part, choose);
  switch (e.kind) {
    case 'number':
    case 'symbol':
    case 'unit':
      return e;
    case 'negative': {
      const operand = inside(e.operand);
      return operand === e.operand ? e : { ...e, operand };
    }
    case 'not':
      return { ...e, operand: inside(e.operand) };
    case 'call': {
      const chosen = choose(e);
      if (chosen !== undefined) return inside(chosen);
      const parts = e.arguments.map(inside);
      return parts.every((part, i) => part === e.arguments[i]) ? e : { ...e, arguments: parts };
    }
    case 'arithmetic': {
      const [left, right] = [inside(e.left), inside(e.right)];
      return left === e.left && right === e.right ? e : withoutZero({ ...e, left, right });
    }
    default:
      return { ...e, left: inside(e.left), right: inside(e.right) };
  }
}

function withoutZero(e: Extract<Expression, { kind: 'arithmetic' }>): Expression {
  const { operator, left, right } = e;
  if (operator === '*' && (isZero(left) || isZero(right))) return literalNumber(0);
  if ((operator === '+' || operator === '-') && isZero(right)) return left;
  if (operator === '+' && isZero(left)) return right;
  if (operator === '-' && isZero(left)) return { kind: 'negative', operand: right, span: e.span };
  return e;
}

/** Zero as it is written: `0`, `-0`, `0*unit(MPa)`. */
function isZero(e: Expression): boolean {
  if (e.kind === 'number') return e.value === 0;
  if (e.kind === 'negative') return isZero(e.operand);
  return e.kind === 'arithmetic' && e.operator === '*' && (isZero(e.left) || isZero(e.right));
}

const OPPOSITE: Readonly<Record<ComparisonOperator, ComparisonOperator>> = { '<': '>=', '<=': '>', '>': '<=', '>=': '<' };

/** Comparisons that hold, from which it follows that the condition does, or that it does not. */
function reasonsFor(condition: Expression, environment: Environment): readonly Expression[] {
  const truth = evaluateTruth(condition, environment);
  if (!truth.ok) return [];
  if (condition.kind === 'comparison') return [truth.value ? condition : { ...condition, operator: OPPOSITE[condition.operator] }];
  if (condition.kind === 'not') return reasonsFor(condition.operand, environment);
  if (condition.kind !== 'and' && condition.kind !== 'or') return [];
  const parts = [condition.left, condition.right];
  // Both are needed where all of them have to hold and do, or one would do and none does; else the first that decides.
  const deciding = (condition.kind === 'and') === truth.value ? parts : [parts.find((part) => saysSo(part, truth.value, environment)) ?? condition.left];
  return deciding.flatMap((part) => reasonsFor(part, environment));
}

function saysSo(part: Expression, value: boolean, environment: Environment): boolean {
  const truth = evaluateTruth(part, environment);
  return truth.ok && truth.value === value;
}

/** Without places: the same comparison twice is told once. */
function textOf(e: Expression): string {
  return JSON.stringify(e, (key, value: unknown) => (key === 'span' ? undefined : value));
}
