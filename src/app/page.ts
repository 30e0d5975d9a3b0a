import { composed, isolated } from '../core/problem/index.ts';
import { presentSlipEffects, presentSlipsOn, type PresentContext, type SlipGroup } from '../report/index.ts';
import { serialiseSheet, switchAllSlipsOff, switchSlip } from '../sheet/index.ts';
import { faultWords, fileName, renderSafely, saveFile, whenStill } from '../view/index.ts';
import { KEEPS_NOTHING, type KeepingState } from './autosave.ts';
import { bringIn, listenForFiles } from './bring-in.ts';
import { drawingsOf } from './drawing-file.ts';
import { headerTemplate } from './header.ts';
import type { HeadActions, PanelName } from './head-state.ts';
import { createHoldDesk } from './hold-desk.ts';
import type { HoldState } from './hold-types.ts';
import { createEarlierDesk } from './earlier-desk.ts';
import type { EarlierStates } from './earlier-store.ts';
import { draftWords, enterDraft, fieldOf } from './drafts.ts';
import { alteredWords } from './fingerprint.ts';
import { firstSheet } from './first-sheet.ts';
import { openSheet, type OpenSheet } from './open-sheet.ts';
import { carriedSheet, ownParts } from './page-parts.ts';
import { inOrderSeen, type Draft, type KeptSheet } from './kept-sheet.ts';
import { createNoticeDesk } from './notices.ts';
import type { Persistence, PersistenceDesk } from './persistence.ts';
import type { DamagedRecord, ShelfStore } from './shelf-store.ts';
import { titleOf } from './sheet-title.ts';
import { newOpening, startingText, type Opening } from './starts.ts';
import { takeAway } from './take-away.ts';
import { beginWaking, didNotWake, rememberedOpen, rememberOpen } from './waking.ts';
import { createWindows } from './windows.ts';

/** Rest after an edit, ms, before an open panel is worked out anew. */
const REST = 150;

/** What the lists of sheets may wait for the store, ms, before they are shown as they were known last. */
const LONGEST_READING = 400;

function contextOf({ session }: OpenSheet): PresentContext {
  return { document: session.document(), states: session.states(), system: session.system() };
}

function faultSentence(error: unknown): string {
  return `A part of the page could not follow the last change (${faultWords(error)}). The change is kept; load the page again before you go by what it shows.`;
}

/** Where the page keeps what is to outlast it. */
export interface Keeping {
  readonly store: ShelfStore;
  readonly earlier: EarlierStates;
  readonly persistence: PersistenceDesk;
  /** Whether the browser was found to keep anything. */
  readonly canKeep: boolean;
}

