import { ok } from '../core/problem/index.ts';
import { linesOfSheet } from '../graph/index.ts';
import { parseSheet } from '../sheet/index.ts';
import type { LineShelf, SheetWithLines } from '../view/index.ts';
import { textOfFile } from './bring-in.ts';
import type { ShelfStore } from './shelf-store.ts';
import { titleOf } from './sheet-title.ts';

interface LineShelfOptions {
  readonly store: Pick<ShelfStore, 'list'> | undefined;
  /** Id of the sheet that lies open. */
  readonly openId: () => string;
  readonly now: () => Date;
}

/** A fit stands in the text as such a fence: other sheets need not be worked out. */
const FIT = /^ {0,3}(?:`{3,}|~{3,})\s*fit\s*$/m;

/** Lines of the sheets kept in this browser and of files. Their texts are data, worked out like any sheet and not shown. */
export function createLineShelf({ store, openId, now }: LineShelfOptions): LineShelf {
  const read = async (text: string, detail: string): Promise<SheetWithLines> => {
    const document = parseSheet(text);
    const title = titleOf(document);
    return { title, detail, lines: await linesOfSheet(document, title, dayOf(now())) };
  };
  return {
    kept: async () => {
      const sheets = ((await store?.list()) ?? []).filter(({ id, text }) => id !== openId() && FIT.test(text));
      const found: SheetWithLines[] = [];
      for (const { text, detail, changed } of sheets) {
        const sheet = await read(text, [detail, `changed ${dayOf(new Date(changed))}`].filter((part) => part !== '').join(' · '));
        if (sheet.lines.length > 0) found.push(sheet);
      }
      return found;
    },
    ofFile: async (file) => {
      const text = await textOfFile(file);
      return text.ok ? ok(await read(text.value, file.name)) : text;
    },
  };
}

/** The day on the clock of this place. */
function dayOf(time: Date): string {
  const two = (number: number): string => String(number).padStart(2, '0');
  return `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())}`;
}
