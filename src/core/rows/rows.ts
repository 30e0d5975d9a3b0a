import { BitSet, Reducer, table } from 'arquero';
import type { ColumnTable } from 'arquero';
import { numberKeys, numberValues, type Numbering } from './numbering.ts';

export type RowValues = Float64Array | readonly (string | boolean | number)[];

/** Not exported: nobody else can reach arquero's table through ours. */
const inner = Symbol('arquero');

/** Rows of typed columns, all of one length, seen through a filter, an order and groups. Immutable. */
export interface RowTable {
  readonly [inner]: ColumnTable;
}

export function rowTable(columns: ReadonlyMap<string, RowValues>): RowTable {
  return { [inner]: table([...columns] as [string, unknown[]][]) };
}

/** Rows that are seen. */
export function countRows({ [inner]: arquero }: RowTable): number {
  return arquero.numRows();
}

/** Those of the seen rows for which `keeps` holds, by their places. */
export function filterRows({ [inner]: arquero }: RowTable, keeps: (place: number) => boolean): RowTable {
  const filter = new BitSet(arquero.totalRows());
  arquero.scan((row) => {
    if (row !== undefined && keeps(row)) filter.set(row);
  });
  return { [inner]: arquero.create({ filter }) };
}

/** Those of the seen rows that have a value in a column. */
export function rowsWith(table: RowTable, name: string, value: string | boolean | number): RowTable {
  const column = columnOf<unknown>(table[inner], name);
  return filterRows(table, (place) => column[place] === value);
}

/** The rows in the order of a comparison of places; equal ones stay as they were. */
export function orderRows({ [inner]: arquero }: RowTable, compare: (a: number, b: number) => number): RowTable {
  return { [inner]: arquero.create({ order: (a: number, b: number) => compare(a, b) || a - b }) };
}

/** The seen rows in groups: rows of one group have the same values in all these columns. Groups are in order of first appearance. */
export function groupRows({ [inner]: arquero }: RowTable, names: readonly string[]): RowTable {
  const columns = names.map((name) => columnOf<unknown>(arquero, name));
  const places = arquero.indices();
  // Column by column: of each seen row the number of its group by the columns so far.
  let { numbers, count } = numberKeys(new Float64Array(places.length));
  for (const column of columns) {
    const codes = codesOf(column, places);
    const together = new Float64Array(places.length);
    for (let i = 0; i < together.length; i++) together[i] = (numbers[i] as number) * codes.count + (codes.numbers[i] as number);
    ({ numbers, count } = count === 1 ? codes : numberKeys(together));
  }
  const keys = new Uint32Array(arquero.totalRows());
  const rows: number[] = [];
  for (let i = 0; i < places.length; i++) {
    const place = places[i] as number;
    const group = numbers[i] as number;
    keys[place] = group;
    if (group === rows.length) rows.push(place);
  }
  const get = columns.map((column) => (row: number) => column[row]);
  return { [inner]: arquero.create({ groups: { keys, get, names: [...names], rows, size: count } as never }) };
}

/** Numbers of a column's values in the rows at these places. */
function codesOf(column: ArrayLike<unknown>, places: ArrayLike<number>): Numbering {
  if (!(column instanceof Float64Array)) return numberValues(Array.from(places, (place) => column[place]));
  const keys = new Float64Array(places.length);
  for (let i = 0; i < keys.length; i++) keys[i] = column[places[i] as number] as number;
  return numberKeys(keys);
}

/** The number of the group of each seen row, in their order. */
export function groupNumbers({ [inner]: arquero }: RowTable): Int32Array {
  const keys = arquero.groups()?.keys;
  const places = arquero.indices();
  const numbers = new Int32Array(places.length);
  for (let i = 0; i < numbers.length; i++) numbers[i] = keys?.[places[i] ?? 0] ?? 0;
  return numbers;
}

interface Sums {
  first: number;
  count: number;
  mean: number;
  squares: number;
}

