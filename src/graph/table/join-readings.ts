import type { ColumnReader, StretchMark, StretchReading } from './read-stretch.ts';
import type { RowValues } from './rows.ts';
import type { CellMark } from './types.ts';

/** What was read stretch by stretch, put together; `firstRows` are the numbers of their first rows. */
export interface Readings {
  readonly stretches: readonly StretchReading[];
  readonly firstRows: readonly number[];
  readonly count: number;
}

/** The values of one column for all rows: typed columns are copied, not read again. */
export function joinedColumn({ stretches, firstRows, count }: Readings, place: number, kind: ColumnReader['kind']): RowValues {
  if (kind === 'number') {
    const all = new Float64Array(count);
    stretches.forEach(({ columns }, i) => all.set((columns[place]?.values ?? []) as Float64Array, firstRows[i]));
    return all;
  }
  return stretches.map(({ columns }) => (columns[place]?.values ?? []) as readonly string[]).flat();
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
