import { fail, ok, type Problem } from '../core/problem/index.ts';
import { holdsSpecimens } from '../graph/index.ts';
import { applyEdit, cellIn, cellsOf, parseSheet, serialiseSheet } from '../sheet/index.ts';
import type { RowShelf, SheetWithTables } from '../view/index.ts';
import type { KeptSheet } from './kept-sheet.ts';
import type { ShelfStore } from './shelf-store.ts';

interface RowShelfOptions {
  readonly store: Pick<ShelfStore, 'list' | 'read' | 'save'> | undefined;
  /** Id of the sheet that lies open. */
  readonly openId: () => string;
  readonly now: () => Date;
}

/** A table stands in the text as such a fence: other sheets need not be read. */
const TABLE = /^ {0,3}(?:`{3,}|~{3,})\s*table\s*$/m;

/** Tables of specimens in the sheets kept in this browser, to which a row can be sent. */
export function createRowShelf({ store, openId, now }: RowShelfOptions): RowShelf {
  const saveAs = (sheet: KeptSheet, text: string) => store?.save({ ...sheet, text, changed: now().toISOString() }, sheet.revision);
  return {
    kept: async () => {
      const sheets = ((await store?.list()) ?? []).filter(({ id, text }) => id !== openId() && TABLE.test(text));
      return sheets.map(withTables).filter(({ tables }) => tables.length > 0);
    },
    bring: async (sheetId, table, command) => {
      const sheet = await store?.read(sheetId);
      if (sheet === undefined) return fail(sheetGone());
      const document = parseSheet(sheet.text);
      const block = document.blocks.find(({ id }) => id === table.id);
      // What was shown to the reader was said of these rows and no others.
      const isSame = cellIn(block, 'table')?.rows === table.rows;
      if (!isSame) return fail(tableChanged());
      const edited = applyEdit(document, command);
      if (!edited.ok) return edited;
      const text = serialiseSheet(edited.value);
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

function withTables({ id, title, detail, text }: KeptSheet): SheetWithTables {
  const document = parseSheet(text);
  const tables = cellsOf(document, 'table').filter(holdsSpecimens).map((cell) => ({ cell, label: cell.label ?? cell.id }));
  return { id, title, detail, team: document.frontMatter.entries.get('team')?.trim() ?? '', tables };
}

function sheetGone(): Problem {
  return { code: 'row-sheet-gone', what: 'That sheet is no longer kept in this browser.', mend: 'Choose another one, or take the row away as a file.' };
}

function tableChanged(): Problem {
  return { code: 'row-table-changed', what: 'That table was changed since it was shown here.', mend: 'Choose the table again and look at what would become of it.' };
}

function sheetBusy(): Problem {
  return { code: 'row-sheet-busy', what: 'That sheet is being changed in another window.', mend: 'Send the row again in a moment.' };
}
