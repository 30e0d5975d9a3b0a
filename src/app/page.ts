import { keepingInShort } from './keeping-words.ts';
import { listenForFiles } from './bring-in.ts';
import { collectLater } from './collect-later.ts';
import type { Collected } from './collect-types.ts';
import { createEarlierDesk } from './earlier-desk.ts';
import { alteredWords } from './fingerprint.ts';
import { createElsewhere, createRunningMemory } from './elsewhere.ts';
import { firstSheet } from './first-sheet.ts';
import { foldFromNowhere } from './folding.ts';
import { headActions } from './head-actions.ts';
import { watchHead } from './head-away.ts';
import type { HeadActions } from './head-state.ts';
import { createHoldDesk } from './hold-desk.ts';
import { createNoticeDesk } from './notices.ts';
import { carryOut, contextOf, showHead } from './page-effects.ts';
import type { Keeping, Page, PageNow } from './page-now.ts';
import { carriedSheet, ownParts } from './page-parts.ts';
import { open, openAndKeep, openKept, whileKept } from './page-sheets.ts';
import { NEW_PAGE, pageStep, type PageEvent } from './page-step.ts';
import { newOpening } from './starts.ts';
import { teamsLater } from './teams-later.ts';
import { didNotWake, rememberedOpen } from './waking.ts';
import { faultWords } from '../view/index.ts';
import { createWindows, type Windows } from './windows.ts';

/** What an example says of itself. */
const INVENTED = /\binvented\b/;

/** Starts the page: opens the sheet it carries or the last one kept, and wires the head of the page to it. */
export async function startPage(root: HTMLElement, keeping: Keeping): Promise<void> {
  const carried = carriedSheet(document);
  const { page, actions } = putTogether(root, keeping);
  if (carried.text.ok && carried.sheetId === undefined && INVENTED.test(carried.text.value)) page.now.example = carried.text.value;
  root.before(page.head, page.side.element);
  document.documentElement.classList.add('with-side');
  // One file is a sheet to work on; several are a class's.
  listenForFiles((files) => (files.length > 1 ? page.collectDesk.take(files) : actions.bringIn(files)));
  foldFromNowhere(page.head, () => page.now.state.unfolded, actions);
  const leave = (): void => page.now.sheet?.autosave.leave();
  document.addEventListener('visibilitychange', () => void (document.hidden ? leave() : page.elsewhere.look()));
  window.addEventListener('pagehide', leave);

  const first = await firstSheet(carried, keeping.store, { before: rememberedOpen(), didNotWake });
  const begun = new Promise((resolve) => window.addEventListener('spanlife:begun', resolve, { once: true }));
  await open(first.opening, page);
  // Its lines may be drawn after the sheet has been opened, and before: what stops then is told as well, and the head keeps its room until it is filled.
  void begun.then(() => document.querySelector('.lifeless')?.remove());
  watchHead(page.head);
  const altered = carried.text.ok ? alteredWords(carried.text.value, carried.stated) : undefined;
  const { text, other } = first.notice ?? {};
  const said = [text, altered].filter((part) => part !== undefined).join(' ');
  if (said !== '') page.notices.tell(said, other && {
    label: other.label,
    apply: () => void open(other.opening, page),
  });
}

function putTogether(root: HTMLElement, keeping: Keeping): { readonly page: Page; readonly actions: HeadActions } {
  const now: PageNow = { state: NEW_PAGE, sheet: undefined, example: undefined, wishes: 0, panelTimer: undefined };
  const head = document.createElement('header');
  head.className = 'head';
  const side = document.createElement('aside');
  side.className = 'side';
  side.setAttribute('aria-label', 'Results and contents');
  const act = (event: PageEvent): void => {
    const step = pageStep(now.state, event);
    now.state = step.state;
    for (const effect of step.effects) carryOut(effect, page);
  };
  const show = (): void => showHead(page, actions);
  const notices = createNoticeDesk(show);
  const page: Page = {
    ...keeping, root, head, now, side: { element: side, keeping: () => keepingInShort(now.state.keeping) }, act, show, notices,
    own: ownParts(document),
    windows: windowsOf(() => page),
    elsewhere: createElsewhere({
      store: keeping.store,
      memory: createRunningMemory(() => localStorage),
      here: () => now.sheet && { id: now.sheet.autosave.revision() > 0 ? now.sheet.autosave.sheetId() : undefined, document: now.sheet.session.document() },
      changed: () => now.sheet?.drawStrips(),
    }),
    holdDesk: createHoldDesk({
      session: () => now.sheet?.session,
      context: () => (now.sheet === undefined ? undefined : contextOf(now.sheet)),
      kept: () => now.state.kept,
      now: () => new Date(),
      show: () => act({ on: 'look' }),
    }),
    collectDesk: collectDeskOf(() => page),
    teamsDesk: teamsLater(async () => (await import('./teams-desk.ts')).createTeamsDesk({
      session: () => now.sheet?.session,
      context: () => (now.sheet === undefined ? undefined : contextOf(now.sheet)),
      own: () => page.own(), now: () => new Date(), show, tell: notices.tell,
    }), (words) => notices.tell(words)),
    earlierDesk: createEarlierDesk({ sheet: () => now.sheet, earlier: keeping.earlier, show, tell: notices.tellOfSheet }),
  };
  const actions = headActions(page);
  return { page, actions };
}

/** A class's returned files, as the head of the page shows them. */
function collectDeskOf(page: () => Page): Collected {
  const inHead = (selector: string): HTMLElement | null => page().head.querySelector<HTMLElement>(selector);
  const openAsSheet = (text: string): void => void openAndKeep(newOpening(text), page());
  return collectLater(async () => (await import('./collecting.ts')).startCollecting({
    show: () => page().show(),
    unfold: () => {
      if (page().now.state.unfolded === 'collect') return;
      page().act({ on: 'unfold', panel: 'collect' });
      inHead('.collect-head')?.focus();
    },
    bringBeside: () => inHead('.collect-beside')?.scrollIntoView({ block: 'nearest' }),
    backToTeam: (id) => inHead(`[data-returned="${id}"]`)?.focus(),
    openAsSheet,
    now: () => new Date(),
    failed: (error) => page().notices.tell(`What wrong results come of could not be looked for in every sheet (${faultWords(error)}).`),
    memory: () => localStorage,
  }, () => page().now.sheet?.session), (words) => page().notices.tell(words));
}

function windowsOf(page: () => Page): Windows {
  return createWindows({
    openId: () => page().now.sheet?.autosave.sheetId(),
    keptOther: (id) => page().elsewhere.keptThere(id),
    alsoOpen: () => page().notices.tellOfSheet('This sheet is open in another window too. Type in one of them only: what is changed in both goes on as two sheets.'),
    keptThere: (revision) => {
      const { now: { sheet }, notices } = page();
      if (sheet === undefined || revision <= sheet.autosave.revision()) return;
      notices.tellOfSheet('Another window has changed this sheet. What is typed here from now on goes on as a copy.', {
        label: 'Show what it holds now', apply: () => void whileKept(() => openKept(sheet.autosave.sheetId(), page()), page()),
      });
    },
  });
}