/** Mean and squares about it, value by value, so that they stay exact where values are large beside their scatter. */
class Moments extends Reducer {
  readonly #column: ArrayLike<number> | undefined;

  constructor(column: ArrayLike<number> | undefined) {
    super(['first', 'count', ...(column === undefined ? [] : ['mean', 'squares'])]);
    this.#column = column;
  }

  override init(): Sums {
    return { first: -1, count: 0, mean: 0, squares: 0 };
  }

  override add(sums: Sums, row: number): void {
    if (sums.count++ === 0) sums.first = row;
    const value = this.#column?.[row] ?? Number.NaN;
    const from = value - sums.mean;
    sums.mean += from / sums.count;
    sums.squares += from * (value - sums.mean);
  }

  /** One row after the other: the place that arquero hands over is right for the first two groups only. */
  override write(sums: Sums, values: Record<string, number[]>): number {
    for (const name of this.outputs() as (keyof Sums)[]) values[name]?.push(sums[name]);
    return 1;
  }
}

/**
 * A row for each group, in their order, or one for all rows where there are none: the group's values, the place of its `first`
 * row and the `count` of its rows; of a column of numbers also the `mean`, and the sum of `squares` about the mean.
 * @source mean and squares value by value: Welford, Technometrics 4 (1962) 419.
 */
export function rollUp({ [inner]: arquero }: RowTable, name?: string): RowTable {
  return { [inner]: arquero.reduce(new Moments(name === undefined ? undefined : columnOf<number>(arquero, name))) };
}

/** The table with a column more, or another one in place of that name; the values are those of all rows, also of those not seen. */
export function deriveColumn({ [inner]: arquero }: RowTable, name: string, values: RowValues): RowTable {
  const data = { ...arquero.data(), [name]: values };
  const names = arquero.columnNames().includes(name) ? arquero.columnNames() : [...arquero.columnNames(), name];
  return { [inner]: arquero.create({ data: data as never, names }) };
}

/** A column's numbers in the seen rows, in their order; a name that the table does not have is our bug. */
export function numbersOf({ [inner]: arquero }: RowTable, name: string): Float64Array {
  const column = columnOf<number>(arquero, name);
  const places = placesSeen(arquero);
  if (places === undefined) return new Float64Array(column);
  const values = new Float64Array(places.length);
  for (let i = 0; i < places.length; i++) values[i] = column[places[i] ?? 0] ?? Number.NaN;
  return values;
}

/** A column's texts or truths in the seen rows, in their order. */
export function valuesOf({ [inner]: arquero }: RowTable, name: string): readonly (string | boolean | number)[] {
  const column = columnOf<string | boolean | number>(arquero, name);
  const places = placesSeen(arquero);
  if (places === undefined) return Array.isArray(column) ? column : Array.from(column);
  // All rows seen, as in most tables: the column itself.
  if (places.length === column.length && Array.isArray(column) && !arquero.isOrdered()) return column;
  const values = Array.from<string | boolean | number>({ length: places.length });
  for (let i = 0; i < places.length; i++) values[i] = column[places[i] ?? 0] ?? '';
  return values;
}

/** Columns are the arrays that the table was made from: read straight, which in long tables is several times as fast. */
function columnOf<T>(arquero: ColumnTable, name: string): ArrayLike<T> {
  const column = arquero.column(name);
  if (column === undefined) throw new RangeError(`the table has no column ${name}`);
  return column as unknown as ArrayLike<T>;
}

/** Undefined where all rows are seen in the order in which they lie. */
function placesSeen(arquero: ColumnTable): ArrayLike<number> | undefined {
  return arquero.isFiltered() || arquero.isOrdered() ? arquero.indices() : undefined;
}

/** Places of the seen rows, in their order. */
export function placesOf({ [inner]: arquero }: RowTable): Uint32Array {
  return arquero.indices() as Uint32Array;
}
