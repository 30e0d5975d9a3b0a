import { aggregateOf, literalNumber, weightedSum } from '../../core/formula/index.ts';
import type { Aggregate, Expression } from '../../core/formula/index.ts';
import { fail, ok } from '../../core/problem/index.ts';
import type { Result } from '../../core/problem/index.ts';
import { sameDimension } from '../../core/units/index.ts';
import type { Unit } from '../../core/units/index.ts';
import type { LineWord, TableCell, TableSymbol } from '../../sheet/index.ts';
import { parseRemembered } from '../formulas.ts';
import * as problems from './field-problems.ts';
import { filterRows, numbersOf, placesOf, valuesOf } from '../../core/rows/index.ts';
import type { TableState } from './types.ts';
import { derivedBehind, leavesWrittenOut, MOST_LEAVES, writtenOut } from './written-out.ts';

/** One expression for every row: beyond this many a history wants another tool. */
const MOST_ROWS = 2000;

/**
 * What a table gives the sheet, as an expression over the rows that can be used and are not marked as not counting: typed
 * columns as numbers, derived ones written out, the sheet's symbols left as they are. undefined where there is no row to take it from.
 */
export function aggregateRows({ of, column, on }: TableSymbol, cell: TableCell, table: TableState, unit: Unit): Result<Expression | undefined> {
  const valid = table.columns.some(({ name }) => name === 'valid') ? valuesOf(table.all, 'valid') : undefined;
  const used = valid === undefined ? table.usable : filterRows(table.usable, (row) => valid[row] !== false);
  const places = placesOf(used);
  if (of === 'count') return ok(literalNumber(places.length));
  const found = table.columns.find(({ name }) => name === column);
  // A column whose unit or formula is in trouble has told so itself.
  if (found?.unit === undefined) return fail(problems.aggregateColumn(column));
  if (of !== 'slope' && !sameDimension(found.unit.dimension, unit.dimension)) return fail(problems.aggregateUnit(column, found.unit));
  if (places.length > MOST_ROWS) return fail(problems.aggregateTooLong(places.length, MOST_ROWS));
  if (places.length === 0 && of !== 'sum') return ok(undefined);
  const values = numbersOf(used, column);
  const without = values.findIndex((value) => Number.isNaN(value));
  const formulaOf = (name: string): Expression | undefined => {
    const own = cell.columns.find(({ key }) => key === name);
    const parsed = own?.type === 'derived' ? parseRemembered(own.formula) : undefined;
    return parsed?.ok === true ? parsed.value : undefined;
  };
  if (without >= 0) return fail(problems.aggregateGap(column, places[without] ?? 0));
  const columns = new Map<string, Float64Array>();
  const numberAt = (name: string, i: number): Expression | undefined => {
    if (!table.columns.some((one) => one.name === name)) return undefined;
    const numbers = columns.get(name) ?? numbersOf(used, name);
    columns.set(name, numbers);
    return literalNumber(numbers[i] ?? Number.NaN);
  };
  const derived = derivedBehind(column, { formulaOf });
  if (leavesWrittenOut(column, derived, { formulaOf }) > MOST_LEAVES) return fail(problems.aggregateLong(column, MOST_LEAVES));
  const parts = Array.from(places, (_place, i) => writtenOut(column, i, derived, { formulaOf, numberAt }) ?? literalNumber(Number.NaN));
  if (on === '') return ok(aggregateOf(of as Aggregate, parts));
  return lineThrough(of as LineWord, { x: numbersOf(used, on), y: values, parts, names: [column, on] });
}

interface LineRows {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
  readonly parts: readonly Expression[];
  readonly names: readonly [y: string, x: string];
}

/**
 * The straight line through the rows by least squares: slope and intercept as sums of the rows' expressions, so that they carry their uncertainty; the
 * scatter, with n − 2 degrees of freedom, as a number of now that is taken as known.
 */
function lineThrough(of: LineWord, { x, y, parts, names }: LineRows): Result<Expression> {
  const places = Array.from(x);
  const n = places.length;
  const gap = places.findIndex((place) => Number.isNaN(place));
  if (gap >= 0) return fail(problems.aggregateGap(names[1], gap));
  const mean = places.reduce((sum, place) => sum + place, 0) / n;
  const spread = places.reduce((sum, place) => sum + (place - mean) ** 2, 0);
  if (!(spread > 0) || (of === 'scatter' && n < 3)) return fail(problems.aggregateLine(...names, of === 'scatter' ? 3 : 2));
  const slopes = places.map((place) => (place - mean) / spread);
  if (of === 'slope') return ok(weightedSum(slopes, parts));
  const intercepts = slopes.map((slope) => 1 / n - mean * slope);
  if (of === 'intercept') return ok(weightedSum(intercepts, parts));
  const at = (weights: readonly number[]): number => weights.reduce((sum, weight, i) => sum + weight * (y[i] ?? 0), 0);
  const [b, a] = [at(slopes), at(intercepts)];
  return ok(literalNumber(Math.sqrt(places.reduce((sum, place, i) => sum + ((y[i] ?? 0) - a - b * place) ** 2, 0) / (n - 2))));
}
