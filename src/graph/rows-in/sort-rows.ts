import type { TableState } from '../table/index.ts';
import { saysTheSame, specimensThere } from './specimens-there.ts';
import type { How, RowsIn } from './types.ts';

/** What becomes of each row that came, by its number among them. */
export interface SortedRows {
  readonly added: readonly number[];
  /** Rows of the table that get the texts of rows that came. */
  readonly set: readonly { readonly row: number; readonly by: number }[];
  readonly same: number;
  readonly stay: number;
  /** Specimens that are in the table, or came twice, and say something else: what is to become of them is not said yet. */
  readonly asked?: { readonly count: number; readonly first: string };
  /** Rows that came and go in. */
  readonly goesIn: ReadonlySet<number>;
}

/** Sorts the rows that came into those to add and those that take the place of others. A specimen is told by its name, where team and group do not speak against it. */
export function sortRows(incoming: TableState, table: TableState, source: RowsIn, how: How): SortedRows {
  if (how === 'here') return putHere(incoming, table, source.at?.row ?? table.rowCount);
  return sortSpecimens(incoming, how === 'replace all' ? undefined : table, source.answers.again);
}

function putHere(incoming: TableState, table: TableState, from: number): SortedRows {
  const rows = Array.from({ length: incoming.rowCount }, (_, row) => row);
  const over = rows.filter((row) => from + row < table.rowCount);
  return {
    set: over.map((row) => ({ row: from + row, by: row })), added: rows.slice(over.length), same: 0, stay: 0, goesIn: new Set(rows),
  };
}

function sortSpecimens(incoming: TableState, table: TableState | undefined, again: RowsIn['answers']['again']): SortedRows {
  const there = table === undefined ? undefined : specimensThere(table);
  const came = specimensThere(incoming);
  const added = new Set<number>();
  const set = new Map<number, number>();
  const asked: number[] = [];
  let same = 0;
  let stay = 0;
  for (let row = 0; row < incoming.rowCount; row++) {
    const old = table === undefined ? [] : (there?.rowsLike(incoming, row) ?? []);
    const earlier = came.rowsLike(incoming, row).filter((one) => one < row && added.has(one));
    if (table !== undefined && old.some((one) => saysTheSame(incoming, row, table, one) && !set.has(one))) same++;
    else if (earlier.some((one) => saysTheSame(incoming, row, incoming, one))) same++;
    else if (old.length === 0 && earlier.length === 0) added.add(row);
    else if (again === undefined) asked.push(row);
    else if (again === 'add') added.add(row);
    else if (again === 'stay') stay++;
    else if (old[0] !== undefined) set.set(old[0], row);
    else {
      for (const one of earlier) added.delete(one);
      added.add(row);
    }
  }
  const first = incoming.columns.find(({ name }) => name === 'specimen');
  return {
    added: [...added], set: [...set].map(([row, by]) => ({ row, by })), same, stay, goesIn: new Set([...added, ...set.values()]),
    ...(asked.length === 0 || first === undefined ? {} : { asked: { count: asked.length, first: incoming.field(asked[0] ?? 0, first).trim() } }),
  };
}
