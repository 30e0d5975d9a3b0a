import { composed } from '../core/problem/index.ts';
import { draftWords, enterDraft, fieldOf } from './drafts.ts';
import type { Draft } from './kept-sheet.ts';
import { openSheet } from './open-sheet.ts';
import { rememberPlace } from './place-memory.ts';
import type { Page } from './page-now.ts';
import { firstText, newOpening, type Opening } from './starts.ts';
import { faultWords, partWords, type TestElsewhere } from '../view/index.ts';
import { beginWaking, rememberOpen } from './waking.ts';

/** So far below the head of the window a record stands that was gone to, px. */
const WELL_IN_VIEW = 60;

/** Lays another sheet open; the one before is kept first. */
export async function open(opening: Opening, page: Page): Promise<void> {
  const { root, side, store, earlier, canKeep, notices, windows, now, act } = page;
  now.wishes += 1;
  await now.sheet?.autosave.flush();
  notices.leaveSheet();
  now.sheet?.close();
  // One that is kept nowhere yet is not what a later visit would open.
  const awake = opening.revision > 0 ? beginWaking(opening.id) : () => undefined;
  window.addEventListener('spanlife:settled', awake, { once: true });
  window.addEventListener('pagehide', awake, { once: true });
  rememberOpen(opening.id);
  act({ on: 'opened', canKeep });
  const opened = openSheet(opening, {
    root, side, store, earlier, canKeep,
    elsewhere: { tests: page.elsewhere.tests, open: (test) => void whileKept(() => openTest(test, page), page) },
    report: (state) => act({ on: 'keeping', state }),
    changed: () => act({ on: 'changed' }),
    failed: (error) => notices.tellOfSheet(faultSentence(error)),
    partFailed: (error, again) => notices.tellOfSheet(partWords(error), { label: 'Try again', apply: again }),
  });
  now.sheet = opened;
  windows.opened(opening.id);
  page.elsewhere.keptHere();
  await refreshLists(page);
  // Another one may have been opened meanwhile, whose blanks are others.
  if (opening.draft !== undefined && now.sheet === opened) offerDraft(opening.draft, page);
}

/** A sheet that exists nowhere else yet is kept at once, before anyone has changed it. */
export async function openAndKeep(opening: Opening, page: Page): Promise<void> {
  await open(opening, page);
  page.now.sheet?.autosave.touch();
}

export async function openKept(id: string, page: Page): Promise<void> {
  const { now, store } = page;
  const wish = (now.wishes += 1);
  await now.sheet?.autosave.flush();
  const found = await store.read(id);
  if (wish !== now.wishes) return;
  await (found === undefined ? refreshLists(page) : open(found, page));
}

/** Lays the sheet of a test open where its record stands. */
async function openTest({ sheetId, cell }: TestElsewhere, page: Page): Promise<void> {
  rememberPlace(sheetId, { blocks: [cell.id], offset: -WELL_IN_VIEW });
  const isThere = (): boolean => page.now.sheet?.autosave.sheetId() === sheetId;
  const arrive = (): void => {
    if (!isThere()) return;
    window.removeEventListener('spanlife:settled', arrive);
    page.now.sheet?.arriveAt(cell.id);
  };
  // Before it is opened: it may be all there before this goes on.
  window.addEventListener('spanlife:settled', arrive);
  await openKept(sheetId, page);
  if (isThere()) return;
  window.removeEventListener('spanlife:settled', arrive);
  await page.elsewhere.look();
}

export async function remove(id: string, page: Page): Promise<void> {
  const { now, store, earlier, notices: { tell } } = page;
  await now.sheet?.autosave.flush();
  const gone = await store.read(id);
  const { putBack } = await store.remove(id);
  // Out of the browser with the sheet, and in again with it.
  const before = await earlier.take(id).catch(() => []);
  if (gone === undefined) {
    await refreshLists(page);
    return tell(composed`The damaged record ${id.slice(0, 40)} is deleted from this browser.`, {
      label: 'Put it back', apply: () => void whileKept(async () => putBack().then(() => refreshLists(page)), page),
    });
  }
  if (now.sheet?.autosave.sheetId() === id) await open(newOpening(await firstText()), page);
  else await refreshLists(page);
  tell(`“${gone.title}” is deleted from this browser.`, {
    label: 'Put it back',
    apply: () => void earlier.putBack(before).catch(() => undefined).then(() => openAndKeep(gone, page)),
  });
}

/** What reaches for the kept sheets may be refused by the browser at any time. */
export function whileKept(work: () => Promise<void>, { notices: { tell } }: Page): Promise<void> {
  return work().catch(() => tell('The browser did not give access to the sheets kept in it. Close the page’s other windows and try again.'));
}

export async function readLists({ store, now, act }: Page): Promise<void> {
  const kept = await store.list().catch(() => undefined);
  const damaged = await store.damaged().catch(() => undefined);
  act({ on: 'lists read', kept: kept ?? now.state.kept, damaged: damaged ?? now.state.damaged });
}

export async function refreshLists(page: Page): Promise<void> {
  await readLists(page);
  await page.earlierDesk.look();
}

function offerDraft(draft: Draft, { root, notices: { tellOfSheet } }: Page): void {
  tellOfSheet(draftWords(draft), {
    label: 'Enter it there',
    apply: () => {
      const field = fieldOf(root, draft);
      if (field === undefined) return tellOfSheet(`${draftWords(draft)} That blank is not on the page now: open it and type it again.`);
      enterDraft(field, draft);
    },
  });
}

function faultSentence(error: unknown): string {
  return `A part of the page could not follow the last change (${faultWords(error)}). The change is kept; load the page again before you go by what it shows.`;
}
