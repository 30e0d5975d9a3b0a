/**
 * Rows on their way into a table, before anything of the sheet is changed.
 *
 * Nouns: *rows in* are a text from elsewhere and what the reader said of it; their *proposal* says how each column is read, what
 * is still asked, and the one edit that brings them in; a *question* is what nobody but the reader can know.
 * Invariants: columns are read as a whole, never field by field; what is not certain is asked; a number is written in other
 * signs only, never as another value; the unit that is stated goes along; no row there is gives way unasked.
 */
export { answered, rowsIn } from './answer.ts';
export { proposeRowsIn } from './propose.ts';
export { holdsSpecimens } from './holds-specimens.ts';
export { fitsAsItIs } from './fits-as-it-is.ts';
export type {
  Again, DecimalMark, ColumnIn, How, MarkReading, RowsAnswer, RowsCount, RowsIn, RowsInProposal, RowsQuestion, Target, UnitReading, WordReading,
} from './types.ts';
