import { fail, ok, type Problem } from '../core/problem/index.ts';
import { appendRow, parseSheet, serialiseSheet } from '../sheet/index.ts';
import type { RowShelf } from '../view/index.ts';
import type { KeptSheet, ShelfStore } from './shelf-store.ts';

interface RowShelfOptions {
  readonly store: Pick<ShelfStore, 'list' | 'read' | 'save'> | undefined;
  /** Id of the sheet that lies open. */
  readonly openId: () => string;
  readonly now: () => Date;
}

/** A table stands in the text as such a fence: other sheets need not be read. */
const TABLE = /^ {0,3}(?:`{3,}|~{3,})\s*table\s*$/m;

/** Tables of the sheets kept in this browser, to which a row can be added. */
export function createRowShelf({ store, openId, now }: RowShelfOptions): RowShelf {
  const saveAs = (sheet: KeptSheet, text: string) => store?.save({ ...sheet, text, changed: now().toISOString() }, sheet.revision);
  return {
    kept: async () => {
      const sheets = ((await store?.list()) ?? []).filter(({ id, text }) => id !== openId() && TABLE.test(text));
      return sheets.map(({ id, title, detail, text }) => ({
        id, title, detail,
        tables: parseSheet(text).blocks.flatMap((block) =>
          (block.kind === 'cell' && block.cell.kind === 'table' ? [{ id: block.id, label: block.cell.label ?? block.id }] : [])),
      })).filter(({ tables }) => tables.length > 0);
    },
    add: async (sheetId, tableId, row) => {
      const sheet = await store?.read(sheetId);
      if (sheet === undefined) return fail(sheetGone());
      const added = appendRow(parseSheet(sheet.text), tableId, row);
      if (!added.ok) return added;
      const text = serialiseSheet(added.value);
      const saved = await saveAs(sheet, text);
      if (saved?.done !== true) return fail(sheetBusy());
      return ok(async () => {
        const present = await store?.read(sheetId);
        if (present?.text !== text) return false;
        return (await saveAs(present, sheet.text))?.done === true;
      });
    },
  };
}

function sheetGone(): Problem {
  return { code: 'row-sheet-gone', what: 'That sheet is no longer kept in this browser.', mend: 'Choose another one, or take the row away as a file.' };
}

function sheetBusy(): Problem {
  return { code: 'row-sheet-busy', what: 'That sheet is being changed in another window.', mend: 'Send the row again in a moment.' };
}
