import { readKeptSheet, type KeptSheet } from './kept-sheet.ts';
import { freshSheetId, type ShelfStore } from './shelf-store.ts';

/**
 * What was typed in the last moment before a page went away. The browser's database answers too late for a page that is
 * being closed; its small synchronous storage does not. The next page that opens moves it to where sheets are kept.
 */
const PREFIX = 'spanlife-last-words:';

/**
 * Sets a sheet aside while the page goes away. Where even that storage is refused, the saving under way is all there is.
 * @param window a name that no other window has: two of them may go away with the same sheet
 */
export function setAside(window: string, sheet: KeptSheet): void {
  try {
    localStorage.setItem(PREFIX + window, JSON.stringify(sheet));
  } catch {
    // Refused or full. Nobody is left to be told: the page is closing, and said before that it keeps nothing.
  }
}

/** What a window had set aside has reached the place where sheets are kept. */
export function forgetAside(window: string): void {
  try {
    localStorage.removeItem(PREFIX + window);
  } catch {
    // Where this storage is refused, nothing was set aside.
  }
}

/** Moves what was set aside to the store; what another window changed since is kept as a copy beside it. */
export async function keepLastWords(store: ShelfStore): Promise<void> {
  for (const { window, sheet } of setAsideSheets()) {
    const { revision, order: _, ...rest } = sheet;
    const saved = await store.save(rest, revision);
    if (!saved.done) await store.save({ ...rest, id: freshSheetId(), isCopy: true }, 0);
    forgetAside(window);
  }
}

function setAsideSheets(): readonly { readonly window: string; readonly sheet: KeptSheet }[] {
  try {
    return Object.keys(localStorage)
      .filter((key) => key.startsWith(PREFIX))
      .flatMap((key) => readSheet(localStorage.getItem(key) ?? '').map((sheet) => ({ window: key.slice(PREFIX.length), sheet })));
  } catch {
    return [];
  }
}

/** Other pages opened from files may write to the same storage: what is not a sheet is none of ours. */
function readSheet(json: string): readonly KeptSheet[] {
  try {
    const sheet = readKeptSheet(JSON.parse(json));
    return sheet === undefined ? [] : [sheet];
  } catch {
    return [];
  }
}
