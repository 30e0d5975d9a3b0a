import type { TableCell } from '../sheet/index.ts';
import type { Gathered, Look, MarkingScheme, PointsByHand, SortBy } from '../returns/index.ts';

/** What of the returned sheets the table shows. */
export type CollectView = 'answers' | 'measured' | 'checks' | 'points' | 'class';

/** Returned files, while somebody looks at them. */
export interface CollectState {
  readonly gathered: Gathered;
  /** Files read so far of those chosen; absent when nothing is being read. */
  readonly reading?: { readonly done: number; readonly all: number };
  /** Only sheets of one title stand in one table. */
  readonly title: string;
  readonly view: CollectView;
  readonly look: Look;
  readonly scheme: MarkingScheme;
  readonly byHand: PointsByHand;
  /** Whether feedback tells the sheet's own results. */
  readonly tellsResults: boolean;
  /** A table of specimens in the sheet that lies open. */
  readonly target?: { readonly table: TableCell; readonly title: string };
  /** What came of the last press; '' where nothing is to be said. */
  readonly said: string;
  /** Id of the sheet that lies open beside the table. */
  readonly beside?: string;
}

/** Returned files as the head of the page has them. */
export interface Collected {
  /** Takes more files in. */
  readonly take: (files: readonly File[]) => void;
  /** What came so far, in a sentence; undefined where there is nothing. */
  readonly words: () => string | undefined;
  /** All that is shown of it. */
  readonly panel: () => unknown;
}

/** What can be done with returned files. */
export interface CollectActions {
  /** Takes more files in. */
  readonly take: (files: readonly File[]) => void;
  readonly chooseTitle: (title: string) => void;
  readonly chooseView: (view: CollectView) => void;
  readonly look: (change: Partial<Look>) => void;
  /** Puts the table in order by a column, and the other way round when it is so already. */
  readonly sortBy: (by: SortBy) => void;
  readonly setPoints: (symbol: string, points: number) => void;
  /** Gives points for one answer, or leaves them to the scheme again. */
  readonly giveByHand: (id: string, symbol: string, points: number | undefined) => void;
  readonly setShare: (of: 'carried' | 'fewDigits', share: number) => void;
  /** Shows one sheet beside the table, or none. */
  readonly lay: (id: string | undefined) => void;
  readonly openAsSheet: (id: string) => void;
  readonly takeTable: () => void;
  readonly tellResults: (tells: boolean) => void;
  /** A page for each team, in one archive. */
  readonly takeFeedback: () => Promise<void>;
  readonly takeSpecimens: () => void;
  /** Puts the class's specimens into a new S-N sheet, or into the table of the sheet that lies open. */
  readonly poolInto: (where: 'new' | 'open') => void;
  /** Forgets all that was collected. */
  readonly clear: () => void;
}
