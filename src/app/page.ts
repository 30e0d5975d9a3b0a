import { presentSlipEffects, presentSlipsOn, type PresentContext, type SlipGroup } from '../report/index.ts';
import { serialiseSheet, switchAllSlipsOff, switchSlip } from '../sheet/index.ts';
import { renderSafely, whenStill } from '../view/index.ts';
import { KEEPS_NOTHING, type KeepingState } from './autosave.ts';
import { bringIn, listenForFiles } from './bring-in.ts';
import { drawingsOf } from './drawing-file.ts';
import { headerTemplate } from './header.ts';
import type { HeadActions, Notice, PanelName } from './head-state.ts';
import { createHoldDesk } from './hold-desk.ts';
import type { HoldState } from './hold-panel.ts';
import { firstSheet, newOpening, openSheet, startingText, type Opening, type OpenSheet } from './open-sheet.ts';
import { carriedSheet, ownParts } from './page-parts.ts';
import type { KeptSheet, ShelfStore } from './shelf-store.ts';
import { titleOf } from './sheet-title.ts';
import { takeAway } from './take-away.ts';

/** Rest after an edit, ms, before an open panel is worked out anew. */
const REST = 150;

function contextOf({ session }: OpenSheet): PresentContext {
  return { document: session.document(), states: session.states(), system: session.system() };
}

function faultSentence(error: unknown): string {
  return `A part of the page could not follow the last change (${error instanceof Error ? error.message : String(error)}). The change is kept; load the page again before you go by what it shows.`;
}

/** Starts the page: opens the sheet it carries or the last one kept, and wires the head of the page to it. */
export async function startPage(root: HTMLElement, store: ShelfStore | undefined): Promise<void> {
  const own = ownParts(document);
  const carried = carriedSheet(document);
  const head = document.createElement('header');
  head.className = 'head';
  root.before(head);
  let sheet: OpenSheet | undefined;
  let kept: readonly KeptSheet[] = [];
  let keeping: KeepingState = { state: 'unchanged' };
  let notice: Notice | undefined;
  let unfolded: PanelName | undefined;
  let slips: readonly SlipGroup[] = [];
  let hold: HoldState | undefined;
  let panelTimer: ReturnType<typeof setTimeout> | undefined;

  const show = (): void => {
    if (sheet === undefined) return;
    const shown = sheet.session.document();
    document.title = titleOf(shown);
    const context = contextOf(sheet);
    const sheetId = sheet.autosave.sheetId();
    renderSafely(() => headerTemplate({
      slips, slipsOn: presentSlipsOn(context).map(({ id }) => id), hold, heldCount: shown.frontMatter.held.length,
      sheetId, kept, drawings: drawingsOf(shown), keeping, notice, unfolded,
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

  const tell = (text: string, remedy?: Notice['remedy']): void => {
    notice = remedy === undefined ? { text } : { text, remedy };
    show();
  };

  const quieten = (): void => {
    notice = undefined;
    show();
  };

  const refreshKept = async (): Promise<void> => {
    kept = (await store?.list().catch(() => kept)) ?? [];
    show();
  };

  const open = async (opening: Opening): Promise<void> => {
    await sheet?.autosave.flush();
    sheet?.close();
    keeping = store === undefined ? { state: 'failed', reason: KEEPS_NOTHING } : { state: 'unchanged' };
    const report = (state: KeepingState): void => {
      keeping = state;
      // The list reads every sheet whole: only while somebody looks at it.
      if (unfolded === 'sheets' && (state.state === 'kept' || state.state === 'copied')) void refreshKept();
      // Its words may take another line, which moves what lies below.
      else whenStill(show, show);
    };
    sheet = openSheet(opening, { root, store, report, changed, failed: (error) => tell(faultSentence(error)) });
    await refreshKept();
  };

  /** A sheet that exists nowhere else yet is kept at once, before anyone has changed it. */
  const openAndKeep = async (opening: Opening): Promise<void> => {
    await open(opening);
    sheet?.autosave.touch();
  };

  const remove = async (id: string): Promise<void> => {
    await sheet?.autosave.flush();
    const gone = await store?.read(id);
    if (gone === undefined) return refreshKept();
    await store?.remove(id);
    if (sheet?.autosave.sheetId() === id) await open(newOpening(startingText('example')));
    else await refreshKept();
    tell(`“${gone.title}” is deleted from this browser.`, {
      label: 'Put it back',
      apply: () => {
        quieten();
        void openAndKeep({ ...gone, revision: 0 });
      },
    });
  };

  const actions: HeadActions = {
    unfold: (panel) => {
      unfolded = panel;
      workOutPanel();
      show();
      if (panel === 'sheets' || panel === 'hold') void refreshKept();
    },
    takeAway: (takeaway) => {
      if (sheet === undefined) return;
      const { autosave } = sheet;
      takeAway(takeaway, { context: contextOf(sheet), drawn: sheet.drawn(), own, sheetId: autosave.sheetId(), at: new Date() }).catch(() =>
        tell('The browser could not make this picture. Take the drawing away as SVG instead.'));
    },
    print: () => window.print(),
    lecture: () => sheet?.enterLecture(),
    bringIn: (files) => void bringIn(files, (text) => openAndKeep(newOpening(text)), tell),
    open: (id) => void whileKept(async () => {
      await sheet?.autosave.flush();
      const found = await store?.read(id);
      await (found === undefined ? refreshKept() : open(found));
    }),
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
    dismiss: quieten,
  };

  /** What reaches for the kept sheets may be refused by the browser at any time. */
  const whileKept = (work: () => Promise<void>): Promise<void> =>
    work().catch(() => tell('The browser did not give access to the sheets kept in it. Close the page’s other windows and try again.'));

  listenForFiles(actions.bringIn);
  const leave = (): void => sheet?.autosave.leave();
  document.addEventListener('visibilitychange', () => void (document.hidden && leave()));
  window.addEventListener('pagehide', leave);

  const first = await firstSheet(carried, store);
  await open(first.opening);
  if (first.notice === undefined) return;
  const { fileText } = first;
  tell(first.notice, fileText === undefined ? undefined : {
    label: 'Show the file’s own state',
    apply: () => {
      quieten();
      void openAndKeep(newOpening(fileText, true));
    },
  });
}
