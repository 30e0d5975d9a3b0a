import { freshSheetId, type KeptSheet, type ShelfStore } from './shelf-store.ts';

/**
 * What was typed in the last moment before a page went away. The browser's database answers too late for a page that is
 * being closed; its small synchronous storage does not. The next page that opens moves it to where sheets are kept.
 */
const PREFIX = 'spanlife-last-words:';

/** Sets a sheet aside while the page goes away. Where even that storage is refused, the saving under way is all there is. */
export function setAside(sheet: KeptSheet): void {
  try {
    localStorage.setItem(PREFIX + sheet.id, JSON.stringify(sheet));
  } catch {
    // Refused or full. Nobody is left to be told: the page is closing, and said before that it keeps nothing.
  }
}

/** The sheet has reached the place where sheets are kept. */
export function forgetAside(sheetId: string): void {
  try {
    localStorage.removeItem(PREFIX + sheetId);
  } catch {
    // Where this storage is refused, nothing was set aside.
  }
}

/** Moves what was set aside to the store; what another window changed since is kept as a copy beside it. */
export async function keepLastWords(store: ShelfStore): Promise<void> {
  for (const sheet of setAsideSheets()) {
    const { revision, ...rest } = sheet;
    const saved = await store.save(rest, revision);
    if (!saved.done) await store.save({ ...rest, id: freshSheetId(), isCopy: true }, 0);
    forgetAside(sheet.id);
  }
}

function setAsideSheets(): readonly KeptSheet[] {
  try {
    return Object.keys(localStorage)
      .filter((key) => key.startsWith(PREFIX))
      .flatMap((key) => readSheet(localStorage.getItem(key) ?? ''));
  } catch {
    return [];
  }
}

/** Other pages opened from files may write to the same storage: what is not a sheet is none of ours. */
function readSheet(json: string): readonly KeptSheet[] {
  try {
    const value = JSON.parse(json) as Partial<Record<keyof KeptSheet, unknown>> | null;
    if (typeof value !== 'object' || value === null) return [];
    const { id, title, detail, text, changed, revision, isCopy } = value;
    return typeof id === 'string' && typeof title === 'string' && typeof detail === 'string' && typeof text === 'string' &&
      typeof changed === 'string' && typeof revision === 'number' && typeof isCopy === 'boolean'
      ? [{ id, title, detail, text, changed, revision, isCopy }]
      : [];
  } catch {
    return [];
  }
}
