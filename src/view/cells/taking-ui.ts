import type { SheetWithLines, SourceNow } from '../line-shelf.ts';

/** How the page looks at a line from another sheet: no part of the document. */
export interface TakingUi {
  isOpen: boolean;
  /** Sheets that lines can be taken from; undefined while they are looked through. */
  sheets: readonly SheetWithLines[] | undefined;
  /** What is to be said of the last file or of the browser. */
  told: string;
  /** What was found of the source of the line `of`. */
  source: { readonly of: ReadonlyMap<string, string>; readonly now: SourceNow } | undefined;
}

export function createTakingUi(): TakingUi {
  return { isOpen: false, sheets: undefined, told: '', source: undefined };
}
