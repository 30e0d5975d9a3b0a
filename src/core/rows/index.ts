/**
 * Rows of typed columns on arquero.
 *
 * Nouns: a *row table* is arquero's table seen through a filter, an order and groups; a *place* is the number of a row in the
 * table without filter and order.
 * Invariants: `rows.ts` alone speaks to arquero, and only to that part of it that makes no code from text (the page's policy
 * forbids the rest): filters, orders and means are functions, groups are names of columns. Tables never change.
 */
export {
  countRows, deriveColumn, filterRows, groupNumbers, groupRows, numbersOf, orderRows, placesOf, rollUp, rowsWith, rowTable, valuesOf, type RowTable, type RowValues,
} from './rows.ts';
export { momentsOf, numberValues, type Numbering } from './numbering.ts';
