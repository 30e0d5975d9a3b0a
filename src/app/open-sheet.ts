import type { SampledSteps } from '../report/index.ts';
import { parseSheet, serialiseSheet } from '../sheet/index.ts';
import { createSession, mountSheet, type SheetSession, type SidePlace, type TestsElsewhere } from '../view/index.ts';
import { createAutosave, type Autosave, type KeepingState } from './autosave.ts';
import { watchDrafts } from './drafts.ts';
import { sampler } from './sampler.ts';
import type { EarlierStates } from './earlier-store.ts';
import { createFoldMemory } from './fold-memory.ts';
import { createLecturePlace } from './lecture-place.ts';
import { createLineShelf, createValueShelf } from './offer-shelf.ts';
import { createMaterialShelf } from './material-shelf.ts';
import { createPlaceMemory } from './place-memory.ts';
import { createRowShelf } from './row-shelf.ts';
import type { ShelfStore } from './shelf-store.ts';
import { detailOf, titleOf } from './sheet-title.ts';
import type { Opening } from './starts.ts';

/** A sheet lying open, with what keeps it. */
export interface OpenSheet {
  readonly session: SheetSession;
  readonly autosave: Autosave;
  enterLecture(): void;
  /** What is said of keeping beside the sheet has changed. */
  drawSide(): void;
  /** Goes to the blank that moves the chief results most. */
  takeALook(): void;
  /** Its text as it was opened, where it is kept nowhere yet. */
  readonly unkept: string | undefined;
  /** What runs on other sheets is other than before. */
  drawStrips(): void;
  arriveAt(cellId: string): void;
  /** Samples that lie open and are those of the sheet as it stands. */
  sampled(): SampledSteps;
  close(): void;
}

interface OpenOptions {
  readonly root: HTMLElement;
  /** Where results and contents stay in view. */
  readonly side: SidePlace;
  readonly store: ShelfStore;
  readonly earlier: Pick<EarlierStates, 'add'>;
  /** Whether the browser was found to keep anything: only then other sheets can be had. */
  readonly canKeep: boolean;
  /** Tests that run on other sheets. */
  readonly elsewhere: TestsElsewhere;
  /** Keeping stands otherwise than before. */
  readonly report: (state: KeepingState) => void;
  /** The sheet, its values or its history changed. */
  readonly changed: () => void;
  /** Something that follows an edit could not be shown. */
  readonly failed: (error: unknown) => void;
  /** A part of the page that was wanted did not come. @param again asks for it once more */
  readonly partFailed: (error: unknown, again: () => void) => void;
}

/** The list of steps begins with the opening; only a sheet that was kept before can have had others. */
const NOTHING_TO_UNDO = 'Nothing to undo since the page was opened; earlier states are under Sheets.';

/** Shows a sheet in the page and keeps its changes. */
export function openSheet(opening: Opening, { root, side, store, earlier, canKeep, elsewhere, report, changed, failed, partFailed }: OpenOptions): OpenSheet {
  const session = createSession(parseSheet(opening.text), { now: () => new Date(), failed });
  const read = () => {
    const document = session.document();
    const draft = drafts.current();
    return { title: titleOf(document), detail: detailOf(document), text: serialiseSheet(document), ...(draft === undefined ? {} : { draft }) };
  };
  const autosave = createAutosave({ store, sheet: opening, read, now: () => new Date(), report });
  const opened = session.document();
  let shown = opened;
  const unsubscribe = session.subscribe(() => {
    if (session.document() === shown) return;
    const isFirst = shown === opened;
    shown = session.document();
    autosave.touch();
    // What was opened may be kept nowhere yet, or have been kept by a page that knew of no earlier states.
    if (isFirst) void earlier.add(autosave.sheetId(), { at: Date.now(), revision: opening.revision, text: opening.text }).catch(() => undefined);
    changed();
  });
  const drafts = watchDrafts(root, session.document, autosave.touch);
  // What is left is kept at once, and so is every press in a record.
  const keepNow = ({ type, target }: Event): void => {
    if (type === 'focusout' || (target instanceof Element && target.closest('.cell-record, .running-test') !== null)) queueMicrotask(() => void autosave.flush());
  };
  root.addEventListener('focusout', keepNow);
  root.addEventListener('click', keepNow);
  const others = { store: canKeep ? store : undefined, openId: autosave.sheetId, now: () => new Date() };
  const [lines, values] = [createLineShelf(others), createValueShelf(others)];
  const rows = !canKeep ? {} : { rows: createRowShelf({ store, openId: autosave.sheetId, now: () => new Date() }), materials: createMaterialShelf(() => localStorage) };
  const mounted = mountSheet(root, session, {
    side, lines, values, sampler, elsewhere, partFailed, ...rows, foldMemory: createFoldMemory(autosave.sheetId),
    placeMemory: createPlaceMemory(() => (autosave.revision() > 0 ? autosave.sheetId() : undefined), opening.text),
    lecturePlace: createLecturePlace(() => titleOf(session.document())), ...(opening.revision === 0 ? {} : { nothingToUndo: NOTHING_TO_UNDO }),
  });
  return {
    session,
    autosave,
    enterLecture: mounted.enterLecture,
    drawSide: mounted.drawSide,
    takeALook: mounted.takeALook,
    drawStrips: mounted.drawStrips,
    arriveAt: mounted.arriveAt,
    unkept: opening.revision === 0 ? opening.text : undefined,
    sampled: mounted.sampled,
    close: () => {
      unsubscribe();
      root.removeEventListener('focusout', keepNow);
      root.removeEventListener('click', keepNow);
      drafts.dispose();
      // What could not be kept so far is set aside rather than left behind.
      autosave.leave();
      autosave.dispose();
      mounted.dispose();
      session.dispose();
    },
  };
}