/** Starts the page: opens the sheet it carries or the last one kept, and wires the head of the page to it. */
export async function startPage(root: HTMLElement, { store, earlier, persistence, canKeep }: Keeping): Promise<void> {
  const own = ownParts(document);
  const carried = carriedSheet(document);
  const head = document.createElement('header');
  head.className = 'head';
  root.before(head);
  let sheet: OpenSheet | undefined;
  let kept: readonly KeptSheet[] = [];
  let damaged: readonly DamagedRecord[] = [];
  let promise: Persistence | undefined;
  let keeping: KeepingState = { state: 'unchanged' };
  let unfolded: PanelName | undefined;
  let toUnfold: PanelName | undefined;
  let slips: readonly SlipGroup[] = [];
  let hold: HoldState | undefined;
  let panelTimer: ReturnType<typeof setTimeout> | undefined;

  const show = (): void => {
    if (sheet === undefined) return;
    const shown = sheet.session.document();
    document.title = isolated(titleOf(shown));
    const context = contextOf(sheet);
    const sheetId = sheet.autosave.sheetId();
    renderSafely(() => headerTemplate({
      slips, slipsOn: presentSlipsOn(context).map(({ id }) => id), hold, heldCount: shown.frontMatter.held.length,
      sheetId, kept, damaged, earlier: earlierDesk.shown(), persistence: promise, drawings: drawingsOf(shown), keeping, notices: notices.shown(), unfolded,
    }, actions), head);
  };

  const changed = (): void => {
    whenStill(show, show);
    lookAtPanel();
  };

  /** Slips are tried on the sheet and held states worked out only while somebody looks; once typing rests, or at once after a press here. */
  const lookAtPanel = (): void => {
    clearTimeout(panelTimer);
    if (unfolded !== 'slips' && unfolded !== 'hold') return;
    panelTimer = setTimeout(() => {
      workOutPanel();
      show();
    }, head.contains(document.activeElement) ? 0 : REST);
  };

  const workOutPanel = (): void => {
    if (sheet === undefined) return;
    if (unfolded === 'slips') slips = presentSlipEffects(contextOf(sheet));
    if (unfolded === 'hold') hold = holdDesk.look(contextOf(sheet));
  };

  const holdDesk = createHoldDesk({
    session: () => sheet?.session,
    context: () => (sheet === undefined ? undefined : contextOf(sheet)),
    kept: () => kept,
    now: () => new Date(),
    show: lookAtPanel,
  });

  const notices = createNoticeDesk(show);
  const { tell, tellOfSheet } = notices;

  const earlierDesk = createEarlierDesk({ sheet: () => sheet, earlier, show, tell: tellOfSheet });

  const readKept = async (): Promise<void> => {
    const found = await store.list().catch(() => kept);
    kept = unfolded === 'sheets' || unfolded === 'hold' ? inOrderSeen(found, kept) : found;
    damaged = await store.damaged().catch(() => damaged);
  };

  const refreshKept = async (): Promise<void> => {
    await readKept();
    await earlierDesk.look();
  };

  /** Lists of sheets are read before they are shown: one that was put in order under the finger would open another sheet than was pressed. */
  const unfold = async (panel: PanelName | undefined): Promise<void> => {
    toUnfold = panel;
    if (panel === 'sheets' || panel === 'hold') {
      const read = sheet?.autosave.flush().then(readKept, readKept);
      await Promise.race([read, new Promise((done) => setTimeout(done, LONGEST_READING))]);
      if (toUnfold !== panel) return;
      void read?.then(show);
    }
    unfolded = panel;
    workOutPanel();
    earlierDesk.begin();
    show();
    if (panel === 'sheets') void persistence.look().then(tellPromise);
  };

  const open = async (opening: Opening): Promise<void> => {
    await sheet?.autosave.flush();
    notices.leaveSheet();
    sheet?.close();
    keeping = canKeep ? { state: 'unchanged' } : { state: 'failed', reason: KEEPS_NOTHING };
    const report = (state: KeepingState): void => {
      keeping = state;
      followKeeping(state);
      // The list reads every sheet whole: only while somebody looks at it.
      if (unfolded === 'sheets' && (state.state === 'kept' || state.state === 'copied')) void refreshKept();
      // Its words may take another line, which moves what lies below.
      else whenStill(show, show);
    };
    // One that is kept nowhere yet is not what a later visit would open.
    const awake = opening.revision > 0 ? beginWaking(opening.id) : () => undefined;
    window.addEventListener('spanlife:settled', awake, { once: true });
    window.addEventListener('pagehide', awake, { once: true });
    rememberOpen(opening.id);
    sheet = openSheet(opening, { root, store, earlier, canKeep, report, changed, failed: (error) => tellOfSheet(faultSentence(error)) });
    windows.opened(opening.id);
    await refreshKept();
    if (opening.draft !== undefined) offerDraft(opening.draft);
  };

  /** What another window or the next visit must know of a saving, and what the reader must see of it for as long as it takes. */
  const followKeeping = (state: KeepingState): void => {
    if (sheet === undefined || (state.state !== 'kept' && state.state !== 'copied')) return;
    const { autosave } = sheet;
    rememberOpen(autosave.sheetId());
    windows.kept(autosave.sheetId(), autosave.revision());
    void persistence.ask().then(tellPromise);
    if (state.state !== 'copied') return;
    // What was told of the sheet before holds of the other one now.
    notices.leaveSheet();
    tell('Another window changed this sheet as well: what stands here is kept as a copy of its own, beside the other.', {
      label: 'Show the other one', apply: () => void whileKept(() => openKept(state.otherId)),
    });
  };

  const tellPromise = (answer: Persistence): void => {
    if (promise === answer) return;
    promise = answer;
    if (unfolded === 'sheets') show();
  };

  const offerDraft = (draft: Draft): void => tellOfSheet(draftWords(draft), {
    label: 'Enter it there',
    apply: () => {
      const field = fieldOf(root, draft);
      if (field === undefined) return tellOfSheet(`${draftWords(draft)} That blank is not on the page now: open it and type it again.`);
      enterDraft(field, draft);
    },
  });

  const openKept = async (id: string): Promise<void> => {
    await sheet?.autosave.flush();
    const found = await store.read(id);
    await (found === undefined ? refreshKept() : open(found));
  };

  const windows = createWindows({
    openId: () => sheet?.autosave.sheetId(),
    alsoOpen: () => tellOfSheet('This sheet is open in another window too. Type in one of them only: what is changed in both goes on as two sheets.'),
    keptThere: (revision) => {
      const { autosave } = sheet ?? {};
      if (autosave === undefined || revision <= autosave.revision()) return;
      tellOfSheet('Another window has changed this sheet. What is typed here from now on goes on as a copy.', {
        label: 'Show what it holds now', apply: () => void whileKept(() => openKept(autosave.sheetId())),
      });
    },
  });

  /** A sheet that exists nowhere else yet is kept at once, before anyone has changed it. */
  const openAndKeep = async (opening: Opening): Promise<void> => {
    await open(opening);
    sheet?.autosave.touch();
  };

  const remove = async (id: string): Promise<void> => {
    await sheet?.autosave.flush();
    const gone = await store.read(id);
    const { putBack } = await store.remove(id);
    // Out of the browser with the sheet, and in again with it.
    const before = await earlier.take(id).catch(() => []);
    if (gone === undefined) {
      await refreshKept();
      return tell(composed`The damaged record ${id.slice(0, 40)} is deleted from this browser.`, { label: 'Put it back', apply: () => void whileKept(async () => putBack().then(refreshKept)) });
    }
    if (sheet?.autosave.sheetId() === id) await open(newOpening(startingText('example')));
    else await refreshKept();
    tell(`“${gone.title}” is deleted from this browser.`, {
      label: 'Put it back',
      apply: () => void earlier.putBack(before).catch(() => undefined).then(() => openAndKeep(gone)),
    });
  };

  const actions: HeadActions = {
    unfold: (panel) => void unfold(panel),
    takeAway: (takeaway) => {
      if (sheet === undefined) return;
      const { autosave } = sheet;
      takeAway(takeaway, { context: contextOf(sheet), drawn: sheet.drawn(), own, sheetId: autosave.sheetId(), at: new Date() }).catch(() =>
        tell('The browser could not make this picture. Take the drawing away as SVG instead.'));
    },
    print: () => window.print(),
    toFirstBlank: () => (root.querySelector<HTMLElement>('input[data-measured]:not(:disabled)') ?? root.querySelector<HTMLElement>('.cell input, .cell textarea'))?.focus(),
    lecture: () => sheet?.enterLecture(),
    bringIn: (files) => void bringIn(files, (text) => openAndKeep(newOpening(text)), tell),
    open: (id) => void whileKept(() => openKept(id)),
    takeDamaged: ({ key, content }) => saveFile(fileName(['damaged record', key], 'json'), content, 'application/json;charset=utf-8'),
    remove: (id) => void whileKept(() => remove(id)),
    duplicate: () => {
      if (sheet !== undefined) void openAndKeep(newOpening(serialiseSheet(sheet.session.document()), true));
    },
    start: (from) => void open(newOpening(startingText(from))),
    switchSlip: (id, on) => {
      if (sheet === undefined) return;
      const { session } = sheet;
      session.settle();
      session.apply(id === undefined ? switchAllSlipsOff() : switchSlip(session.document(), id, on));
      session.settle();
    },
    ...holdDesk,
    goBackToEarlier: earlierDesk.goBackToEarlier,
    showMoreEarlier: earlierDesk.showMoreEarlier,
    unfoldEarlier: earlierDesk.unfoldEarlier,
    dismiss: notices.dismiss,
  };

  /** What reaches for the kept sheets may be refused by the browser at any time. */
  const whileKept = (work: () => Promise<void>): Promise<void> =>
    work().catch(() => tell('The browser did not give access to the sheets kept in it. Close the page’s other windows and try again.'));

  listenForFiles(actions.bringIn);
  const leave = (): void => sheet?.autosave.leave();
  document.addEventListener('visibilitychange', () => void (document.hidden && leave()));
  window.addEventListener('pagehide', leave);

  const first = await firstSheet(carried, store, { before: rememberedOpen(), didNotWake });
  await open(first.opening);
  document.querySelector('.lifeless')?.remove();
  const altered = carried.text.ok ? await alteredWords(carried.text.value, carried.stated) : undefined;
  const { text, other } = first.notice ?? {};
  const said = [text, altered].filter((part) => part !== undefined).join(' ');
  if (said !== '') tell(said, other && {
    label: other.label,
    apply: () => void open(other.opening),
  });
}
