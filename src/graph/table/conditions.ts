import { checkDimensions, evaluateBlock } from '../../core/formula/index.ts';
import type { Expression } from '../../core/formula/index.ts';
import { fail, ok } from '../../core/problem/index.ts';
import type { Result } from '../../core/problem/index.ts';
import { parseRemembered } from '../formulas.ts';
import * as problems from './field-problems.ts';
import { countRows, numbersOf, type RowTable } from '../../core/rows/index.ts';
import type { ColumnState, SheetSymbols } from './types.ts';

/**
 * The rows, by number, for which a condition on their columns and on symbols of the sheet holds: 1, else 0. A row without
 * a value that the condition needs does not meet it. Problems: `table-condition`, and those of reading a formula.
 */
export function rowsMeeting(condition: string, columns: readonly ColumnState[], rows: RowTable, sheet: SheetSymbols): Result<Uint8Array> {
  const parsed = parseRemembered(condition);
  if (!parsed.ok) return fail({ ...parsed.problem, text: condition });
  const told = checked(parsed.value, columns, sheet);
  if (!told.ok) return fail({ ...told.problem, text: condition });
  const numbers = new Set(columns.flatMap(({ name, unit }) => (unit === undefined ? [] : [name])));
  const columnOf = (name: string): Float64Array | number => (numbers.has(name) ? numbersOf(rows, name) : sheet.value(name));
  const uncertaintyOf = (name: string): number => (numbers.has(name) ? 0 : sheet.standardUncertainty(name));
  const holds = evaluateBlock(parsed.value, columnOf, uncertaintyOf, countRows(rows), (name) => sheet.value(name));
  return ok(Uint8Array.from(holds, (one) => (one === 1 ? 1 : 0)));
}

function checked(expression: Expression, columns: readonly ColumnState[], sheet: SheetSymbols): Result<true> {
  const own = new Map(columns.map((column) => [column.name, column]));
  const dimension = checkDimensions(expression, (name) => (own.has(name) ? own.get(name)?.unit?.dimension : sheet.dimensionOf(name)), [
    ...columns.flatMap(({ name, unit }) => (unit === undefined ? [] : [name])), ...sheet.names,
  ]);
  if (!dimension.ok) return dimension;
  return dimension.value === 'truth' ? ok(true) : fail(problems.noCondition());
}
