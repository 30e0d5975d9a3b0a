/*
 * The one module that speaks to arquero, and only to that part of it that makes no code from text: the page's policy
 * forbids the rest. Filter, order and groups are handed over as functions and bits.
 */
import { BitSet, table } from 'arquero';
import type { ColumnTable } from 'arquero';

export type RowValues = Float64Array | readonly string[] | readonly boolean[];

/** Not exported: nobody else can reach arquero's table through ours. */
const inner = Symbol('arquero');

/** Rows of typed columns, all of one length, seen through a filter, an order and groups. Immutable. */
export interface RowTable {
  readonly [inner]: ColumnTable;
}

/** A group's key and the places of its rows in the unfiltered table, in the order of the table. */
export interface RowGroup {
  readonly key: string;
  readonly rows: ArrayLike<number>;
}

export function rowTable(columns: ReadonlyMap<string, RowValues>): RowTable {
  return { [inner]: table([...columns] as [string, unknown[]][]) };
}

/** Rows that are seen. */
export function countRows({ [inner]: arquero }: RowTable): number {
  return arquero.numRows();
}

/** Those of the seen rows for which `keeps` holds; `row` is the place in the unfiltered table. */
export function filterRows({ [inner]: arquero }: RowTable, keeps: (row: number) => boolean): RowTable {
  const filter = new BitSet(arquero.totalRows());
  arquero.scan((row) => {
    if (row !== undefined && keeps(row)) filter.set(row);
  });
  return { [inner]: arquero.create({ filter }) };
}

/** The rows in the order of a comparison of places in the unfiltered table; equal ones stay as they were. */
export function orderRows({ [inner]: arquero }: RowTable, compare: (a: number, b: number) => number): RowTable {
  return { [inner]: arquero.create({ order: (a: number, b: number) => compare(a, b) || a - b }) };
}

/** The seen rows in groups of equal keys, in order of first appearance. */
export function groupRows({ [inner]: arquero }: RowTable, name: string, keyOf: (row: number) => string): RowTable {
  const keys = new Uint32Array(arquero.totalRows());
  const numbers = new Map<string, number>();
  const rows: number[] = [];
  arquero.scan((row) => {
    if (row === undefined) return;
    const key = keyOf(row);
    const number = numbers.get(key) ?? numbers.size;
    if (number === numbers.size) {
      numbers.set(key, number);
      rows.push(row);
    }
    keys[row] = number;
  }, true);
  const groups = { keys, get: [(row: number) => keyOf(row)], names: [name], rows, size: rows.length };
  return { [inner]: arquero.create({ groups: groups as never }) };
}

/** The groups of `groupRows`; all rows as one group with the key '' where there are none. */
export function groupsOf({ [inner]: arquero }: RowTable): readonly RowGroup[] {
  const groups = arquero.groups();
  const partitions = arquero.partitions();
  if (groups === null) return [{ key: '', rows: arquero.indices() }];
  return Array.from(groups.rows as ArrayLike<number>, (row, i) => ({ key: String(groups.get[0]?.(row, arquero.data() as never)), rows: partitions[i] ?? [] }));
}

/** The table with a column more, or another one in place of that name; the values are those of the unfiltered rows. */
export function deriveColumn({ [inner]: arquero }: RowTable, name: string, values: RowValues): RowTable {
  const data = { ...arquero.data(), [name]: values };
  const names = arquero.columnNames().includes(name) ? arquero.columnNames() : [...arquero.columnNames(), name];
  return { [inner]: arquero.create({ data: data as never, names }) };
}

/** The table with some of its columns. */
export function selectColumns({ [inner]: arquero }: RowTable, names: readonly string[]): RowTable {
  return { [inner]: arquero.select([...names]) };
}

/** Some of the seen rows, by number in their order. */
export function sliceRows({ [inner]: arquero }: RowTable, start: number, end: number): RowTable {
  return { [inner]: arquero.create({ groups: null as never }).slice(start, end) };
}

/** The seen rows of one table and then those of the others, by the names of the first. */
export function joinRows({ [inner]: arquero }: RowTable, others: readonly RowTable[]): RowTable {
  return { [inner]: arquero.concat(others.map((other) => other[inner])) };
}

/** A column's numbers in the seen rows, in their order; a name that the table does not have is our bug. */
export function numbersOf({ [inner]: arquero }: RowTable, name: string): Float64Array {
  const column = columnOf<number>(arquero, name);
  const places = placesSeen(arquero);
  if (places === undefined) return Float64Array.from(column);
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

/** Places of the seen rows in the unfiltered table, in their order. */
export function placesOf({ [inner]: arquero }: RowTable): Uint32Array {
  return arquero.indices() as Uint32Array;
}
