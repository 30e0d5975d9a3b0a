/** How it is looked at. */
export interface SideUi {
  /** On a narrow window: the list above the line. */
  isUnfolded: boolean;
  isChainOpen: boolean;
  query: string;
  /** Index of the section in view; -1 above the first. */
  section: number;
  /** Cell of the blank that was edited or had the focus last, if chief results rest on it. */
  source: string | undefined;
  /** Cell that had the focus last: where the reader comes from. */
  lastCell: string;
}

/** What its controls do. */
export interface SideHands {
  readonly change: (change: (ui: SideUi) => void) => void;
  readonly go: (blockId: string) => void;
  /** Goes to the next of these cells behind the one that was gone to last. */
  readonly goToNext: (cellIds: readonly string[]) => void;
  readonly goToSection: (blockId: string, index: number) => void;
}
