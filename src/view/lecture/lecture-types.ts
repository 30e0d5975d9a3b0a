import type { SheetStates } from '../../graph/types.ts';
import type { PresentContext } from '../../report/index.ts';
import type { Block } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';

/** What is remembered of a lecture that is open begins with this word. */
export const OPEN = 'open';

/** Keeps a line of text as long as the window is there. */
export interface LectureMemory {
  read(): string | undefined;
  write(text: string): void;
}

/** The sheet told step by step, in large letters. */
export interface Lecture {
  enter(fillsScreen?: boolean): void;
  /** The sheet is in the page for the first time: a lecture that was open when the page was loaded again goes on. */
  begin(): void;
  /** The sheet is in the page with its latest results. */
  follow(): void;
  /** Before results of an edit are shown: the state that they are to be compared with, where they are withheld. */
  edited(before: SheetStates): SheetStates | undefined;
  /** What is withheld and told, as the presenting of the sheet has to know it. */
  telling(): Pick<PresentContext, 'guess' | 'told'>;
  /** Symbols of results that have not been told; none while it is closed. */
  notYet(): ReadonlySet<string>;
  dispose(): void;
}

export interface LectureParts {
  readonly root: HTMLElement;
  readonly sheet: HTMLElement;
  readonly desk: Desk;
  /** All of the sheet is to be in the page. */
  readonly complete: () => void;
  /** Draws a block if what it shows has changed. */
  readonly draw: (block: Block) => void;
  /** What is withheld has changed. */
  readonly refresh: () => void;
  readonly memory?: LectureMemory;
}
