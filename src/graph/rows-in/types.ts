import type { Between, EditCommand, TableCell } from '../../sheet/index.ts';
import type { TableState } from '../table/types.ts';

/** Where a column of the text goes: into a column of the table, stays a column of its own, or is left out. */
export type Target = `as ${string}` | 'own' | 'out';
/** What becomes of the rows there are: they stay, all give way, or those give way over which a block was put. */
export type How = 'add' | 'replace all' | 'here';
/** The decimal mark of a column; the other sign then groups digits. */
export type DecimalMark = 'point' | 'comma';
/** What becomes of a specimen that the table has already. */
export type Again = 'replace' | 'stay' | 'add';

/** What the reader said so far; what is not said is found out or asked. Columns are counted from 0. */
export interface RowsInAnswers {
  readonly between?: Between;
  readonly hasHead?: boolean;
  readonly targets: ReadonlyMap<number, Target>;
  readonly units: ReadonlyMap<number, string>;
  readonly marks: ReadonlyMap<number, DecimalMark>;
  /** By column, what a word of it means: an option of the table. */
  readonly words: ReadonlyMap<number, ReadonlyMap<string, string>>;
  /** Columns of the table that the text does not have, as the reader confirmed. */
  readonly without: ReadonlySet<string>;
  readonly orderIsRight: boolean;
  readonly longAreLeftOut: boolean;
  readonly how?: How;
  readonly again?: Again;
}

/** Rows on their way into a table: where they come from, and the answers so far. Nothing is in the table yet. */
export interface RowsIn {
  readonly text: string;
  /** What the reader calls it: the name of a file; '' for what was pasted. */
  readonly from: string;
  /** The field at which a block was pasted. */
  readonly at?: { readonly row: number; readonly column: string };
  readonly answers: RowsInAnswers;
}

export type RowsAnswer =
  | { readonly answer: 'between'; readonly between: Between }
  | { readonly answer: 'head'; readonly hasHead: boolean }
  | { readonly answer: 'target'; readonly place: number; readonly target: Target }
  | { readonly answer: 'unit'; readonly place: number; readonly unit: string }
  | { readonly answer: 'mark'; readonly place: number; readonly mark: DecimalMark }
  | { readonly answer: 'word'; readonly place: number; readonly word: string; readonly meaning: string }
  | { readonly answer: 'without'; readonly column: string }
  | { readonly answer: 'order is right' }
  | { readonly answer: 'long are left out' }
  | { readonly answer: 'how'; readonly how: How }
  | { readonly answer: 'again'; readonly again: Again };

/** How the numbers of a column are read. */
export interface MarkReading {
  /** Absent while it is asked. */
  readonly mark?: DecimalMark;
  /** What decided: the column's own numbers, those of other columns, what is possible, the comma between columns, the reader; `plain` where no number has a mark. */
  readonly by: 'plain' | 'column' | 'text' | 'range' | 'between' | 'reader' | 'open' | 'conflict';
  /** A number that can be read in two ways; absent where there is none. */
  readonly ambiguous?: string;
  /** Numbers that ask for a decimal point and for a decimal comma, where both do. */
  readonly conflict?: readonly [point: string, comma: string];
}

export interface UnitReading {
  /** Unit that bare numbers are in; `e3` for thousands of cycles. Absent while it is asked. */
  readonly unit?: string;
  /** As the head writes it. */
  readonly typed: string;
  readonly by: 'head' | 'table' | 'fields' | 'reader' | 'unknown' | 'other dimension' | 'not stated';
  readonly choices: readonly string[];
}

export interface WordReading {
  readonly word: string;
  readonly count: number;
  /** Absent while it is asked. */
  readonly meaning?: string;
  readonly by: 'table' | 'reader';
}

/** A column of the text and what becomes of it. */
export interface ColumnIn {
  readonly place: number;
  /** As its head writes it; '' without a head. */
  readonly name: string;
  readonly target: Target;
  /** Why it is left out without having been asked: the table computes it, another one has its name, it is empty. */
  readonly why?: 'computed' | 'again' | 'empty';
  /** The first fields that hold something. */
  readonly examples: readonly string[];
  readonly unit?: UnitReading;
  readonly mark?: MarkReading;
  readonly options?: readonly string[];
  readonly words?: readonly WordReading[];
}

/** What has to be answered before anything is put into the table. */
export type RowsQuestion =
  | { readonly about: 'order' }
  | { readonly about: 'missing'; readonly column: string; readonly label: string; readonly standsFor: string }
  | { readonly about: 'unit' | 'mark' | 'words'; readonly place: number }
  | { readonly about: 'again'; readonly count: number; readonly first: string }
  | { readonly about: 'long'; readonly count: number; readonly first: number; readonly fields: number; readonly columns: number };

/** What will become of the rows, in numbers. */
export interface RowsCount {
  /** Rows that the table has now. */
  readonly there: number;
  readonly read: number;
  readonly added: number;
  /** Rows there are that get other texts, by number from 0. */
  readonly replaced: readonly number[];
  /** Specimens that the table has just so. */
  readonly same: number;
  /** Specimens that stay as they are in the table, or as they came first. */
  readonly stay: number;
  /** Lines with more fields than the head has, and those with a number that the column's reading does not fit. */
  readonly long: number;
  readonly unfit: readonly { readonly line: number; readonly text: string }[];
  /** Lines above the head. */
  readonly above: readonly string[];
  /** Rows that go in and can't be used yet. */
  readonly marked: number;
}

export interface RowsInProposal {
  readonly cell: TableCell;
  readonly between: Between;
  readonly hasHead: boolean;
  readonly columns: readonly ColumnIn[];
  readonly questions: readonly RowsQuestion[];
  readonly how: How;
  readonly counts: RowsCount;
  /** The rows that go in, as the table reads them. */
  readonly incoming: TableState;
  /** Whether every field goes in sign for sign. */
  readonly isAsTyped: boolean;
  /** What is done once all is answered; absent while something is asked or there is nothing to do. */
  readonly command?: EditCommand;
}
