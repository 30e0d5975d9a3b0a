import { ok } from '../../core/problem/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import { rowsMeeting } from './conditions.ts';
import { valuesOf } from '../../core/rows/index.ts';
import type { SheetSymbols, TableState } from './types.ts';
import { orderByColumn } from './write-table.ts';

/** How somebody looks at a table: nothing of it changes a row, or what is counted. */
export interface Look {
  /** Rows shown: those that meet a condition (`S > 300*unit(MPa)`), or in which the words stand; '' for all. */
  readonly only: string;
  /** `name` of a column and a direction; the order of the text where absent. */
  readonly by?: { readonly column: string; readonly direction: 'rising' | 'falling' };
}

/** Signs that make a filter a condition rather than words to look for. */
const CONDITION = /[<>]/;

/** Numbers of the rows that are shown, in their order; all rows, and why, where a condition can't be read. */
export function rowsShown(state: TableState, look: Look, sheet: SheetSymbols): { readonly rows: readonly number[]; readonly problem?: Problem } {
  const { rowCount } = state;
  const order = look.by === undefined || !state.columns.some(({ name }) => name === look.by?.column)
    ? Array.from({ length: rowCount }, (_, row) => row)
    : orderByColumn(state, look.by.column, look.by.direction);
  const only = look.only.trim();
  if (only === '') return { rows: order };
  const found = CONDITION.test(only) ? rowsMeeting(only, state.columns, state.all, sheet) : ok(containing(state, only));
  return found.ok ? { rows: order.filter((row) => found.value[row] === 1) } : { rows: order, problem: found.problem };
}

/** Rows in one field of which the words stand, in whatever capitals; an outcome is found by the table's own word too. */
function containing(state: TableState, words: string): Uint8Array {
  const wanted = words.toLowerCase();
  const found = new Uint8Array(state.rowCount);
  for (const column of state.columns) {
    const values = column.column?.type === 'option' ? valuesOf(state.all, column.name) : undefined;
    for (let row = 0; row < state.rowCount; row++) {
      if (found[row] === 1) continue;
      const isThere = state.field(row, column).toLowerCase().includes(wanted) || String(values?.[row] ?? '').includes(wanted);
      if (isThere) found[row] = 1;
    }
  }
  return found;
}
