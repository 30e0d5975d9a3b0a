import type { TemplateResult } from 'lit-html';
import type { SlipGroup } from '../report/index.ts';
import type { KeepingState } from './autosave.ts';
import type { EarlierActions, EarlierShown } from './earlier-desk.ts';
import type { Collected } from './collect-types.ts';
import type { HoldActions, HoldState } from './hold-types.ts';
import type { Notice } from './notices.ts';
import type { Start } from './starts.ts';
import type { KeptSheet } from './kept-sheet.ts';
import type { Persistence } from './persistence.ts';
import type { DamagedRecord } from './shelf-store.ts';
import type { SheetDrawing, Takeaway } from './takeaways.ts';

export type PanelName = 'sheets' | 'takeaways' | 'slips' | 'hold' | 'collect' | 'words';

/** What the head of the page shows, and what its controls call. */
export interface HeadState {
  readonly sheetId: string;
  readonly kept: readonly KeptSheet[];
  /** Records that are no sheets. */
  readonly damaged: readonly DamagedRecord[];
  /** Those of the sheet that lies open, while somebody looks at the sheets. */
  readonly earlier: EarlierShown;
  /** What the browser answered when it was asked to keep the sheets; undefined until that is known. */
  readonly persistence: Persistence | undefined;
  /** What a sheet for the next specimen leaves out, while somebody looks at the sheets. */
  readonly nextEmpties: readonly string[];
  readonly drawings: readonly SheetDrawing[];
  /** What the sheet offers, while somebody looks at it; reckoned shortly after an edit. */
  readonly slips: readonly SlipGroup[];
  /** Those switched on, by id. */
  readonly slipsOn: readonly string[];
  /** What is held, while somebody looks at it. */
  readonly hold: HoldState | undefined;
  /** Files that came back from a class. */
  readonly collected: Collected;
  /** What is prepared for a class, while somebody looks at it. */
  readonly teams: TemplateResult | undefined;
  /** How many states are held. */
  readonly heldCount: number;
  readonly keeping: KeepingState;
  readonly unfolded: PanelName | undefined;
  /** The newest first. */
  readonly notices: readonly Notice[];
  /** Whether it is told what this is: at the example, until somebody has read it. */
  readonly isFirstMinute: boolean;
}

export interface HeadActions extends HoldActions, EarlierActions {
  readonly collect: Pick<Collected, 'take'>;
  readonly unfoldTeams: (open: boolean) => void;
  readonly unfold: (panel: PanelName | undefined) => void;
  readonly takeAway: (takeaway: Takeaway) => void;
  readonly print: () => void;
  /** Past all that stands before it, for the keyboard. */
  readonly toFirstBlank: () => void;
  readonly lecture: () => void;
  /** Goes from what is told of the example to a blank that moves its results. */
  readonly takeALook: () => void;
  readonly bringIn: (files: readonly File[]) => void;
  readonly open: (sheetId: string) => void;
  readonly remove: (sheetId: string) => void;
  /** Hands out a record that is no sheet, as it is. */
  readonly takeDamaged: (record: DamagedRecord) => void;
  readonly duplicate: () => void;
  /** A copy without anything that was entered. */
  readonly blankCopy: () => void;
  readonly start: (from: Start) => void;
  readonly nextSpecimen: () => void;
  /** Switches one slip on or off, or all off. */
  readonly switchSlip: (id: string | undefined, on: boolean) => void;
  readonly dismiss: (notice: Notice) => void;
}
