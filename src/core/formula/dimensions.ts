import { ok, type Result } from '../problem/index.ts';
import {
  ANGLE_DIMENSION, DIMENSIONLESS, divideDimensions, multiplyDimensions, raiseDimension, sameDimension, type Dimension,
} from '../units/index.ts';
import type { Expression } from './types.ts';
import { constantValue, isLiteralZero } from './expression.ts';
import * as problems from './dimension-problems.ts';

type Call = Extract<Expression, { kind: 'call' }>;
type Arithmetic = Extract<Expression, { kind: 'arithmetic' }>;

interface Check {
  readonly dimensionOf: (name: string) => Dimension | undefined;
  readonly knownNames: readonly string[];
}

/**
 * The kind of quantity a formula gives, or 'truth' for a condition; looked at before any number exists.
 * Sums, comparisons, min, max, mean and the branches of `if` hold one kind only, where the literal 0 fits every kind.
 * Problems, with the span of the part at fault: `dimension-clash`, `dimension-argument`, `dimension-exponent`,
 * `exponent-not-constant`, and `unknown-name` where `dimensionOf` says undefined (near ones from `knownNames`).
 */
export function checkDimensions(
  e: Expression,
  dimensionOf: (name: string) => Dimension | undefined,
  knownNames: readonly string[] = [],
): Result<Dimension | 'truth'> {
  return dimension(e, { dimensionOf, knownNames });
}

function dimension(e: Expression, check: Check): Result<Dimension | 'truth'> {
  switch (e.kind) {
    case 'comparison': {
      const common = commonDimension(e, 'comparison', [e.left, e.right], check);
      return common.ok ? ok('truth') : common;
    }
    case 'and':
    case 'or': {
      const left = dimension(e.left, check);
      return left.ok ? dimension(e.right, check) : left;
    }
    case 'not':
      return dimension(e.operand, check);
    default:
      return numberDimension(e, check);
  }
}

function numberDimension(e: Expression, check: Check): Result<Dimension> {
  switch (e.kind) {
    case 'number':
      return ok(DIMENSIONLESS);
    case 'unit':
      return ok(e.unit.dimension);
    case 'symbol': {
      const known = check.dimensionOf(e.name);
      return known === undefined ? problems.unknownName(e, e.name, check.knownNames) : ok(known);
    }
    case 'negative':
      return numberDimension(e.operand, check);
    case 'arithmetic':
      return arithmeticDimension(e, check);
    case 'call':
      return callDimension(e, check);
    default:
      throw new Error('A condition stands where a number belongs.');
  }
}

function arithmeticDimension(e: Arithmetic, check: Check): Result<Dimension> {
  if (e.operator === '+' || e.operator === '-') return commonDimension(e, e.operator, [e.left, e.right], check);
  const left = numberDimension(e.left, check);
  if (!left.ok) return left;
  const right = numberDimension(e.right, check);
  if (!right.ok) return right;
  if (e.operator === '*') return ok(multiplyDimensions(left.value, right.value));
  if (e.operator === '/') return ok(divideDimensions(left.value, right.value));
  if (!sameDimension(right.value, DIMENSIONLESS)) {
    return problems.exponentWithUnit({ expression: e.right, dimension: right.value });
  }
  if (sameDimension(left.value, DIMENSIONLESS)) return ok(DIMENSIONLESS);
  const exponent = constantValue(e.right);
  return exponent === undefined
    ? problems.exponentNotConstant({ expression: e.left, dimension: left.value }, e.right)
    : ok(raiseDimension(left.value, exponent));
}

/** The one dimension of all parts; literal zeros take that of the others. */
function commonDimension(
  where: Expression,
  meeting: problems.Meeting,
  parts: readonly Expression[],
  check: Check,
): Result<Dimension> {
  let first: problems.Part | undefined;
  for (const expression of parts) {
    const found = numberDimension(expression, check);
    if (!found.ok) return found;
    if (isLiteralZero(expression)) continue;
    const part = { expression, dimension: found.value };
    if (first !== undefined && !sameDimension(first.dimension, part.dimension)) return problems.clash(where, meeting, first, part);
    first ??= part;
  }
  return ok(first?.dimension ?? DIMENSIONLESS);
}

function callDimension(e: Call, check: Check): Result<Dimension> {
  const [first, ...others] = e.arguments;
  if (first === undefined) throw new Error(`${e.name} lacks its argument.`);
  switch (e.name) {
    case 'min':
    case 'max':
    case 'mean':
      return commonDimension(e, e.name, e.arguments, check);
    case 'if': {
      const condition = dimension(first, check);
      return condition.ok ? commonDimension(e, 'if', others, check) : condition;
    }
    case 'abs':
    case 'macaulay':
    case 'u':
    case 'best':
      return numberDimension(first, check);
    case 'sqrt':
      return rootDimension(first, 1 / 2, check);
    case 'cbrt':
      return rootDimension(first, 1 / 3, check);
    case 'sin':
    case 'cos':
    case 'tan':
      return ofPlainNumber(e, first, DIMENSIONLESS, check, true);
    case 'asin':
    case 'acos':
    case 'atan':
      return ofPlainNumber(e, first, ANGLE_DIMENSION, check);
    default:
      return e.arguments.reduce<Result<Dimension>>((found, part) => (found.ok ? ofPlainNumber(e, part, DIMENSIONLESS, check) : found), ok(DIMENSIONLESS));
  }
}

function rootDimension(inner: Expression, exponent: number, check: Check): Result<Dimension> {
  const found = numberDimension(inner, check);
  return found.ok ? ok(raiseDimension(found.value, exponent)) : found;
}

function ofPlainNumber(e: Call, inner: Expression, result: Dimension, check: Check, alsoAngle = false): Result<Dimension> {
  const found = numberDimension(inner, check);
  if (!found.ok) return found;
  const fits = sameDimension(found.value, DIMENSIONLESS) || (alsoAngle && sameDimension(found.value, ANGLE_DIMENSION));
  return fits ? ok(result) : problems.plainNumberNeeded(e, e.name, { expression: inner, dimension: found.value }, alsoAngle);
}
