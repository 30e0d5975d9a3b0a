import alternating from '../../worksheets/alternating-bending.md?raw';
import lever from '../../worksheets/loading-lever.md?raw';
import materials from '../../worksheets/materials.md?raw';
import rotating from '../../worksheets/rotating-bending.md?raw';
import line from '../../worksheets/sn-line.md?raw';
import spanErrors from '../../worksheets/span-errors.md?raw';
import specimen from '../../worksheets/specimen.md?raw';
import staircase from '../../worksheets/staircase.md?raw';
import type { DrawnSteps } from '../report/index.ts';
import { problemSentence } from '../core/problem/index.ts';
import { parseSheet, serialiseSheet } from '../sheet/index.ts';
import { createSession, mountSheet, type SheetSession } from '../view/index.ts';
import { createAutosave, type Autosave, type KeepingState } from './autosave.ts';
import { emptied } from './empty-sheet.ts';
import { drawer } from './drawer.ts';
import { createLecturePlace } from './lecture-place.ts';
import { createLineShelf } from './line-shelf.ts';
import type { Carried } from './page-parts.ts';
import { createRowShelf } from './row-shelf.ts';
import { freshSheetId, type KeptSheet, type ShelfStore } from './shelf-store.ts';
import { detailOf, titleOf } from './sheet-title.ts';

const EMPTY_SHEET = '---\ntitle: New sheet\nunits: SI\n---\nWrite here what is to be found, and add cells below.\n';

/** A sheet lying open, with what keeps it. */
export interface OpenSheet {
  readonly session: SheetSession;
  readonly autosave: Autosave;
  enterLecture(): void;
  /** Draws that lie open and are those of the sheet as it stands. */
  drawn(): DrawnSteps;
  close(): void;
}

export type Opening = Pick<KeptSheet, 'id' | 'revision' | 'text' | 'isCopy'>;

/** A sheet that lies nowhere else yet. */
export function newOpening(text: string, isCopy = false): Opening {
  return { id: freshSheetId(), revision: 0, text, isCopy };
}

interface OpenOptions {
  readonly root: HTMLElement;
  readonly store: ShelfStore | undefined;
  /** Keeping stands otherwise than before. */
  readonly report: (state: KeepingState) => void;
  /** The sheet, its values or its history changed. */
  readonly changed: () => void;
  /** Something that follows an edit could not be shown. */
  readonly failed: (error: unknown) => void;
}

/** Shows a sheet in the page and keeps its changes. */
export function openSheet(opening: Opening, { root, store, report, changed, failed }: OpenOptions): OpenSheet {
  const session = createSession(parseSheet(opening.text), { now: () => new Date(), failed });
  const read = () => {
    const document = session.document();
    return { title: titleOf(document), detail: detailOf(document), text: serialiseSheet(document) };
  };
  const autosave = createAutosave({ store, sheet: opening, read, now: () => new Date(), report });
  let shown = session.document();
  const unsubscribe = session.subscribe(() => {
    if (session.document() === shown) return;
    shown = session.document();
    autosave.touch();
    changed();
  });
  const lines = createLineShelf({ store, openId: autosave.sheetId, now: () => new Date() });
  const rows = store === undefined ? {} : { rows: createRowShelf({ store, openId: autosave.sheetId, now: () => new Date() }) };
  const mounted = mountSheet(root, session, { lines, drawer, ...rows, lecturePlace: createLecturePlace(() => titleOf(session.document())) });
  return {
    session,
    autosave,
    enterLecture: mounted.enterLecture,
    drawn: mounted.drawn,
    close: () => {
      unsubscribe();
      autosave.dispose();
      mounted.dispose();
      session.dispose();
    },
  };
}

export interface FirstSheet {
  readonly opening: Opening;
  readonly notice?: string;
  /** The text that the file carries, where another state of the same sheet is opened. */
  readonly fileText?: string;
}

/** A working file opens its own sheet, in the state last kept here if that differs; the plain page opens the last one kept. */
export async function firstSheet(carried: Carried, store: ShelfStore | undefined): Promise<FirstSheet> {
  const text = carried.text.ok ? carried.text.value : startingText('example');
  const trouble = carried.text.ok ? {} : { notice: problemSentence(carried.text.problem) };
  if (carried.sheetId === undefined) {
    const [last] = (await store?.list().catch(() => [])) ?? [];
    return { opening: last ?? newOpening(text), ...trouble };
  }
  const kept = await store?.read(carried.sheetId).catch(() => undefined);
  if (kept === undefined) return { opening: { id: carried.sheetId, revision: 0, text, isCopy: false }, ...trouble };
  if (kept.text === text || !carried.text.ok) return { opening: kept, ...trouble };
  const at = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short' }).format(new Date(kept.changed));
  return {
    opening: kept,
    notice: `This is the sheet as it was last changed in this browser (${at}). The file itself holds another state.`,
    fileText: text,
  };
}

const SHEETS = { example: rotating, alternating, line, staircase, lever, specimen, 'span errors': spanErrors, materials };

/** What another sheet may start from. */
export type Start = keyof typeof SHEETS | 'blank' | 'blank alternating' | 'empty';

export function startingText(from: Start): string {
  switch (from) {
    case 'empty': return EMPTY_SHEET;
    case 'blank': return blank(rotating);
    case 'blank alternating': return blank(alternating);
    default: return SHEETS[from];
  }
}

function blank(text: string): string {
  return serialiseSheet(emptied(parseSheet(text)));
}
