import type { Problem } from '../core/problem/index.ts';
import type { AsideCell, EndCell } from './aside-types.ts';
import type { OwnResult } from './asked-types.ts';
import type { ChecklistCell, PhotoCell, QuestionCell, RecordCell, RemarkCell } from './bench-types.ts';
import type { CellBase } from './cell-base.ts';
import type { HeldState } from './held-types.ts';
import type { CellSlip, GivenCell } from './measured-types.ts';
import type { TableSymbol } from './table-symbol.ts';

export type * from './aside-types.ts';
export type * from './bench-types.ts';
export type * from './held-types.ts';
export type * from './measured-types.ts';
export type * from './table-symbol.ts';

/**
 * A worksheet document as a list of segments whose sources, joined, are the document's text byte for byte.
 * Everything typed stays text here; numbers are read by the graph.
 */
export interface SheetDocument {
  readonly frontMatter: FrontMatter;
  readonly blocks: readonly Block[];
  /** Problems of the text as a whole (front matter that cannot be read, a fence that never closes). */
  readonly problems: readonly Problem[];
}

export interface FrontMatter {
  /** Source with its fences and line ends; '' where the document has none. A byte order mark is kept here, too. */
  readonly source: string;
  /** Scalar entries by key, in order, as typed: title, units, course, team, operators, date, machine, specimen, batch... */
  readonly entries: ReadonlyMap<string, string>;
  /** States held to compare with, in the order they were held. */
  readonly held: readonly HeldState[];
  readonly problems: readonly Problem[];
  /** Entries that look like a slip of the keyboard for another name. */
  readonly warnings: readonly Problem[];
}

export type Block = ProseBlock | CellBlock;

export interface ProseBlock {
  readonly kind: 'prose';
  readonly id: string;
  readonly source: string;
}

/**
 * Holds nothing that depends on the place in the file, except the lines of its problems: a block that an edit does not
 * touch stays the same object (`===`), also where lines were inserted above it. `blockLine` tells the line.
 */
export interface CellBlock {
  readonly kind: 'cell';
  /** Stable: the cell's `id` key, else its symbol, else derived from kind and place; unique over the document. */
  readonly id: string;
  /** The fence's info string. */
  readonly cellKind: string;
  /** Whole source with fences and line ends. */
  readonly source: string;
  /** YAML between the fences. */
  readonly body: string;
  readonly cell: Cell;
}

export type Cell =
  | GivenCell
  | ChoiceCell
  | StepCell
  | CheckCell
  | TableCell
  | FitCell
  | FigureCell
  | ChecklistCell
  | PhotoCell
  | QuestionCell
  | RemarkCell
  | AsideCell
  | EndCell
  | RecordCell
  | UnknownCell;

export interface ChoiceOption {
  readonly key: string;
  readonly label: string;
  /** Symbol to quantity (`630 MPa`) or formula; which of the two depends on the cell that the symbol names. */
  readonly sets: ReadonlyMap<string, string>;
  /** Symbol of a step to its range words and conditions, as a step's own `ranges`. */
  readonly ranges?: ReadonlyMap<string, ReadonlyMap<string, string>>;
  readonly source?: string;
  readonly note?: string;
  /** Where the option can't be used yet: the sentence that says what is missing. */
  readonly missing?: string;
  /** Blanks that have to be filled before it can count, and the option that counts until then. */
  readonly needs?: readonly string[];
  readonly meanwhile?: string;
  /** Kinds of material of which the reader's own are made from this option, with what it sets beside their values. */
  readonly own?: readonly string[];
  /** A material of the reader's own, as it was entered: { name, kind, values by symbol, hardness }. */
  readonly material?: ReadonlyMap<string, string>;
}

export interface ChoiceCell extends CellBase {
  readonly kind: 'choice';
  /** Key of the chosen option, as typed; '' where nothing is chosen yet. */
  readonly chosen: string;
  readonly options: readonly ChoiceOption[];
}

/** A derivation step: symbol = formula. */
export interface StepCell extends CellBase, OwnResult {
  readonly kind: 'step';
  readonly symbol: string;
  /** Absent where a choice sets it. */
  readonly formula?: string;
  /** Id of the choice that sets the formula. */
  readonly by?: string;
  readonly unit?: string;
  /** Condition under which the formula holds, and what to say and do where it does not. */
  readonly validIf?: string;
  readonly otherwise?: string;
  /** Range word (`below limit`, `low cycle`, `beyond data`) to the condition under which there is no value, in order. */
  readonly ranges?: ReadonlyMap<string, string>;
  /** `factor`: uncertainty shown as times or divided by. */
  readonly spread?: 'factor';
  /** Two symbols, earliest and latest duration: shows the clock time at which a test begun now would end. */
  readonly clock?: readonly [string, string];
  /** Range in which the numbers of every team have it: `300 MPa .. 450 MPa`. */
  readonly wanted?: string;
  readonly slips?: readonly CellSlip[];
}

