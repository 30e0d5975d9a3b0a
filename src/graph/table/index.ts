/**
 * Tables: delimited text to typed columns on arquero, and back.
 *
 * Nouns: a *row table* is arquero's table seen through a filter, an order and groups; a *mark* is what is wrong at one
 * cell; a *table state* is a table as it stands, with all its rows and those that can be used.
 * Invariants: `rows.ts` alone speaks to arquero, and uses only what makes no code from text; a row is left out only with a
 * mark and a count; numbers are SI; names of columns that are not understood never meet the keys of the table.
 */
export type { CellMark, ColumnState, SheetSymbols, TableState } from './types.ts';
export { readTable } from './read-table.ts';
export { aggregateRows } from './aggregate-rows.ts';
export { tableReads } from './derived.ts';
export { rowsShown, type Look } from './look.ts';
export { orderByColumn, tableCsv } from './write-table.ts';
export {
  countRows,
  deriveColumn,
  filterRows,
  groupRows,
  groupsOf,
  joinRows,
  numbersOf,
  orderRows,
  placesOf,
  rowTable,
  selectColumns,
  sliceRows,
  valuesOf,
  type RowGroup,
  type RowTable,
  type RowValues,
} from './rows.ts';
