/** One or two sentences about a file or a sheet: what went wrong or what was done, and how to take it back. */
export interface Notice {
  readonly text: string;
  readonly remedy?: { readonly label: string; readonly apply: () => void };
  /** It is about the sheet that lies open, and goes with it. */
  readonly ofSheet?: boolean;
}

/** As many as can be read at the head; the oldest give way. */
const MOST = 4;

/**
 * The newest comes first. One that offers something stays until it was taken up or closed, whatever is told after it, unless the same is told
 * of the sheet again; one that only tells gives way to the next.
 */
export function withNotice(notices: readonly Notice[], next: Notice): readonly Notice[] {
  const staying = notices.filter(({ text, remedy, ofSheet }) => remedy !== undefined && !(ofSheet === true && text === next.text));
  return [next, ...staying].slice(0, MOST);
}

/** Without those about a sheet that is no longer open, and without what was told of before it. */
export function withoutSheet(notices: readonly Notice[]): readonly Notice[] {
  return notices.filter(({ ofSheet, remedy }) => ofSheet !== true && remedy !== undefined);
}

export interface NoticeDesk {
  readonly shown: () => readonly Notice[];
  readonly tell: (text: string, remedy?: Notice['remedy']) => void;
  /** The same about the sheet that lies open. */
  readonly tellOfSheet: (text: string, remedy?: Notice['remedy']) => void;
  readonly dismiss: (notice: Notice) => void;
  readonly leaveSheet: () => void;
}

/** @param show shows the head of the page anew */
export function createNoticeDesk(show: () => void): NoticeDesk {
  let notices: readonly Notice[] = [];
  const change = (next: readonly Notice[]): void => {
    notices = next;
    show();
  };
  const tellAs = (ofSheet: boolean) => (text: string, remedy?: Notice['remedy']): void => {
    const notice: Notice = { text, ofSheet, ...(remedy === undefined ? {} : { remedy: { label: remedy.label, apply: () => {
      dismiss(notice);
      remedy.apply();
    } } }) };
    change(withNotice(notices, notice));
  };
  const dismiss = (notice: Notice): void => change(notices.filter((one) => one !== notice));
  return { shown: () => notices, tell: tellAs(false), tellOfSheet: tellAs(true), dismiss, leaveSheet: () => change(withoutSheet(notices)) };
}
