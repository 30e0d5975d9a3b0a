import { isolated } from '../core/problem/index.ts';
import { presentSlipEffects, presentSlipsOn, type PresentContext } from '../report/index.ts';
import { nextSpecimen } from '../sheet/index.ts';
import { renderSafely, whenStill } from '../view/index.ts';
import { drawingsOf } from './takeaways.ts';
import { headerTemplate } from './header.ts';
import type { HeadActions, PanelName } from './head-state.ts';
import type { OpenSheet } from './open-sheet.ts';
import type { Page } from './page-now.ts';
import { openKept, readLists, refreshLists, whileKept } from './page-sheets.ts';
import type { PageEffect } from './page-step.ts';
import { titleOf } from './sheet-title.ts';
import { rememberOpen } from './waking.ts';

/** Rest after an edit, ms, before an open panel is worked out anew. */
const REST = 150;

/** What the lists of sheets may wait for the store, ms, before they are shown as they were known last. */
const LONGEST_READING = 400;

export function contextOf({ session }: OpenSheet): PresentContext {
  return { document: session.document(), states: session.states(), system: session.system() };
}

/** Does what follows from an event of the page. */
export function carryOut(effect: PageEffect, page: Page): void {
  switch (effect.do) {
    case 'show': return page.show();
    case 'show when still': return showInFrame(page);
    case 'read lists': return void unfoldWithLists(effect.panel, page);
    case 'refresh lists': return void refreshLists(page);
    case 'work out': return workOut(page);
    case 'work out soon': return workOutSoon(page);
    case 'fold earlier': return page.earlierDesk.begin();
    case 'look at promise': return void page.persistence.look().then((answer) => page.act({ on: 'promise', answer }));
    case 'tell kept': return tellKept(page);
    case 'tell copied': return tellCopied(effect.otherId, page);
  }
}

export function showHead({ now: { sheet, state, example }, head, earlierDesk, collectDesk, teamsDesk, notices }: Page, actions: HeadActions): void {
  if (sheet === undefined) return;
  const shown = sheet.session.document();
  document.title = isolated(titleOf(shown));
  const { promise, ...rest } = state;
  head.classList.toggle('unkept', state.keeping.state === 'failed');
  sheet.drawSide();
  renderSafely(() => headerTemplate({
    ...rest,
    persistence: promise,
    sheetId: sheet.autosave.sheetId(),
    slipsOn: presentSlipsOn(contextOf(sheet)).map(({ id }) => id),
    heldCount: shown.frontMatter.held.length,
    earlier: earlierDesk.shown(),
    collected: collectDesk,
    nextEmpties: state.unfolded === 'sheets' ? nextSpecimen(shown).empties : [],
    teams: state.unfolded === 'takeaways' ? teamsDesk.panel(contextOf(sheet)) : undefined,
    drawings: drawingsOf(shown),
    notices: notices.shown(),
    isFirstMinute: example !== undefined && sheet.unkept === example,
  }, actions), head);
}

let inFrame = 0;

/** Once for all that an edit changes at the head (what can be undone, what is kept), and not before its results are in the page. */
function showInFrame(page: Page): void {
  inFrame ||= requestAnimationFrame(() => {
    inFrame = 0;
    whenStill(page.show, page.show);
  });
}

async function unfoldWithLists(panel: PanelName, page: Page): Promise<void> {
  const read = page.now.sheet?.autosave.flush().then(() => readLists(page), () => readLists(page));
  await Promise.race([read, new Promise((done) => setTimeout(done, LONGEST_READING))]);
  page.act({ on: 'waited for', panel });
  void read?.then(page.show);
}

function workOut({ now: { sheet, state: { unfolded } }, holdDesk, act }: Page): void {
  if (sheet === undefined) return;
  if (unfolded === 'slips') act({ on: 'worked out', slips: presentSlipEffects(contextOf(sheet)) });
  if (unfolded === 'hold') act({ on: 'worked out', hold: holdDesk.look(contextOf(sheet)) });
}

/** Once typing rests, or at once after a press in the head. */
function workOutSoon({ now, head, act }: Page): void {
  clearTimeout(now.panelTimer);
  now.panelTimer = setTimeout(() => act({ on: 'rested' }), head.contains(document.activeElement) ? 0 : REST);
}

/** What another window or the next visit must know of a saving, and what the browser is asked to promise. */
function tellKept({ now: { sheet }, elsewhere, windows, persistence, act }: Page): void {
  if (sheet === undefined) return;
  const { autosave } = sheet;
  rememberOpen(autosave.sheetId());
  elsewhere.keptHere();
  windows.kept(autosave.sheetId(), autosave.revision());
  void persistence.ask().then((answer) => act({ on: 'promise', answer }));
}

function tellCopied(otherId: string, page: Page): void {
  const { notices } = page;
  // What was told of the sheet before holds of the other one now.
  notices.leaveSheet();
  notices.tell('Another window changed this sheet as well: what stands here is kept as a copy of its own, beside the other.', {
    label: 'Show the other one', apply: () => void whileKept(() => openKept(otherId, page), page),
  });
}
