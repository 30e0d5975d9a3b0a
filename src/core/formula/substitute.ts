import type { Expression } from './types.ts';

/** A number that stands in no text. */
export function literalNumber(value: number): Expression {
  return { kind: 'number', value, text: String(value), span: { start: 0, end: 0 } };
}

/**
 * The expression with some of its symbols replaced. `u(x)` of a symbol that is replaced becomes 0: what stands in its
 * place has no uncertainty of its own.
 */
export function substitute(e: Expression, replacement: (name: string) => Expression | undefined): Expression {
  const inside = (part: Expression): Expression => substitute(part, replacement);
  switch (e.kind) {
    case 'number':
    case 'unit':
      return e;
    case 'symbol':
      return replacement(e.name) ?? e;
    case 'negative':
    case 'not':
      return { ...e, operand: inside(e.operand) };
    case 'call': {
      const [first] = e.arguments;
      if (e.name !== 'u' || first?.kind !== 'symbol') return { ...e, arguments: e.arguments.map(inside) };
      return replacement(first.name) === undefined ? e : literalNumber(0);
    }
    default:
      return { ...e, left: inside(e.left), right: inside(e.right) };
  }
}
