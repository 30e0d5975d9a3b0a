import * as v from 'valibot';
import type { FoldMemory, Remembered } from '../view/index.ts';

const KEY = 'spanlife-folds';
/** Sheets of which it is remembered; those looked at longest ago give way. */
const MOST_SHEETS = 60;
/** What holds for a sheet of which nothing is remembered yet. */
const ANY_SHEET = '';

const KEPT = v.record(v.string(), v.object({ open: v.array(v.string()), folded: v.array(v.string()) }));

/** Remembers by sheet what of it is open and what is folded. Without storage it is not remembered. */
export function createFoldMemory(sheetId: () => string): FoldMemory {
  return {
    read: () => {
      const kept = readAll();
      return kept[sheetId()] ?? kept[ANY_SHEET];
    },
    write: (state) => writeAll(withSheet(readAll(), sheetId(), state)),
  };
}

function withSheet({ [ANY_SHEET]: any, ...kept }: Readonly<Record<string, Remembered>>, id: string, state: Remembered): Readonly<Record<string, Remembered>> {
  const others = Object.entries(kept).filter(([other]) => other !== id).slice(-(MOST_SHEETS - 1));
  return Object.fromEntries([...(any === undefined ? [] : [[ANY_SHEET, any] as const]), ...others, [id, state]]);
}

function readAll(): Readonly<Record<string, Remembered>> {
  try {
    const read = v.safeParse(KEPT, JSON.parse(localStorage.getItem(KEY) ?? '{}'));
    return read.success ? read.output : {};
  } catch {
    // Nothing is kept here, or what is kept was written by something else.
    return {};
  }
}

function writeAll(kept: Readonly<Record<string, Remembered>>): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(kept));
  } catch {
    // The browser keeps nothing for this page: the sheet opens as it comes.
  }
}
