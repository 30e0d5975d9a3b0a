import { leavesOf, referencedSymbols, substitute } from '../../core/formula/index.ts';
import type { Expression } from '../../core/formula/index.ts';

/** Leaves that the formula of one row may have when its derived columns are written out: a column that reads another one twice, and that one a third twice, doubles with each. */
export const MOST_LEAVES = 2000;

export interface Columns {
  /** The formula of a derived column; undefined for a typed one. */
  readonly formulaOf: (name: string) => Expression | undefined;
  /** What a typed column has in a row; undefined where the name is the sheet's. */
  readonly numberAt: (name: string, i: number) => Expression | undefined;
}

/** The derived columns that a column reads, each after those that it reads itself, the column last. Columns that read each other in a loop are refused before. */
export function derivedBehind(column: string, { formulaOf }: Pick<Columns, 'formulaOf'>): readonly string[] {
  const order = new Set<string>();
  const begun = new Set<string>();
  const left = [column];
  for (let name = left.at(-1); name !== undefined; name = left.at(-1)) {
    const formula = order.has(name) ? undefined : formulaOf(name);
    const next = formula === undefined || begun.has(name) ? [] : referencedSymbols(formula).filter((inner) => formulaOf(inner) !== undefined && !begun.has(inner));
    begun.add(name);
    if (next.length > 0) left.push(...next);
    else {
      left.pop();
      if (formula !== undefined) order.add(name);
    }
  }
  return [...order];
}

/** Leaves of a column's formula when it is written out, without writing it out. @param order as of `derivedBehind` */
export function leavesWrittenOut(column: string, order: readonly string[], { formulaOf }: Pick<Columns, 'formulaOf'>): number {
  const leaves = new Map<string, number>();
  for (const name of order) {
    const formula = formulaOf(name);
    if (formula === undefined) continue;
    let more = 0;
    substitute(formula, (inner) => {
      more += (leaves.get(inner) ?? 1) - 1;
      return undefined;
    });
    leaves.set(name, leavesOf(formula) + more);
  }
  return leaves.get(column) ?? 1;
}

/** A column of one row as an expression of the sheet's symbols. @param order as of `derivedBehind` */
export function writtenOut(column: string, i: number, order: readonly string[], { formulaOf, numberAt }: Columns): Expression | undefined {
  const written = new Map<string, Expression>();
  for (const name of order) {
    const formula = formulaOf(name);
    if (formula !== undefined) written.set(name, substitute(formula, (inner) => written.get(inner) ?? numberAt(inner, i)));
  }
  return written.get(column) ?? numberAt(column, i);
}
