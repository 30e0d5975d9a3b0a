import { remembered } from '../remembered/index.ts';
import { operandsOf } from './expression.ts';
import type { Expression } from './types.ts';

/** What an expression is, without where it stands: the same text for the same operations on the same names and numbers. */
export const structureOf = remembered((e: Expression): string => {
  switch (e.kind) {
    case 'number':
      return Object.is(e.value, -0) ? '-0' : String(e.value);
    case 'unit':
      return `unit ${e.unit.factor}`;
    case 'symbol':
      return e.name;
    default:
      return `${nameOf(e)}(${operandsOf(e).map(structureOf).join(', ')})`;
  }
});

function nameOf(e: Expression): string {
  if (e.kind === 'call') return `call ${e.name}`;
  return e.kind === 'arithmetic' || e.kind === 'comparison' ? e.operator : e.kind;
}

/** Structures that stand in more than one place of these expressions; of a repeated one its own parts only where they stand elsewhere as well. */
export function repeatedIn(expressions: readonly Expression[]): ReadonlySet<string> {
  const seen = new Set<string>();
  const repeated = new Set<string>();
  const visit = (e: Expression): void => {
    const parts = operandsOf(e);
    if (parts.length === 0) return;
    const structure = structureOf(e);
    if (seen.has(structure)) {
      repeated.add(structure);
      return;
    }
    seen.add(structure);
    parts.forEach(visit);
  };
  expressions.forEach(visit);
  return repeated;
}
