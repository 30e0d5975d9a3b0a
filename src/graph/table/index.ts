/**
 * Tables: delimited text to typed columns, and back.
 *
 * Nouns: a *mark* is what is wrong at one cell; a *table state* is a table as it stands, with all its rows and those that can
 * be used, as row tables of `core/rows`.
 * Invariants: a row is left out only with a mark and a count; numbers are SI; names of columns that are not understood never
 * meet the keys of the table.
 */
export type { CellMark, ColumnState, SheetSymbols, TableState } from './types.ts';
export { readTable } from './read-table.ts';
export { aggregateRows } from './aggregate-rows.ts';
export { tableReads } from './derived.ts';
export { rowsShown, type Look } from './look.ts';
export { orderByColumn, tableCsv } from './write-table.ts';
