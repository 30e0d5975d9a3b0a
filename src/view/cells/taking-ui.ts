import type { SheetWith, SourceNow } from '../offer-shelf.ts';

/** How the page looks at what other sheets offer: no part of the document. */
export interface TakingUi<Offer, News> {
  isOpen: boolean;
  /** Sheets that something can be taken from; undefined while they are looked through. */
  sheets: readonly SheetWith<Offer>[] | undefined;
  /** What is to be said of the last file or of the browser. */
  told: string;
  /** What was found of the source of what was taken, `of`. */
  source: { readonly of: ReadonlyMap<string, string>; readonly now: SourceNow<News> } | undefined;
}

export function createTakingUi<Offer, News>(): TakingUi<Offer, News> {
  return { isOpen: false, sheets: undefined, told: '', source: undefined };
}
