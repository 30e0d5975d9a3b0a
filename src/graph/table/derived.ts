import { checkDimensions, evaluateBlock } from '../../core/formula/index.ts';
import type { Expression } from '../../core/formula/index.ts';
import { isCalculable } from '../../core/numeric/index.ts';
import { fail, ok } from '../../core/problem/index.ts';
import type { Problem, Result } from '../../core/problem/index.ts';
import { coherentUnit, describeDimensionWithArticle, parseUnit, sameDimension } from '../../core/units/index.ts';
import type { Dimension, Unit } from '../../core/units/index.ts';
import type { TableCell, TableColumn } from '../../sheet/index.ts';
import { parseRemembered, readsOf } from '../formulas.ts';
import { loopText, orderByReading } from '../reading-order.ts';
import * as problems from './field-problems.ts';
import { countRows, deriveColumn, numbersOf, type RowTable } from '../../core/rows/index.ts';
import type { CellMark, ColumnState, SheetSymbols } from './types.ts';

/** Symbols of the sheet that a table's derived columns and its condition read; a column's own key hides the sheet's symbol of that name. */
export function tableReads({ columns, where = '' }: TableCell): readonly string[] {
  const keys = new Set(columns.map(({ key }) => key));
  const expressions = [...columns.map(({ formula }) => formula), where].flatMap((formula) => {
    const parsed = formula === '' ? undefined : parseRemembered(formula);
    return parsed?.ok === true ? [parsed.value] : [];
  });
  return readsOf(expressions).filter((name) => !keys.has(name));
}

interface DerivedColumns {
  readonly columns: readonly ColumnState[];
  readonly rows: RowTable;
  readonly problems: readonly Problem[];
  /** Rows that are used and for which a formula has no value. */
  readonly marks: readonly CellMark[];
}

/** The derived columns in the order of the table, each evaluated once for all rows; one in trouble is told and left out. */
export function addDerived(
  all: readonly TableColumn[],
  read: readonly ColumnState[],
  rows: RowTable,
  sheet: SheetSymbols,
  isUsed: (row: number) => boolean,
): DerivedColumns {
  const derived = new Map(all.filter(({ type, formula }) => type === 'derived' && formula !== '').map((column) => [column.key, column]));
  const told: Problem[] = [];
  const marks: CellMark[] = [];
  const tell = ({ key }: TableColumn, problem: Problem): void => {
    told.push({ ...problem, key: 'columns', what: problem.code === 'derived-loop' ? problem.what : `${key}: ${problem.what}` });
  };
  const expressions = new Map<string, Expression>();
  for (const column of derived.values()) {
    const parsed = parseRemembered(column.formula);
    if (parsed.ok) expressions.set(column.key, parsed.value);
    else tell(column, parsed.problem);
  }
  const { order, loops } = orderByReading(new Map([...expressions].map(([key, e]) => [key, readsOf([e]).filter((name) => expressions.has(name))])));
  const units = new Map(read.flatMap(({ name, unit }): [string, Unit][] => (unit === undefined ? [] : [[name, unit]])));
  let known = rows;
  for (const key of order) {
    const column = derived.get(key);
    const expression = expressions.get(key);
    if (column === undefined || expression === undefined) continue;
    const loop = loops.get(key);
    const unit = loop === undefined ? unitOf(column, expression, units, all, sheet) : fail(problems.derivedLoop(loopText(key, loop)));
    if (unit?.ok === false) tell(column, unit.problem);
    if (unit?.ok !== true) continue;
    const result = evaluated(expression, known, new Set(units.keys()), sheet);
    units.set(key, unit.value);
    marks.push(...withoutValue(column, result, isUsed));
    known = deriveColumn(known, key, result);
  }
  const columns = [...derived.values()].flatMap((column): ColumnState[] => {
    const unit = units.get(column.key);
    return unit === undefined ? [] : [{ name: column.key, typed: column.key, column, unit }];
  });
  return { columns, rows: known, problems: told, marks };
}

/** Undefined where a column that it reads is without unit, which has told its own trouble already. */
function unitOf(
  column: TableColumn,
  expression: Expression,
  units: ReadonlyMap<string, Unit>,
  all: readonly TableColumn[],
  sheet: SheetSymbols,
): Result<Unit> | undefined {
  const ownKeys = new Set(all.map(({ key }) => key));
  const lost = readsOf([expression]).find((name) => !units.has(name) && all.some(({ key, type }) => key === name && type === 'derived'));
  if (lost !== undefined) return undefined;
  const dimensionOf = (name: string): Dimension | undefined =>
    units.get(name)?.dimension ?? (ownKeys.has(name) ? undefined : sheet.dimensionOf(name));
  const dimension = checkDimensions(expression, dimensionOf, [...units.keys(), ...sheet.names]);
  if (!dimension.ok) return fail({ ...dimension.problem, text: column.formula });
  if (dimension.value === 'truth') return fail(problems.derivedTruth(column));
  if (column.unit === '') {
    const coherent = coherentUnit(dimension.value);
    return parseUnit(coherent.name).ok ? ok(coherent) : fail(problems.derivedUnitTooLarge(column, coherent.name));
  }
  const unit = parseUnit(column.unit);
  if (!unit.ok || sameDimension(unit.value.dimension, dimension.value)) return unit;
  return fail(problems.derivedUnit(column, describeDimensionWithArticle(dimension.value)));
}

function evaluated(expression: Expression, rows: RowTable, columns: ReadonlySet<string>, sheet: SheetSymbols): Float64Array {
  const columnOf = (name: string): Float64Array | number => (columns.has(name) ? numbersOf(rows, name) : sheet.value(name));
  return evaluateBlock(expression, columnOf, (name) => (columns.has(name) ? 0 : sheet.standardUncertainty(name)), countRows(rows));
}

/** Puts NaN where a formula has no finite value, and marks those rows that are used. */
function withoutValue(column: TableColumn, result: Float64Array, isUsed: (row: number) => boolean): readonly CellMark[] {
  const marks: CellMark[] = [];
  for (let row = 0; row < result.length; row++) {
    if (isCalculable(result[row] ?? NaN)) continue;
    result[row] = NaN;
    if (isUsed(row)) marks.push({ row, column: column.key, problem: problems.derivedNoValue(column), leavesOut: false });
  }
  return marks;
}
