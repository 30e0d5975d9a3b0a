import type { Expression } from './types.ts';

/** How tightly each kind of expression holds together; brackets go round what is looser than its place asks. */
const TIGHTNESS: Readonly<Record<string, number>> = { or: 1, and: 2, not: 3, '+': 5, '-': 5, '*': 6, '/': 6, '^': 8 };
const COMPARISON = 4;
const NEGATIVE = 7;
const ATOM = 9;

function tightness(e: Expression): number {
  switch (e.kind) {
    case 'comparison':
      return COMPARISON;
    case 'negative':
      return NEGATIVE;
    case 'arithmetic':
      return TIGHTNESS[e.operator] ?? ATOM;
    default:
      return TIGHTNESS[e.kind] ?? ATOM;
  }
}

/** The formula as text: reading it again gives the same tree, spans aside. Brackets only where they are needed or help. */
export function printFormula(e: Expression): string {
  switch (e.kind) {
    case 'number':
      return e.text;
    case 'symbol':
      return e.name;
    case 'unit':
      return `unit(${e.unit.name})`;
    case 'call':
      return `${e.name}(${e.arguments.map(printFormula).join(', ')})`;
    case 'negative':
      return `-${printAbove(e.operand, NEGATIVE)}`;
    case 'not':
      return `not ${printAbove(e.operand, COMPARISON)}`;
    case 'comparison':
      return `${printAbove(e.left, COMPARISON)} ${e.operator} ${printAbove(e.right, COMPARISON)}`;
    case 'and':
    case 'or':
      return `${printAbove(e.left, tightness(e) - 1)} ${e.kind} ${printAbove(e.right, tightness(e))}`;
    case 'arithmetic':
      return printArithmetic(e);
  }
}

function printArithmetic(e: Extract<Expression, { kind: 'arithmetic' }>): string {
  if (e.operator === '^') return `${printAbove(e.left, TIGHTNESS['^'] ?? ATOM)}^${printAbove(e.right, NEGATIVE)}`;
  const spaced = e.operator === '+' || e.operator === '-' ? ` ${e.operator} ` : e.operator;
  // A minus after another operator is legal, but bracketed it is easier to read.
  const right = e.right.kind === 'negative' ? ATOM : tightness(e);
  return `${printAbove(e.left, tightness(e) - 1)}${spaced}${printAbove(e.right, right)}`;
}

function printAbove(e: Expression, level: number): string {
  return tightness(e) > level ? printFormula(e) : `(${printFormula(e)})`;
}
