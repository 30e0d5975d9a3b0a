import { problemSentence } from '../core/problem/index.ts';
import type { KeptSheet } from './kept-sheet.ts';
import { firstText, newOpening, type Opening } from './starts.ts';
import type { Carried } from './page-parts.ts';
import type { ShelfStore } from './shelf-store.ts';

interface FirstSheet {
  readonly opening: Opening;
  /** What is said of it, and another sheet that is offered beside it. */
  readonly notice?: { readonly text: string; readonly other?: { readonly label: string; readonly opening: Opening } };
}

interface Visit {
  /** The sheet that this window had open before it was loaded again. */
  readonly before: string | undefined;
  /** Whether a sheet began to come alive the last time and was not heard of again. */
  readonly didNotWake: (id: string) => boolean;
}

/**
 * A working file opens its own sheet in the state that it carries, with what this browser keeps of it offered beside; loaded again in its
 * window, and without a sheet of its own, the page opens what lay open there, else the sheet changed last.
 */
export async function firstSheet(carried: Carried, store: Pick<ShelfStore, 'list'>, visit: Visit): Promise<FirstSheet> {
  const kept = await store.list().catch(() => [] as readonly KeptSheet[]);
  const again = kept.find(({ id }) => id === visit.before);
  const trouble = carried.text.ok ? undefined : problemSentence(carried.text.problem);
  const text = carried.text.ok ? carried.text.value : await firstText();
  const mine = carried.sheetId === undefined ? kept : kept.filter(({ id, origin }) => [id, origin].includes(carried.sheetId));
  const last = again !== undefined && (carried.sheetId === undefined || mine.includes(again)) ? again : mine[0];
  if (last !== undefined && visit.didNotWake(last.id)) return asleep(last, newOpening(text));
  if (last !== undefined && (carried.sheetId === undefined || last === again)) return plain(last, trouble);
  if (carried.sheetId === undefined) return plain(newOpening(text), trouble);
  const same = mine.find((sheet) => sheet.text === text);
  if (same !== undefined) return plain(same, trouble);
  // Whoever opens the file has a copy with an identity of its own, from its first change on.
  const opening: Opening = { id: carried.sheetId, revision: 0, text, isCopy: false, origin: carried.sheetId };
  return last === undefined ? plain(opening, trouble) : beside(opening, last, carried.takenAway);
}

function plain(opening: Opening, trouble: string | undefined): FirstSheet {
  return trouble === undefined ? { opening } : { opening, notice: { text: trouble } };
}

function beside(opening: Opening, kept: KeptSheet, takenAway: string | undefined): FirstSheet {
  const file = takenAway === undefined ? 'This is the sheet as the file holds it.' : `This is the sheet as the file holds it (${takenAway}).`;
  return {
    opening,
    notice: { text: `${file} A sheet from the same origin is kept in this browser, last changed ${timeOf(kept.changed)}.`, other: { label: 'Show the one kept here', opening: kept } },
  };
}

function asleep(kept: KeptSheet, opening: Opening): FirstSheet {
  return {
    opening,
    notice: {
      text: `“${kept.title}”, last changed ${timeOf(kept.changed)}, did not come to life the last time and is not opened by itself. It is kept as it was.`,
      other: { label: 'Open it all the same', opening: kept },
    },
  };
}

function timeOf(iso: string): string {
  return new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short' }).format(new Date(iso));
}