export interface CheckCell extends CellBase {
  readonly kind: 'check';
  readonly condition: string;
  /** Sentence when it holds; when it does not, what is the matter and what to do. `{=x}` shows a live value. */
  readonly holds: string;
  readonly otherwise: string;
  /** Givens at whose blanks it is said too when it does not hold. */
  readonly concerns?: readonly string[];
  /** true: the numbers of every team are such that it holds. */
  readonly wanted?: boolean;
}

/**
 * - text: any text. quantity: a number in `unit`, or with a unit of its own. count: the same, a whole number as a rule.
 * - option: one of `options`. yes-no: yes where empty, unless `default` says otherwise.
 * - derived: computed by `formula` for each row; has no place in the rows' text.
 */
export type ColumnType = 'text' | 'quantity' | 'count' | 'option' | 'yes-no' | 'derived';

/** A column that the table asks for. */
export interface TableColumn {
  /** A symbol of the table's own: what the header names it by, and formulas of derived columns. */
  readonly key: string;
  readonly label: string;
  readonly type: ColumnType;
  /** Unit of a number without one of its own; '' where absent. */
  readonly unit: string;
  /** Words that an option column takes; empty for other types. */
  readonly options: readonly string[];
  /** '' for all but derived columns. */
  readonly formula: string;
  /** What an empty field, or a column that the rows do not have, stands for. */
  readonly default?: string;
  /** Whether a row may leave its number or option open and still be used. */
  readonly optional: boolean;
  /** Ranges as those of a given: outside `possible` (`> 0` where absent) a row is left out, outside `plausible` warned of. */
  readonly possible?: string;
  readonly plausible?: string;
  readonly note?: string;
}

/** Rows of typed columns. */
export interface TableCell extends CellBase {
  readonly kind: 'table';
  /** Nothing is missing where it stays empty. */
  readonly optional?: boolean;
  readonly columns: readonly TableColumn[];
  readonly symbols: readonly TableSymbol[];
  /** Condition that a row has to meet to be counted: `S > 300*unit(MPa)`. Others stay in the table and out of its fits. */
  readonly where?: string;
  /** Delimited text, its first line the header; '' where there is none yet. Line ends are LF. */
  readonly rows: string;
}

/** A setting of a fit: a word of its own, or the choice (by cell id) whose chosen option's key is the word. */
export type FitSetting = { readonly word: string } | { readonly by: string };

/** What a fit finds: a line through the specimens, or what is asked of a line or of the specimens themselves. */
export type FindsWord = 'line' | 'limits' | 'lives' | 'comparison' | 'staircase' | 'plan' | 'weights';

/**
 * A line fitted to the rows of a table, or taken over from another sheet; or, by `finds`, what follows from a line or from
 * the rows. Settings are absent where the key is.
 */
export interface FitCell extends CellBase {
  readonly kind: 'fit';
  /** `line` where the key is absent. */
  readonly finds: FindsWord;
  /** Id of the fit whose line is asked. */
  readonly of?: string;
  /** Id of the table; '' where a snapshot, or the line of another fit, stands in for it. */
  readonly table: string;
  /** What is asked, by the names that its form has: a symbol of the sheet, a quantity, a word, or `by` and a choice. As typed. */
  readonly asks: ReadonlyMap<string, string>;
  readonly method?: FitSetting;
  readonly life?: FitSetting;
  readonly model?: FitSetting;
  readonly stress?: FitSetting;
  readonly group?: FitSetting;
  /** Parameter (`A`, `B`, `s`, ...) to the symbol that it defines in the sheet. */
  readonly symbols: ReadonlyMap<string, string>;
  /** What was stored of a line from another sheet, as text by name. */
  readonly snapshot?: ReadonlyMap<string, string>;
}

export interface FigureCell extends CellBase {
  readonly kind: 'figure';
  /** `free-body`, `shear-moment`, `s-n`, ... */
  readonly drawing: string;
  /** Id of the choice whose option says which form of the drawing it is. */
  readonly by?: string;
  /** For charts: id of the fit whose line and specimens are drawn. */
  readonly fit?: string;
  /** For S-N charts: the axis of stress; the fit's own scale where the key is absent. */
  readonly scale?: 'log' | 'plain';
  /** Symbols whose values are drawn, with commas between, as typed. */
  readonly of?: string;
  /** For a sweep: the given that moves, or two with a comma between, and as many quantities between which; as typed. */
  readonly against?: string;
  readonly from?: string;
  readonly to?: string;
  /** Role in the drawing to symbol in the sheet. */
  readonly values: ReadonlyMap<string, string>;
  /** Role to the given that a drag changes, where the value shown is derived from it. */
  readonly givens?: ReadonlyMap<string, string>;
}

/** A kind this version does not know, or a body it can't read: kept as it is. */
export interface UnknownCell extends CellBase {
  readonly kind: 'unknown';
}
