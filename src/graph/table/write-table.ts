import { whenAsked } from '../../core/remembered/index.ts';
import { writeOutgoing } from '../../sheet/index.ts';
import type { Separator } from '../../sheet/index.ts';
import { fieldNumber } from './read-field.ts';
import { orderRows, placesOf, valuesOf } from '../../core/rows/index.ts';
import type { ColumnState, TableState } from './types.ts';

/**
 * The table as delimited text (RFC 4180, lines end in CRLF), columns in the order of the text, units in the
 * header, derived columns last. Numbers are in the
 * unit of their header with a decimal point; a field that could not be read stays as typed. Read again, it gives the
 * same values.
 *
 * A `mark` stands first in every row, under a head of its own.
 */
export function tableCsv(state: TableState, separator: Separator = ',', mark?: { readonly head: string; readonly text: string }): string {
  const unreadable = new Set(state.marks.filter(({ leavesOut }) => leavesOut).map(({ row, column }) => `${row} ${column ?? ''}`));
  const placed = state.columns.filter(({ place }) => place !== undefined).toSorted((a, b) => (a.place ?? 0) - (b.place ?? 0));
  const columns = [...placed, ...state.columns.filter(({ column }) => column?.type === 'derived')];
  const fields = columns.map((column) => writtenFields(state, column, unreadable));
  const [head, text] = mark === undefined ? [[], []] : [[mark.head], [mark.text]];
  const lines = [[...head, ...columns.map(headerOf)]];
  // What a row has beyond the header stays beyond it, so that the row is marked again.
  for (let row = 0; row < state.rowCount; row++) lines.push([...text, ...fields.map((written) => written[row] ?? ''), ...state.surplus(row)]);
  return lines.map((line) => `${writeOutgoing(line, separator)}\r\n`).join('');
}

function headerOf({ typed, unit }: ColumnState): string {
  return unit === undefined || unit.name === '1' ? typed : `${typed} [${unit.name}]`;
}

function writtenFields(state: TableState, column: ColumnState, unreadable: ReadonlySet<string>): readonly string[] {
  const { unit, name } = column;
  return valuesOf(state.all, name).map((value, row) => {
    const isNumber = unit !== undefined && typeof value === 'number' && !unreadable.has(`${row} ${name}`);
    return isNumber && !Number.isNaN(value) ? fieldNumber(value, unit) : state.field(row, column);
  });
}

const collator = whenAsked(() => new Intl.Collator('en', { numeric: true }));

/**
 * The numbers of all rows in the order of a column, for the command `order rows`; rows of equal values stay as they are,
 * and those without a value come last either way.
 * @param name `name` of a column of the table
 */
export function orderByColumn(state: TableState, name: string, direction: 'rising' | 'falling'): readonly number[] {
  const values = valuesOf(state.all, name);
  const sign = direction === 'rising' ? 1 : -1;
  const isOpen = (value: string | boolean | number | undefined): boolean => value === '' || Number.isNaN(value);
  const compare = (a: number, b: number): number => {
    const [first, second] = [values[a], values[b]];
    const open = Number(isOpen(first)) - Number(isOpen(second));
    if (open !== 0) return open;
    if (typeof first === 'string' && typeof second === 'string') return sign * collator().compare(first, second);
    return sign * (Number(first) - Number(second)) || 0;
  };
  return [...placesOf(orderRows(state.all, compare))];
}
