import type { Expression } from '../../core/formula/index.ts';
import type { Chain } from '../along/index.ts';

/**
 * Whether a chain says of the symbols on the way what the sheet itself would: each has a formula, and none reads an
 * uncertainty or a best estimate that moves along, which a chain keeps as it is.
 */
export function exactAlong({ links }: Chain, way: readonly string[], moved: readonly string[]): boolean {
  const moving = new Set(way);
  return links.every(({ symbol, rule }) => {
    if (!moving.has(symbol) || moved.includes(symbol)) return true;
    return rule?.kind === 'formula' && [rule.expression, ...rule.outside.map(({ condition }) => condition)].every((e) => !readsKept(e, moving));
  });
}

/** Whether a formula asks u( ) or best( ) of one of these symbols. */
function readsKept(e: Expression, moving: ReadonlySet<string>): boolean {
  switch (e.kind) {
    case 'number':
    case 'unit':
    case 'symbol':
      return false;
    case 'negative':
    case 'not':
      return readsKept(e.operand, moving);
    case 'call': {
      const [first] = e.arguments;
      if ((e.name === 'u' || e.name === 'best') && first?.kind === 'symbol') return moving.has(first.name);
      return e.arguments.some((part) => readsKept(part, moving));
    }
    default:
      return readsKept(e.left, moving) || readsKept(e.right, moving);
  }
}
