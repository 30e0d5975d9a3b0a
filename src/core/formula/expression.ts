import { remembered } from '../remembered/index.ts';
import type { Expression } from './types.ts';

/** The parts of an expression, left to right. */
export function operandsOf(e: Expression): readonly Expression[] {
  switch (e.kind) {
    case 'number':
    case 'symbol':
    case 'unit':
      return [];
    case 'negative':
    case 'not':
      return [e.operand];
    case 'call':
      return e.arguments;
    default:
      return [e.left, e.right];
  }
}

/** A formula gives a number (with or without unit) or a truth, never both; the parser has refused every mixture. */
export function kindOf(e: Expression): 'number' | 'truth' {
  return e.kind === 'comparison' || e.kind === 'and' || e.kind === 'or' || e.kind === 'not' ? 'truth' : 'number';
}

/** Every symbol the formula reads, also inside `u( )`, once, in the order of first appearance. */
export const referencedSymbols = remembered((e: Expression): readonly string[] => {
  const names = new Set<string>();
  const visit = (node: Expression): void => {
    if (node.kind === 'symbol') names.add(node.name);
    operandsOf(node).forEach(visit);
  };
  visit(e);
  return [...names];
});

/** Whether a formula reads the standard uncertainty of anything. */
export function readsUncertainty(e: Expression): boolean {
  return (e.kind === 'call' && e.name === 'u') || operandsOf(e).some(readsUncertainty);
}

/** How many symbols, numbers and units stand in a formula. */
export function leavesOf(e: Expression): number {
  const parts = operandsOf(e);
  return parts.length === 0 ? 1 : parts.reduce((sum, part) => sum + leavesOf(part), 0);
}

/** Whether a formula's value moves with that of a symbol at all; `u(x)` and `best(x)` are constants. */
export function dependsOn(e: Expression, name: string): boolean {
  if (e.kind === 'symbol') return e.name === name;
  if (e.kind === 'call' && (e.name === 'u' || e.name === 'best')) return false;
  return operandsOf(e).some((part) => dependsOn(part, name));
}

/** The value of an expression written with plain numbers only, as `1/2` or `-0.265`; undefined where anything else is read. */
export function constantValue(e: Expression): number | undefined {
  if (e.kind === 'number') return e.value;
  if (e.kind === 'negative') {
    const operand = constantValue(e.operand);
    return operand === undefined ? undefined : -operand;
  }
  if (e.kind !== 'arithmetic') return undefined;
  const left = constantValue(e.left);
  const right = constantValue(e.right);
  if (left === undefined || right === undefined) return undefined;
  const value = arithmetic(e.operator, left, right);
  return Number.isFinite(value) ? value : undefined;
}

/** One operation in doubles; what has no value comes back as NaN or an infinity. */
export function arithmetic(operator: '+' | '-' | '*' | '/' | '^', left: number, right: number): number {
  switch (operator) {
    case '+':
      return left + right;
    case '-':
      return left - right;
    case '*':
      return left * right;
    case '/':
      return left / right;
    case '^':
      return left ** right;
  }
}

/** The literal 0, which fits any kind of quantity. */
export function isLiteralZero(e: Expression): boolean {
  return e.kind === 'number' && e.value === 0;
}
