import type { Problem } from '../core/problem/index.ts';
import type { ElasticityMark, PresentContext } from '../report/index.ts';
import type { Block, EditCommand, Origin } from '../sheet/index.ts';
import type { Completing } from './completing/offers.ts';
import { createBudgetUi, type BudgetUi } from './cells/budget-ui.ts';
import { createTableUi, type TableUi } from './cells/table-ui.ts';
import type { LineToTake } from '../graph/index.ts';
import { createTakingUi, type TakingUi } from './cells/taking-ui.ts';
import type { Sampler } from './sampling/sampler.ts';
import type { Folds } from './folds.ts';
import { createSamplingUi, type SamplingUi } from './sampling/sampling-ui.ts';
import type { LineNews, LineShelf, OfferedValues, ValueShelf } from './offer-shelf.ts';
import { createPhotoUi, type PhotoUi } from './photo/photo-ui.ts';
import type { MaterialShelf } from './material-shelf.ts';
import type { Moved } from './moved.ts';
import type { GivenText } from './readings.ts';
import { createRecordUi, type RecordUi } from './record/record-ui.ts';
import type { RowShelf } from './row-shelf.ts';
import type { SheetSession } from './session.ts';
import type { StepWay } from './step-told.ts';
import { createSweepUi, createWorkBackUi, type SweepUi, type WorkBackUi } from './sweep/sweep-ui.ts';

/** What is open at a cell and what is being typed there: how the page looks at it, no part of the document. */
export interface CellUi {
  /** Blanks as they are being typed, until the cell is left. */
  drafts: readonly string[] | undefined;
  /** What stood in the given when its blank was entered. */
  before: GivenText | undefined;
  /** Where that came from. */
  originBefore: Origin | undefined;
  /** A keyboard with letters was asked for. */
  letters: boolean;
  folded: boolean;
  numbersHidden: boolean;
  readonly open: Set<OpenPart>;
  /** The block's own text as it was when its editor was opened, and as it is being typed. */
  editing: { readonly before: string; readonly draft: string | undefined } | undefined;
  /** Names that are offered in its text. */
  completing: Completing | undefined;
  /** The symbol that is to get another name everywhere, and that name as it is being typed. */
  renaming: { readonly symbol: string; readonly typed: string; readonly told?: Problem } | undefined;
  /** A remark as it is being typed. */
  writing: string | undefined;
  readonly budget: BudgetUi;
  table: TableUi;
  readonly taking: TakingUi<LineToTake, LineNews>;
  readonly takingValues: TakingUi<OfferedValues, OfferedValues>;
  readonly record: RecordUi;
  readonly photo: PhotoUi;
  readonly sampling: SamplingUi;
  readonly sweep: SweepUi;
  readonly workBack: WorkBackUi;
  /** Cell from which a symbol brought the reader here. */
  cameFrom: string | undefined;
  /** What is to be said at the fields of an own material, by their names, and of the last press. */
  materialTold: ReadonlyMap<string, string>;
  /** What was taken away here, while its undo is offered. */
  undoOffer: string | undefined;
  /** An edit that could not be made, until the next one. */
  refused: Problem | undefined;
  /** Counts changes of this record, so that the cell is drawn again. */
  version: number;
}

export type OpenPart = 'derivation' | 'cases' | 'budget' | 'draws' | 'measured' | 'models' | 'own option' | 'against' | 'work back' | 'whole text' | 'form';

export function createCellUi(): CellUi {
  return {
    drafts: undefined,
    before: undefined,
    originBefore: undefined,
    letters: false,
    folded: false,
    numbersHidden: false,
    open: new Set(),
    editing: undefined,
    completing: undefined,
    renaming: undefined,
    writing: undefined,
    budget: createBudgetUi(),
    table: createTableUi(),
    taking: createTakingUi(),
    takingValues: createTakingUi(),
    record: createRecordUi(),
    photo: createPhotoUi(),
    sampling: createSamplingUi(),
    sweep: createSweepUi(),
    workBack: createWorkBackUi(),
    cameFrom: undefined,
    materialTold: new Map(),
    undoOffer: undefined,
    refused: undefined,
    version: 0,
  };
}

