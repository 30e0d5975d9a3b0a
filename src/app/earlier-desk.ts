import { whenAsked } from '../core/remembered/index.ts';
import { parseSheet, serialiseSheet, type SheetDocument } from '../sheet/index.ts';
import type { EarlierStates } from './earlier-store.ts';
import { whatDiffers } from './earlier-words.ts';
import type { OpenSheet } from './open-sheet.ts';

/** An earlier state as the list shows it. */
export interface EarlierEntry {
  /** When it was kept, ms since 1970. */
  readonly at: number;
  /** What it said otherwise than the sheet does now. */
  readonly words: string;
  readonly text: string;
}

/** Earlier states of the sheet that lies open, newest first. */
export interface EarlierShown {
  /** Read only while somebody looks: each takes its time. */
  readonly unfolded: boolean;
  readonly entries: readonly EarlierEntry[];
  /** How many there are besides. */
  readonly further: number;
}

export interface EarlierActions {
  /** Makes the sheet what it was, as one step to undo. */
  readonly goBackToEarlier: (entry: EarlierEntry) => void;
  readonly showMoreEarlier: () => void;
  readonly unfoldEarlier: () => void;
}

interface EarlierDesk extends EarlierActions {
  readonly shown: () => EarlierShown;
  /** Shows the head of the page, with the states read anew where they lie unfolded. */
  readonly look: () => Promise<void>;
  /** Folded up again, and short. */
  readonly begin: () => void;
}

interface EarlierDeskOptions {
  readonly sheet: () => OpenSheet | undefined;
  readonly earlier: Pick<EarlierStates, 'list'>;
  readonly show: () => void;
  readonly tell: (text: string) => void;
}

/** Each state shown is read to be compared: a few at first, more when they are asked for. */
const FIRST_SHOWN = 5;
const MORE_SHOWN = 20;
const NONE: EarlierShown = { unfolded: false, entries: [], further: 0 };

/** The list of earlier states and the way back to them. */
export function createEarlierDesk({ sheet, earlier, show, tell }: EarlierDeskOptions): EarlierDesk {
  let most = FIRST_SHOWN;
  let shown = NONE;
  const read = createReader();
  const look = async (): Promise<void> => {
    const open = sheet();
    if (!shown.unfolded) return show();
    const states = open === undefined ? [] : await earlier.list(open.autosave.sheetId()).catch(() => []);
    if (open !== sheet() || !shown.unfolded) return;
    shown = open === undefined ? NONE : { unfolded: true, ...entriesOf(open, states, most, read) };
    show();
  };
  return {
    shown: () => shown,
    look,
    begin: () => {
      most = FIRST_SHOWN;
      shown = NONE;
      read.forget();
    },
    unfoldEarlier: () => {
      shown = { ...NONE, unfolded: !shown.unfolded };
      void look();
    },
    showMoreEarlier: () => {
      most += MORE_SHOWN;
      void look();
    },
    goBackToEarlier: ({ at, text }) => {
      const open = sheet();
      if (open === undefined) return;
      // The present state is kept, and so among the earlier ones, before another takes its place.
      void open.autosave.flush().then(() => {
        if (open !== sheet()) return;
        const { session } = open;
        session.settle();
        const result = session.apply({ do: 'set document', text });
        session.settle();
        tell(result.ok ? `The sheet is as it stood at ${whenKept(at, Date.now())}. Undo takes that back.` : `${result.problem.what} The sheet stays as it is.`);
      });
    },
  };
}

function entriesOf({ session }: OpenSheet, states: Awaited<ReturnType<EarlierStates['list']>>, most: number, read: (text: string) => SheetDocument): Omit<EarlierShown, 'unfolded'> {
  const present = session.document();
  const text = serialiseSheet(present);
  // The newest is what the sheet says now, once that is kept.
  const before = states[0]?.text === text ? states.slice(1) : states;
  const entries = before.slice(0, most).map((state) => ({ at: state.at, text: state.text, words: whatDiffers(read(state.text), present) }));
  return { entries, further: before.length - entries.length };
}

/** To read a sheet takes tens of milliseconds, and the list is made anew with each keeping: what was read stays while the list lies open. */
function createReader(): ((text: string) => SheetDocument) & { readonly forget: () => void } {
  const documents = new Map<string, SheetDocument>();
  const read = (text: string): SheetDocument => {
    const document = documents.get(text) ?? parseSheet(text);
    documents.set(text, document);
    return document;
  };
  return Object.assign(read, { forget: () => documents.clear() });
}

const clock = whenAsked(() => new Intl.DateTimeFormat('en-GB', { timeStyle: 'medium' }));
const day = whenAsked(() => new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium' }));

/** With the day where that is not today. */
export function whenKept(at: number, now: number): string {
  const isToday = day().format(at) === day().format(now);
  return isToday ? clock().format(at) : `${clock().format(at)} on ${day().format(at)}`;
}
