import type { ColumnReader, StretchMark, StretchReading } from './read-stretch.ts';
import type { RowValues } from './rows.ts';
import type { CellMark } from './types.ts';

/** What was read stretch by stretch, put together; `firstRows` are the numbers of their first rows. */
export interface Readings {
  readonly stretches: readonly StretchReading[];
  readonly firstRows: readonly number[];
  readonly count: number;
}

/** The columns put together last, by the columns of the table: most of them are the same after an edit. */
const latest = new WeakMap<object, Map<number, Joined>>();

interface Joined {
  readonly readings: Readings;
  readonly values: RowValues;
}

/**
 * The values of one column for all rows: copied, not read again; where an edit changed none of them, the very same.
 * @param table what stays the same object while a table has the same columns
 */
export function joinedColumn(readings: Readings, place: number, kind: ColumnReader['kind'], table: object): RowValues {
  const known = latest.get(table) ?? new Map<number, Joined>();
  latest.set(table, known);
  const before = known.get(place);
  const values = (before === undefined ? undefined : changedColumn(readings, place, before)) ?? wholeColumn(readings, place, kind);
  known.set(place, { readings, values });
  return values;
}

function wholeColumn({ stretches, count }: Readings, place: number, kind: ColumnReader['kind']): RowValues {
  const all = kind === 'number' ? new Float64Array(count) : Array.from({ length: count }, () => '');
  let row = 0;
  for (const { columns } of stretches) {
    const values = columns[place]?.values ?? [];
    for (let i = 0; i < values.length; i++) all[row++] = values[i] as never;
  }
  return all;
}

/** The column of before with what changed in it; undefined where rows came or went. */
function changedColumn({ stretches, firstRows, count }: Readings, place: number, before: Joined): RowValues | undefined {
  const earlier = before.readings;
  if (count !== earlier.count || stretches.length !== earlier.stretches.length) return undefined;
  let all = before.values;
  for (const [i, { columns }] of stretches.entries()) {
    if (stretches[i] === earlier.stretches[i]) continue;
    const values = columns[place]?.values ?? [];
    const first = firstRows[i] ?? 0;
    if (first !== earlier.firstRows[i] || values.length !== earlier.stretches[i]?.blank.length) return undefined;
    for (let row = 0; row < values.length; row++) {
      if (Object.is(all[first + row], values[row])) continue;
      if (all === before.values) all = before.values.slice();
      (all as { [row: number]: unknown })[first + row] = values[row];
    }
  }
  return all;
}

/** Whether a row is left out, or says nothing, by row. */
export function joinedFlags({ stretches, firstRows, count }: Readings, which: 'blank' | 'out'): Uint8Array {
  const all = new Uint8Array(count);
  stretches.forEach((reading, i) => all.set(reading[which], firstRows[i]));
  return all;
}

/** Marks of whole rows, then those of the columns one by one, each from the first row on. */
export function joinedMarks({ stretches, firstRows }: Readings, readers: readonly ColumnReader[]): readonly CellMark[] {
  const all: CellMark[] = [];
  const take = (marksOf: (reading: StretchReading) => readonly StretchMark[] | undefined, column: { column?: string }): void => {
    stretches.forEach((reading, i) => {
      for (const { row, problem, leavesOut } of marksOf(reading) ?? []) all.push({ row: row + (firstRows[i] ?? 0), ...column, problem, leavesOut });
    });
  };
  take(({ marks }) => marks, {});
  readers.forEach(({ state }, place) => take(({ columns }) => columns[place]?.marks, { column: state.name }));
  return all;
}

/** One sentence for each column and kind of reading. */
export function joinedEchoes({ stretches }: Readings, columns: number): readonly string[] {
  return Array.from({ length: columns }, (_, place) => {
    const kinds = new Map<string, { first: string; count: number }>();
    for (const reading of stretches) {
      for (const [kind, { first, count }] of reading.columns[place]?.echoes ?? []) {
        const before = kinds.get(kind);
        if (before === undefined) kinds.set(kind, { first, count });
        else before.count += count;
      }
    }
    return [...kinds.values()].map(({ first, count }) => (count === 1 ? first : `${first}, and ${count - 1} more like it`));
  }).flat();
}