/** What is being typed gives way to what the sheet says, after an undo for instance; and rows that were picked to look at are picked anew. */
export function forgetDrafts(record: CellUi): void {
  const { table } = record;
  if (record.drafts === undefined && record.writing === undefined && record.editing?.draft === undefined && table.draft === undefined && table.picked === undefined) return;
  record.table = { ...table, draft: undefined, look: { ...table.look } };
  record.drafts = undefined;
  record.before = undefined;
  record.writing = undefined;
  if (record.editing !== undefined) record.editing = { ...record.editing, draft: undefined };
  record.version++;
}

/** What the lines of the sheet and their controls reach for. */
export interface Desk {
  readonly session: SheetSession;
  /** Where a finished specimen can be sent; absent where nothing is kept. */
  readonly rows?: RowShelf;
  /** Makes samples; absent where no worker can be had. */
  readonly sampler?: Sampler;
  readonly context: () => PresentContext;
  /** Where lines of other sheets can be had; absent where the page keeps no sheets. */
  readonly lines?: LineShelf;
  /** Where results of other sheets can be had; absent where the page keeps no sheets. */
  readonly values?: ValueShelf;
  /** Materials that this browser keeps; absent where it keeps nothing. */
  readonly materials?: MaterialShelf;
  /** Said where there is nothing to undo, though there was before the sheet was opened. */
  readonly nothingToUndo?: string;
  /** What is out of sight: parts on demand that are closed, sections that are folded. */
  readonly folds: Folds;
  readonly ui: (blockId: string) => CellUi;
  /** Changes the record and draws the cell again. */
  readonly changeUi: (blockId: string, change: (ui: CellUi) => void) => void;
  readonly moved: (symbol: string) => Moved | undefined;
  /** Cell that was edited last on the page; undefined before the first edit. */
  readonly edited: () => string | undefined;
  /** Whether what one percent does along the chain is lit up. */
  readonly isLit: () => boolean;
  /** What of that stands at a symbol; `chosen` where it starts from. */
  readonly litAt: (symbol: string) => ElasticityMark | 'chosen' | undefined;
  /** The symbols that are lit, the chosen one first. */
  readonly litNames: () => readonly string[];
  /** Results that the lecture has not come to; none outside it. */
  readonly notYet: () => ReadonlySet<string>;
  /** Lights up the chain about a symbol, or ends that. */
  readonly light: (symbol: string | undefined) => void;
  /** Another change is worked out beside the slopes, as a share. */
  readonly lightChange: (share: number) => void;
  /** Makes an edit; what can't be done is said at the cell. */
  readonly apply: (command: EditCommand, at?: string) => boolean;
  /** Goes one step back or forth in the history; what that changed is told at the foot of the window. */
  readonly step: (way: StepWay) => void;
  /** Offers at a block to undo the edit that was just made: what it took away. */
  readonly offerUndo: (blockId: string, sentence: string) => void;
  /** Shows a cell, with whatever kept it out of sight opened, and remembers where the reader came from. */
  readonly go: (toBlockId: string, fromBlockId: string) => void;
  readonly back: (blockId: string) => void;
  readonly announce: (sentence: string) => void;
  /** Ends the merging of keystrokes into one step, and of their changes into one mark. */
  readonly settle: () => void;
  /** Once the edit that was just made is in the page; what `element` gives then is drawn, in view or not. */
  readonly afterUpdate: (action: () => void) => void;
  readonly enterLecture: (fillsScreen?: boolean) => void;
  readonly openMenu: (blockId: string, anchor: Element) => void;
  /** Opens something at a line, once the part of the page that shows it is there. */
  readonly withPanels: (open: () => void) => void;
  readonly element: (blockId: string) => HTMLElement | undefined;
  readonly block: (blockId: string) => Block | undefined;
}
