import type { Collected } from './collect-types.ts';
import type { createEarlierDesk } from './earlier-desk.ts';
import type { ElsewhereDesk } from './elsewhere.ts';
import type { EarlierStates } from './earlier-store.ts';
import type { createHoldDesk } from './hold-desk.ts';
import type { NoticeDesk } from './notices.ts';
import type { OpenSheet } from './open-sheet.ts';
import type { OwnParts } from './page-parts.ts';
import type { PageEvent, PageState } from './page-step.ts';
import type { PersistenceDesk } from './persistence.ts';
import type { ShelfStore } from './shelf-store.ts';
import type { SidePlace } from '../view/index.ts';
import type { Teams } from './teams-types.ts';
import type { Windows } from './windows.ts';

/** Where the page keeps what is to outlast it. */
export interface Keeping {
  readonly store: ShelfStore;
  readonly earlier: EarlierStates;
  readonly persistence: PersistenceDesk;
  /** Whether the browser was found to keep anything. */
  readonly canKeep: boolean;
}

/** The page around the sheet: its parts, which know of each other through it, and how it stands. */
export interface Page extends Keeping {
  readonly root: HTMLElement;
  readonly head: HTMLElement;
  /** What stays in view beside the sheet. */
  readonly side: SidePlace;
  readonly own: () => Promise<OwnParts>;
  readonly notices: NoticeDesk;
  readonly windows: Windows;
  readonly elsewhere: ElsewhereDesk;
  readonly holdDesk: ReturnType<typeof createHoldDesk>;
  readonly collectDesk: Collected;
  readonly teamsDesk: Teams;
  readonly earlierDesk: ReturnType<typeof createEarlierDesk>;
  /** Takes the page from one state to the next and does what follows from it. */
  readonly act: (event: PageEvent) => void;
  /** Shows the head of the page as it is. */
  readonly show: () => void;
  readonly now: PageNow;
}

export interface PageNow {
  state: PageState;
  sheet: OpenSheet | undefined;
  /** The example that the page is delivered with, until what it is was told and read; a working file has none. */
  example: string | undefined;
  /** Counts what was asked to be opened: an answer that comes after a later wish opens nothing. */
  wishes: number;
  panelTimer: ReturnType<typeof setTimeout> | undefined;
}
